/**
 * The scheduling problem as plain data. Nothing here knows what is being scheduled.
 *
 * Every decision is a *start* (an integer time) or a *choice* (yes or no). Every bound between two starts is a
 * monotone lag: `to >= map(from)` or `to <= map(from)` with a non-decreasing map. Constant lags are the special
 * case that textbooks use.
 */

/** A whole number of time units (the shop uses minutes) since the problem's epoch. */
export type Time = number;

/** "Never": larger than every real time. Maps return it (or more) when the event does not happen. */
export const NEVER: Time = 0x3fffffff;

/** A choice or its negation: `2 * choice` is "yes", `2 * choice + 1` is "no". */
export type Literal = number;
export const yes = (choice: number): Literal => choice * 2;
export const no = (choice: number): Literal => choice * 2 + 1;

/** A non-decreasing map from time to time, with its exact inverse. */
export interface MonotoneMap {
  /** The image of `s`; non-decreasing in `s`; `NEVER` or more when it does not happen. */
  at(s: Time): Time;
  /** The least `s` with `at(s) >= v`; may be below 0; `NEVER` when there is none. */
  leastReaching(v: Time): Time;
}

/** `s -> s + gap`: the lag of the textbooks. */
export interface ConstantLag extends MonotoneMap {
  readonly gap: Time;
}

/** An index into `Model.reasons`: why this part of the model is there, for explaining a clash. */
export type ReasonIndex = number;

export interface Start {
  readonly name: string;
  readonly earliest: Time;
  readonly latest: Time;
  readonly reason?: ReasonIndex;
}

export interface Lag {
  readonly from: number;
  readonly to: number;
  /** `least`: to >= map(from). `most`: to <= map(from). */
  readonly kind: 'least' | 'most';
  readonly map: MonotoneMap;
  /** The lag binds only when every one of these literals is true; none: always. */
  readonly when?: readonly Literal[];
  readonly reason?: ReasonIndex;
}

/** The times a start may take: a union of half-open intervals, sorted and disjoint, `[from0, to0, from1, to1, ...]`. */
export interface Opening {
  readonly start: number;
  readonly allowed: Int32Array;
  readonly when?: readonly Literal[];
  readonly reason?: ReasonIndex;
}

/**
 * A use of a resource over `[start(from), until(start(to)))`. With `from === to` it is an ordinary activity of
 * (perhaps varying) length; with two different starts it is a thing held from one step to another.
 */
export interface Task {
  readonly from: number;
  readonly to: number;
  readonly until: MonotoneMap;
  readonly amount: number;
  readonly when?: readonly Literal[];
  readonly reason?: ReasonIndex;
}

/** A shared thing: at every moment the amounts of the tasks that run do not exceed the capacity. */
export interface Resource {
  readonly name: string;
  /** Capacity from each time on: `[time0, capacity0, time1, capacity1, ...]`, times ascending, time0 <= 0. */
  readonly capacity: Int32Array;
  readonly tasks: readonly Task[];
}

/** Tasks of one side never run at the same time as tasks of the other; within a side they may. Amounts are ignored. */
export interface Exclusion {
  readonly name: string;
  readonly one: readonly Task[];
  readonly other: readonly Task[];
}

/** One part of an objective level. Weights are positive integers. */
export type Cost =
  /** weight * max(0, start - after) */
  | { readonly kind: 'late'; readonly start: number; readonly after: Time; readonly weight: number }
  /** weight * max(0, before - start) */
  | { readonly kind: 'early'; readonly start: number; readonly before: Time; readonly weight: number }
  /** weight when the literal is true */
  | { readonly kind: 'choice'; readonly when: Literal; readonly weight: number }
  /** weight for every bucket (`edges[k] <= time < edges[k+1]`) in which at least one of the starts lies, and whose
   * literal-list (if given, one per start) is true. A visit to the shop is such a bucket. */
  | {
      readonly kind: 'buckets';
      readonly starts: readonly number[];
      readonly when?: readonly (readonly Literal[])[];
      readonly edges: Int32Array;
      readonly weight: number;
    };

/** Minimised in order: a later level never makes an earlier one worse. */
export interface Level {
  readonly name: string;
  readonly costs: readonly Cost[];
}

export interface Model {
  readonly starts: readonly Start[];
  /** Names of the choices. */
  readonly choices: readonly string[];
  readonly lags: readonly Lag[];
  readonly openings: readonly Opening[];
  /** At least one literal of each clause is true. */
  readonly clauses: readonly { readonly literals: readonly Literal[]; readonly reason?: ReasonIndex }[];
  readonly resources: readonly Resource[];
  readonly exclusions: readonly Exclusion[];
  readonly levels: readonly Level[];
  /** Number of distinct reasons; a clash names a subset of `0..reasons-1`. */
  readonly reasons: number;
}

/** Values for every start and every choice. */
export interface Assignment {
  readonly starts: readonly Time[];
  readonly choices: readonly boolean[];
}

export interface SolveOptions {
  readonly seed: number;
  /** Work, in counted steps of search (not milliseconds): the same budget gives the same answer everywhere. */
  readonly budget: number;
  /** Polled between pieces of work; true cancels and the best so far is returned. */
  readonly stop?: () => boolean;
  /** Called for every improvement and every raised bound. */
  readonly progress?: (report: Progress) => void;
  /** A plan that stands: tried first, and kept close to where nothing else is gained. */
  readonly hint?: Assignment;
  /** Other plans: gone on from in place of the hint where changing that little by little does not come out as good. */
  readonly others?: readonly Assignment[];
  /** False: of an infeasible model no clash is looked for, it is empty. */
  readonly isExplained?: boolean;
}

/** The hint and the others, in this order. */
export const hintsOf = ({ hint, others = [] }: SolveOptions): readonly Assignment[] =>
  hint === undefined ? others : [hint, ...others];

export interface LevelOutcome {
  readonly name: string;
  readonly value: number;
  /** No assignment (that keeps the earlier levels' values) is better than this. */
  readonly bound: number;
  readonly proven: boolean;
}

export interface Progress {
  readonly work: number;
  readonly best: Assignment | null;
  readonly levels: readonly LevelOutcome[];
}

/** Four different words: `feasible` is not proved best, `unknown` is neither a plan nor a proof. */
export type Outcome =
  | {
      readonly status: 'optimal' | 'feasible';
      readonly best: Assignment;
      readonly levels: readonly LevelOutcome[];
      readonly work: number;
    }
  /** `clash`: a small set of reasons that cannot hold together. */
  | { readonly status: 'infeasible'; readonly clash: readonly ReasonIndex[]; readonly work: number }
  | { readonly status: 'unknown'; readonly work: number };
