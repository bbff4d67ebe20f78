/**
 * Deep layers and large batches. The maker's limits bind, whatever a calculation says. No peak temperature is
 * predicted: it hangs on heat of reaction, conversion, geometry and what the form is made of, and a figure without
 * them would be trusted more than it deserves.
 */
import { layerDepthMm } from '../routing/index.ts';
import type { Layer, PieceSize, Resin } from '../shop/index.ts';

/** From this share of a maker's limit on, heat is spoken of. Common practice, no source. */
const NEAR_THE_LIMIT = 0.8;

/**
 * The depths of the pours, in tenths of a millimetre that add up to `depthMm`, as even as can be and none deeper than
 * the maker allows.
 * @throws RangeError when the maker allows no such split: a depth below the smallest, or pours that would be
 */
export function splitDepth(
  resin: Pick<Resin, 'id' | 'smallestDepthMm' | 'largestDepthMm'>,
  depthMm: number,
): number[] {
  const tenths = Math.round(depthMm * 10);
  const pours = Math.ceil(tenths / Math.floor(resin.largestDepthMm * 10 + 1e-9));
  const least = Math.floor(tenths / pours);
  if (!(tenths > 0) || least / 10 < resin.smallestDepthMm) {
    throw new RangeError(
      `depth: ${depthMm} mm of "${resin.id}" cannot be poured: a pour of it is ${resin.smallestDepthMm} to ${resin.largestDepthMm} mm deep`,
    );
  }
  const deeper = tenths - least * pours;
  return Array.from({ length: pours }, (_, i) => (least + (i < deeper ? 1 : 0)) / 10);
}

/**
 * A layer as the pours that the maker allows, from the bottom up: each with its own share of the wood, its own tack
 * window, mix and bubble passes. A layer that is shallow enough comes back as it is.
 * @throws RangeError when the maker allows no such split
 */
export function splitLayer(layer: Layer, resin: Resin, size: PieceSize): Layer[] {
  const depthMm = layerDepthMm(layer, size);
  const depths = splitDepth(resin, depthMm);
  if (depths.length === 1) return [layer];
  let below = 0;
  return depths.map((own): Layer => {
    const from = below;
    below += own;
    const wood = woodBetween(layer.wood, from, own);
    const { wood: _, volumeMl, ...rest } = layer;
    return {
      ...rest,
      depthMm: own,
      ...(volumeMl === undefined ? {} : { volumeMl: (volumeMl * own) / depthMm }),
      ...(wood ? { wood } : {}),
    };
  });
}

/** Measured pieces of wood stand on the bottom of the layer and may end below its top; the others go all through. */
function woodBetween(wood: Layer['wood'], fromMm: number, depthMm: number): Layer['wood'] {
  if (!wood || !('pieces' in wood)) return wood;
  const pieces = wood.pieces
    .map((piece) => ({ ...piece, thicknessMm: Math.min(depthMm, piece.thicknessMm - fromMm) }))
    .filter(({ thicknessMm }) => thicknessMm >= 0.1);
  return pieces.length > 0 ? { pieces } : undefined;
}

/** What to say of the heat of a pour, or nothing: it is spoken of from 80 % of the maker's largest depth or batch on. */
export function heatRemark(
  resin: Resin,
  pour: { readonly depthMm: number; readonly batchMl: number },
): string | null {
  const share = (of: number, limit: number): string => `${Math.round((of / limit) * 100)} %`;
  const deep = pour.depthMm >= NEAR_THE_LIMIT * resin.largestDepthMm;
  const large = pour.batchMl >= NEAR_THE_LIMIT * resin.largestBatchMl;
  if (!deep && !large) return null;
  const what = [
    ...(deep ? [`${share(pour.depthMm, resin.largestDepthMm)} of the largest depth`] : []),
    ...(large ? [`${share(pour.batchMl, resin.largestBatchMl)} of the largest batch`] : []),
  ].join(' and ');
  return `${what} that the maker of ${resin.name} allows: it will get warm; pour at once, do not leave it in the cup`;
}
