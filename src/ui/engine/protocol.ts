/** What is said between the screen and its workers. One map of questions to answers types both ends. */
import type {
  ApplicationCure,
  LegalPlaces,
  PersonOpen,
  Plan,
  Resin,
  ResinTimes,
  RoomAir,
  Shop,
  Span,
} from '../../engine/index.ts';

import type { CupOfPour, FormCard, RunSheet, SheetChoice, StockReport } from '../../engine/formats/index.ts';

/** One thing wrong or odd in a file: where, what stands there, what would be right. */
export interface FileFault {
  readonly path: string;
  readonly found: string;
  readonly message: string;
}

export type Opened =
  | { readonly ok: true; readonly shop: Shop; readonly warnings: readonly FileFault[] }
  | { readonly ok: false; readonly faults: readonly FileFault[] };

/** A plan, checked. `broken`: rules the checker found broken, in words; our fault. */
export interface Planned {
  readonly plan: Plan;
  readonly broken: readonly string[];
}

export type PlanAnswer =
  | { readonly ok: true; readonly planned: Planned }
  | { readonly ok: false; readonly faults: readonly FileFault[] };

export interface Surroundings {
  readonly range: Span;
  readonly air: readonly RoomAir[];
  readonly hours: readonly PersonOpen[];
}

export interface PlanRequest {
  readonly shop: Shop;
  readonly now: string;
  readonly seed: number;
  readonly budget: number;
  readonly standing?: Plan;
  readonly known?: Plan;
}

export type PromiseAnswer =
  /** `plan` holds the new piece under the name `piece`. */
  | { readonly ok: true; readonly ready: string; readonly piece: string; readonly plan: Plan }
  | { readonly ok: false; readonly clash: readonly string[] };

/** What is asked of one plan, sent along: it need not be the held one. */
interface OfPlan {
  readonly shop: Shop;
  readonly plan: Plan;
}

export interface Paper {
  readonly sheet: RunSheet;
  readonly cards: readonly FormCard[];
}

/** A file to save, by what is in it. */
export type FileKind = 'calendar' | 'steps' | 'materials' | 'record';

export interface Asks {
  /** Parses a shop file's text. */
  readonly open: { readonly question: { readonly text: string }; readonly answer: Opened };
  /** Parses a plan document's text; null when it is none of ours. */
  readonly readPlan: {
    readonly question: { readonly text: string; readonly shop: Shop };
    readonly answer: Planned | null;
  };
  /** Plans; replies with better and better plans before the last one. */
  readonly plan: { readonly question: PlanRequest; readonly answer: PlanAnswer };
  /** Whether a shop in which something of `piece` has been fixed can be planned; the plan that shows it, or what clashes. */
  readonly tryPlan: {
    readonly question: PlanRequest & { readonly piece: string };
    readonly answer: PlanAnswer;
  };
  /** Goes through a re-plan without searching and forgets it, so that the next one finds its tables made. */
  readonly rehearse: { readonly question: PlanRequest; readonly answer: null };
  /** The first plan that `plan` would show; null where that is not there soon. */
  readonly foresee: { readonly question: PlanRequest; readonly answer: Planned | null };
  /** Keeps shop and plan in the worker for the questions below, so that they travel once; answers how the plan cures. */
  readonly hold: {
    readonly question: { readonly shop: Shop; readonly plan: Plan | null };
    readonly answer: readonly ApplicationCure[];
  };
  readonly surroundings: { readonly question: { readonly range: Span }; readonly answer: Surroundings };
  readonly places: {
    readonly question: {
      readonly piece: string;
      readonly step: string;
      readonly range: Span;
      readonly form?: string;
    };
    readonly answer: LegalPlaces;
  };
  /** The air of every room of a shop that is only being thought about. */
  readonly airOf: {
    readonly question: { readonly shop: Shop; readonly range: Span };
    readonly answer: readonly RoomAir[];
  };
  /** A resin's times at each of these even temperatures. */
  readonly curve: {
    readonly question: { readonly resin: Resin; readonly temperaturesDegC: readonly number[] };
    readonly answer: readonly ResinTimes[];
  };
  /** A run sheet and the form cards, in words. */
  readonly paper: { readonly question: OfPlan & { readonly choice: SheetChoice }; readonly answer: Paper };
  /** What each pour is mixed from. */
  readonly cups: { readonly question: OfPlan; readonly answer: readonly CupOfPour[] };
  readonly stock: { readonly question: OfPlan; readonly answer: StockReport };
  /** The text of a file; a record is of `piece`. */
  readonly file: {
    readonly question: OfPlan & { readonly kind: FileKind; readonly piece?: string };
    readonly answer: string;
  };
  readonly why: {
    readonly question: { readonly piece: string; readonly step: string };
    readonly answer: readonly string[];
  };
  readonly promise: {
    readonly question: PlanRequest & {
      readonly recipe: string;
      readonly size: { readonly lengthMm: number; readonly widthMm: number };
      readonly earliest?: string;
      readonly forms?: readonly string[];
      readonly mayMove: boolean;
    };
    readonly answer: PromiseAnswer;
  };
}

export type Ask = keyof Asks;

export type Request = {
  [K in Ask]: { readonly id: number; readonly ask: K; readonly question: Asks[K]['question'] };
}[Ask];

export type Reply =
  | { readonly id: number; readonly kind: 'better'; readonly planned: Planned }
  | { readonly id: number; readonly kind: 'answer'; readonly answer: unknown }
  /** The worker threw: a fault of ours, in words. */
  | { readonly id: number; readonly kind: 'fault'; readonly text: string };
