/** From a shop, or what a maker may write, to the text of a shop file. */
import type { GenericSchema } from 'valibot';
import { isKeyed, meantOption, type Node } from './schema-node.ts';
import { shopSchema, type Shop, type ShopFile } from './schema/shop.ts';

/**
 * The file's text: JSON, two spaces, keys in the schema's order whatever order they came in, a new line at the end.
 * Reading it gives the same shop again; the same shop gives the same bytes.
 */
export const serializeShop = (shop: Shop | ShopFile): string =>
  `${JSON.stringify(inOrder(shopSchema, shop), null, 2)}\n`;

function inOrder(schema: GenericSchema, value: unknown): unknown {
  const { wrapped, entries, item, options }: Node = schema;
  if (wrapped) return inOrder(wrapped, value);
  const meant = options && meantOption(options, value);
  if (meant) return inOrder(meant, value);
  if (Array.isArray(value)) return item ? value.map((each: unknown) => inOrder(item, each)) : value;
  if (!isKeyed(value) || !entries) return value;
  const given = Object.keys(entries).filter((key) => Object.hasOwn(value, key) && value[key] !== undefined);
  return Object.fromEntries(given.map((key) => [key, inOrder(entries[key], value[key])]));
}
