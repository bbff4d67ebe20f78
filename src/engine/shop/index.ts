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
export {
  avoirdupoisOuncesOfG,
  CUBIC_INCHES_PER_US_FLUID_OUNCE,
  degCOfDegF,
  degFOfDegC,
  G_PER_AVOIRDUPOIS_OUNCE,
  gOfAvoirdupoisOunces,
  inchesOfMm,
  lengthText,
  massText,
  ML_PER_US_FLUID_OUNCE,
  ML_PER_US_GALLON,
  mlOfUsFluidOunces,
  MM_PER_INCH,
  mmOfInches,
  temperatureText,
  type Units,
  usFluidOuncesOfMl,
  volumeText,
} from './units.ts';
