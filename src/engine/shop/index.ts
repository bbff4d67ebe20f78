export { fallback } from './defaults.ts';
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
