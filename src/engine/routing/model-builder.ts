/** Collects a scheduling model piece by piece, and remembers why each part of it is there. */
import { no, yes } from '../schedule/model.ts';
import type {
  Cost,
  Exclusion,
  Lag,
  Level,
  Literal,
  Model,
  MonotoneMap,
  Opening,
  Resource,
  Start,
  Task,
} from '../schedule/model.ts';

/** A rule of the shop as it binds one step: what a clash is told in. */
export interface Reason {
  readonly rule: string;
  readonly piece: string | null;
  readonly step: string | null;
  /** The rule in the maker's words, such as "the layer below is tacky until it closes". */
  readonly text: string;
}

type ResourceKey = string;

/** Up to so many options each pair is told that it excludes one another; more are arranged in rows and columns. */
const MOST_IN_PAIRS = 10;

/** A choice that is true exactly when one of some literals is. */
export interface Implied {
  readonly choice: number;
  readonly by: readonly Literal[];
}

const copied = <K, V>(map: ReadonlyMap<K, V> | undefined, copy: (value: V) => V): Map<K, V> =>
  new Map([...(map ?? [])].map(([key, value]) => [key, copy(value)]));

export class ModelBuilder {
  private readonly starts: Start[];
  private readonly choices: string[];
  private readonly lags: Lag[];
  private readonly openings: Opening[];
  private readonly clauses: { literals: readonly Literal[]; reason: number }[];
  private readonly resources: Map<ResourceKey, { name: string; capacity: Int32Array; tasks: Task[] }>;
  private readonly exclusions: Map<string, { name: string; one: Task[]; other: Task[] }>;
  private readonly levels: Map<string, Cost[]>;
  readonly reasons: Reason[];
  /** The choices made by `wish`. */
  readonly wishes: Set<number>;
  /** The choices that only say which of many options may be taken. */
  readonly implied: Implied[];
  /** What each start was before it was fixed. */
  readonly unfixed = new Map<number, Start>();
  private readonly reasonIndex: Map<string, number>;

  /** @param like another one, to go on from what it holds */
  constructor(like?: ModelBuilder) {
    this.starts = [...(like?.starts ?? [])];
    this.choices = [...(like?.choices ?? [])];
    this.lags = [...(like?.lags ?? [])];
    this.openings = [...(like?.openings ?? [])];
    this.clauses = [...(like?.clauses ?? [])];
    this.resources = copied(like?.resources, (r) => ({ ...r, tasks: [...r.tasks] }));
    this.exclusions = copied(like?.exclusions, (e) => ({ ...e, one: [...e.one], other: [...e.other] }));
    this.levels = copied(like?.levels, (costs) => [...costs]);
    this.reasons = [...(like?.reasons ?? [])];
    this.wishes = new Set(like?.wishes);
    this.implied = [...(like?.implied ?? [])];
    this.reasonIndex = new Map(like?.reasonIndex);
  }

  reason(rule: string, piece: string | null, step: string | null, text: string): number {
    const key = `${rule}|${piece}|${step}|${text}`;
    let index = this.reasonIndex.get(key);
    if (index === undefined) {
      index = this.reasons.push({ rule, piece, step, text }) - 1;
      this.reasonIndex.set(key, index);
    }
    return index;
  }

  start(name: string, earliest: number, latest: number, reason: number): number {
    return this.starts.push({ name, earliest, latest, reason }) - 1;
  }

  /** A start that is at this time and no other. */
  fix(start: number, at: number, reason: number): void {
    this.unfixed.set(start, this.starts[start]);
    this.starts[start] = { ...this.starts[start], earliest: at, latest: at, reason };
  }

  /** A wish and no rule: what binds under it may be broken at a cost. */
  wish(name: string): number {
    const choice = this.choice(name);
    this.wishes.add(choice);
    return choice;
  }

  choice(name: string): number {
    return this.choices.push(name) - 1;
  }

  /**
   * One choice for every option, exactly one of them true; a single option needs none.
   * @returns the literals under which each option holds
   */
  oneOf(names: readonly string[], reason: number): Literal[][] {
    if (names.length <= 1) return names.map(() => []);
    const options = names.map((name) => yes(this.choice(name)));
    this.clause(options, reason);
    this.atMostOne(options, reason);
    return options.map((o) => [o]);
  }

  /** Of many options one row and one column of a square are taken: clauses in proportion to the options, and as much follows from each. */
  private atMostOne(options: readonly Literal[], reason: number): void {
    if (options.length <= MOST_IN_PAIRS) {
      for (let i = 0; i < options.length; i++)
        for (let j = i + 1; j < options.length; j++) this.clause([options[i] ^ 1, options[j] ^ 1], reason);
      return;
    }
    const side = Math.ceil(Math.sqrt(options.length));
    for (const [what, lineOf] of [
      ['row', (k: number) => Math.floor(k / side)],
      ['column', (k: number) => k % side],
    ] as const) {
      const lines = Array.from({ length: side }, (_, line) => options.filter((__, k) => lineOf(k) === line));
      const taken = lines
        .filter((by) => by.length > 0)
        .map((by) => {
          const choice = this.choice(`${this.choices[by[0] >> 1]}, or another of its ${what}`);
          this.implied.push({ choice, by });
          for (const option of by) this.clause([option ^ 1, yes(choice)], reason);
          return yes(choice);
        });
      this.atMostOne(taken, reason);
    }
  }

  clause(literals: readonly Literal[], reason: number): void {
    this.clauses.push({ literals, reason });
  }

  /** to >= map(from) */
  least(from: number, to: number, map: MonotoneMap, when: readonly Literal[], reason: number): void {
    this.lags.push({ from, to, kind: 'least', map, when, reason });
  }

  /** to <= map(from) */
  most(from: number, to: number, map: MonotoneMap, when: readonly Literal[], reason: number): void {
    this.lags.push({ from, to, kind: 'most', map, when, reason });
  }

  opening(start: number, allowed: Int32Array, when: readonly Literal[], reason: number): void {
    this.openings.push({ start, allowed, when, reason });
  }

  /** Declares a shared thing; its tasks follow with `use`. */
  resource(key: ResourceKey, name: string, capacity: Int32Array): void {
    this.resources.set(key, { name, capacity, tasks: [] });
  }

  use(key: ResourceKey, task: Task): void {
    this.resources.get(key)?.tasks.push(task);
  }

  exclude(name: string, side: 'one' | 'other', task: Task): void {
    let exclusion = this.exclusions.get(name);
    if (!exclusion) {
      exclusion = { name, one: [], other: [] };
      this.exclusions.set(name, exclusion);
    }
    exclusion[side].push(task);
  }

  cost(level: string, cost: Cost): void {
    const costs = this.levels.get(level);
    if (costs) costs.push(cost);
    else this.levels.set(level, [cost]);
  }

  /** Whether anything costs at this level. */
  costsAt(level: string): boolean {
    return this.levels.has(level);
  }

  /** The finished model with its levels in the given order; things that nothing uses are left out. */
  build(levelNames: readonly string[]): Model {
    const resources: Resource[] = [...this.resources.values()].filter((r) => r.tasks.length > 0);
    const exclusions: Exclusion[] = [...this.exclusions.values()].filter(
      (e) => e.one.length > 0 && e.other.length > 0,
    );
    const levels: Level[] = levelNames.map((name) => ({ name, costs: this.levels.get(name) ?? [] }));
    return {
      starts: this.starts,
      choices: this.choices,
      lags: this.lags,
      openings: this.openings,
      clauses: this.clauses,
      resources,
      exclusions,
      levels,
      reasons: this.reasons.length,
    };
  }
}

export { no, yes };
