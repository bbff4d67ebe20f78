/** The whole shop file, version 1. Its output type is the `Shop` that the rest of the engine reads. */
import * as v from 'valibot';
import { type id, text, timeOff, type Frozen } from './basics.ts';
import { costs, mixing } from './mixing.ts';
import { person } from './person.ts';
import { piece } from './piece.ts';
import { bench, form, room, tool, warmBox } from './place.ts';
import { recipe } from './recipe.ts';
import { resin } from './resin.ts';

export const SHOP_FORMAT = 'pourwright.shop';
export const SHOP_VERSION = 1;

export const shopSchema = v.strictObject({
  format: v.literal(SHOP_FORMAT, `must be "${SHOP_FORMAT}"`),
  version: v.literal(SHOP_VERSION, `must be ${SHOP_VERSION}`),
  name: text,
  /** IANA time zone, such as "Europe/Lisbon". */
  zone: text,
  /** How amounts are shown; everything is stored metric. */
  units: v.optional(v.picklist(['metric', 'us'], 'must be "metric" or "us"'), 'metric'),
  /** How mixes are measured, and what counts as off. */
  mixing: v.optional(mixing, {}),
  costs: v.optional(costs),
  rooms: v.pipe(v.array(room), v.minLength(1, 'must hold at least one room')),
  people: v.pipe(v.array(person), v.minLength(1, 'must hold at least one person')),
  /** Days on which nobody works. */
  closures: v.optional(v.array(timeOff), []),
  forms: v.pipe(v.array(form), v.minLength(1, 'must hold at least one form')),
  benches: v.pipe(v.array(bench), v.minLength(1, 'must hold at least one bench')),
  warmBoxes: v.optional(v.array(warmBox), []),
  tools: v.optional(v.array(tool), []),
  resins: v.pipe(v.array(resin), v.minLength(1, 'must hold at least one resin')),
  recipes: v.pipe(v.array(recipe), v.minLength(1, 'must hold at least one recipe')),
  pieces: v.optional(v.array(piece), []),
});

/** What a maker may write: fields with a default may be left out. */
export type ShopFile = v.InferInput<typeof shopSchema>;

/** The shop with every default filled in. */
export type Shop = Frozen<v.InferOutput<typeof shopSchema>>;

export type Id = v.InferOutput<typeof id>;
export type Room = Shop['rooms'][number];
export type Person = Shop['people'][number];
export type Skill = Person['can'][number];
export type Mixing = Shop['mixing'];
export type RecurringHours = Person['hours'][number];
export type TimeOff = Shop['closures'][number];
export type Form = Shop['forms'][number];
export type Bench = Shop['benches'][number];
export type WarmBox = Shop['warmBoxes'][number];
export type Tool = Shop['tools'][number];
export type Resin = Shop['resins'][number];
export type Recipe = Shop['recipes'][number];
export type Layer = Recipe['layers'][number];
export type Coat = Recipe['coats'][number];
export type Work = Recipe['demold']['work'];
export type Piece = Shop['pieces'][number];
export type PieceSize = Piece['size'];
export type Pin = Piece['pins'][number];
export type Actual = Piece['actuals'][number];
export type TouchTest = Piece['touchTests'][number];
