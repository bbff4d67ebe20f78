/** What routing knows of one piece once its blocks are starts of the model. */
import type { Literal, MonotoneMap } from '../schedule/model.ts';
import type { Bench, Form, Person } from '../shop/index.ts';
import type { Intervals } from '../time/index.ts';
import type { Standing } from './ground.ts';
import type { Block, Itinerary } from './itinerary.ts';

/** Something that holds under these literals, all of them; none: always. */
export interface Option<T> {
  readonly value: T;
  readonly when: readonly Literal[];
}

/** The people who do a block together, and the hours in which all of them are there. */
export interface Crew {
  readonly people: readonly Person[];
  readonly open: Intervals;
}

/** What has happened to a block already. */
export interface Past {
  readonly start: number;
  /** When its first step began: a mix may take longer or shorter than foreseen, or wait for its pour. */
  readonly begins: number;
  /** Its end, or the end foreseen when it is under way. */
  readonly end: number;
  readonly state: 'begun' | 'done';
}

export interface RoutedBlock {
  readonly block: Block;
  /** Index of its start in the model. */
  readonly start: number;
  readonly past: Past | null;
  /** Literals under which it is done at all; empty: always. */
  readonly present: readonly Literal[];
  readonly crews: readonly Option<Crew>[];
  /** Its end as a map of its start. */
  readonly ends: readonly Option<MonotoneMap>[];
}

/** Where a piece may stand, from stay to stay. */
export interface Stays {
  /** The form's kind, and the bench and standing while the piece is in it. */
  readonly forms: readonly Option<Form>[];
  readonly formBenches: readonly Option<Bench>[];
  readonly formStandings: readonly Option<Standing>[];
  /** The bench of the rest after demolding: in the room where the form stood. */
  readonly restBenches: readonly Option<Bench>[];
  /** The bench on which coats set, and where that is. */
  readonly coatBenches: readonly Option<Bench>[];
  readonly coatStandings: readonly Option<Standing>[];
}

export interface PieceRoute extends Stays {
  readonly itinerary: Itinerary;
  readonly blocks: readonly RoutedBlock[];
  readonly byId: ReadonlyMap<string, RoutedBlock>;
  /** For each application over another: the literal that is true when it is poured inside the window. */
  readonly recoat: ReadonlyMap<string, Literal>;
}
