/** The shop as its maker writes it down: the file, its defaults, its faults. */
export { fallback } from './defaults.ts';
export { fault, type Fault } from './faults.ts';
export { readJson } from './json-text.ts';
export { parseShop, readShop, type ParsedShop } from './parse.ts';
export { serializeShop } from './serialize.ts';
export { shapeFaults } from './shape.ts';
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
  Mixing,
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
export { ENTRY_NAMES } from './references.ts';
export {
  degCOfDegF,
  degFOfDegC,
  massText,
  ML_PER_US_FLUID_OUNCE,
  MM_PER_INCH,
  temperatureText,
  type Units,
  usFluidOuncesOfMl,
  volumeText,
} from './units.ts';
