/** The shop as its maker writes it down: the file, its defaults, its faults. */
export { fallback } from './defaults.ts';
export type { Fault } from './faults.ts';
export { parseShop, readShop, type ParsedShop } from './parse.ts';
export { serializeShop } from './serialize.ts';
export { isApplication, isAttended, stepNames } from './step-names.ts';
export type { Frozen } from './schema/basics.ts';
export { SHOP_FORMAT, SHOP_VERSION, shopSchema } from './schema/shop.ts';
export type {
  Actual,
  Bench,
  Coat,
  Form,
  Id,
  Layer,
  Person,
  Piece,
  PieceSize,
  Pin,
  Recipe,
  RecurringHours,
  Resin,
  Room,
  Shop,
  ShopFile,
  Skill,
  TimeOff,
  Tool,
  TouchTest,
  WarmBox,
  Work,
} from './schema/shop.ts';
