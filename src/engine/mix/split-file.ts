/** A shop file whose recipes have layers that are too deep, with each of them as the pours that its maker allows. */
import * as v from 'valibot';
import { serializeShop, shopSchema, type ShopFile } from '../shop/index.ts';
import { splitLayer } from './depth.ts';

export interface SplitLayerOfFile {
  readonly recipe: string;
  /** The layer's number in its recipe before any splitting, from 1. */
  readonly layer: number;
  readonly depthsMm: readonly number[];
}

export interface SplitFile {
  /** The file's text with nothing else changed, no defaults filled in. */
  readonly text: string;
  readonly split: readonly SplitLayerOfFile[];
}

/**
 * Splits every layer of `text` that states a depth above its resin's largest. Null when the text has not the shape of
 * a shop file: its reader tells why.
 * @throws RangeError where the maker allows no such split
 */
export function splitDeepLayers(text: string): SplitFile | null {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return null;
  }
  const read = v.safeParse(shopSchema, json);
  if (!read.success) return null;
  const file = json as ShopFile;
  const split: SplitLayerOfFile[] = [];
  const recipes = file.recipes.map((recipe, r) => ({
    ...recipe,
    layers: recipe.layers.flatMap((layer, l): unknown[] => {
      const whole = read.output.recipes[r].layers[l];
      const resin = read.output.resins.find(({ id }) => id === whole.resin);
      if (!resin || whole.depthMm === undefined || whole.depthMm <= resin.largestDepthMm) return [layer];
      // The size of a piece matters only to layers that state a volume instead of a depth.
      const pours = splitLayer(whole, resin, { lengthMm: 1000, widthMm: 1000 });
      split.push({ recipe: recipe.id, layer: l + 1, depthsMm: pours.map(({ depthMm }) => depthMm ?? 0) });
      const { wood: _, ...rest } = layer;
      return pours.map(({ depthMm, volumeMl, wood }) => ({
        ...rest,
        depthMm,
        ...(volumeMl === undefined ? {} : { volumeMl }),
        ...(wood ? { wood } : {}),
      }));
    }),
  }));
  if (split.length === 0) return { text, split };
  // The wood of a pour was read from this file, with its counts filled in; nothing in it can be other than the file's.
  return { text: serializeShop({ ...file, recipes: recipes as ShopFile['recipes'] }), split };
}
