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

export class ModelBuilder {
  private readonly starts: Start[] = [];
  private readonly choices: string[] = [];
  private readonly lags: Lag[] = [];
  private readonly openings: Opening[] = [];
  private readonly clauses: { literals: readonly Literal[]; reason: number }[] = [];
  private readonly resources = new Map<ResourceKey, { name: string; capacity: Int32Array; tasks: Task[] }>();
  private readonly exclusions = new Map<string, { name: string; one: Task[]; other: Task[] }>();
  private readonly levels = new Map<string, Cost[]>();
  readonly reasons: Reason[] = [];
  /** The choices made by `wish`. */
  readonly wishes = new Set<number>();
  private readonly reasonIndex = new Map<string, number>();

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
    options.forEach((a, i) => options.slice(i + 1).forEach((b) => this.clause([a ^ 1, b ^ 1], reason)));
    return options.map((o) => [o]);
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
