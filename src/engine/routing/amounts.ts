/** How much resin a layer or a thin application takes: geometry less the wood. */
import type { Layer, PieceSize } from '../shop/index.ts';

/** Area in square metres. */
export const areaM2 = (size: PieceSize): number => (size.lengthMm * size.widthMm) / 1e6;

/** Area of a simple polygon in mm2 (the shoelace formula), whichever way round its corners go. */
function outlineMm2(corners: readonly (readonly number[])[]): number {
  let twice = 0;
  corners.forEach(([x, y], i) => {
    const [nextX, nextY] = corners[(i + 1) % corners.length];
    twice += x * nextY - nextX * y;
  });
  return Math.abs(twice) / 2;
}

/** Volume of the wood inside a layer of `depthMm`, in mL; never more than the layer itself. */
function woodMl(layer: Layer, size: PieceSize, depthMm: number): number {
  const { wood } = layer;
  const layerMl = (size.lengthMm * size.widthMm * depthMm) / 1000;
  if (!wood) return 0;
  if ('coverPercent' in wood) return (layerMl * wood.coverPercent) / 100;
  const mm2 =
    'pieces' in wood
      ? wood.pieces.reduce(
          (sum, p) => sum + (p.count * p.lengthMm * p.widthMm * Math.min(p.thicknessMm, depthMm)) / depthMm,
          0,
        )
      : wood.outlines.reduce((sum, outline) => sum + outlineMm2(outline), 0);
  return Math.min(layerMl, (mm2 * depthMm) / 1000);
}

/** Resin in a layer, in mL: what the file states, or the layer's box less its wood. */
export function layerVolumeMl(layer: Layer, size: PieceSize): number {
  if (layer.volumeMl !== undefined) return layer.volumeMl;
  const depthMm = layer.depthMm ?? 0;
  return (size.lengthMm * size.widthMm * depthMm) / 1000 - woodMl(layer, size, depthMm);
}

/** Depth of a layer in mm: what the file states, or its volume spread over the piece. */
export const layerDepthMm = (layer: Layer, size: PieceSize): number =>
  layer.depthMm ?? ((layer.volumeMl ?? 0) * 1000) / (size.lengthMm * size.widthMm);

/** Resin in a seal or coat, in mL. */
export const thinVolumeMl = (coverMlPerM2: number, size: PieceSize): number => coverMlPerM2 * areaM2(size);
