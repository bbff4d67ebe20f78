/**
 * What is wrong with a model before anything is solved: a number that names nothing, times that do not ascend, a map whose inverse is none. The
 * solver trusts its model in its innermost loops, so a fault that nobody names here would come out as a wrong answer.
 */
import { NEVER, type Cost, type Model, type MonotoneMap, type SolveOptions, type Task } from './model.ts';

/** A message with more than so many faults does not help. */
const MOST_TOLD = 10;

/**
 * One sentence for each fault: where, what, and what would be right. Empty when the model can be solved. Each map is tried at both ends of its
 * start's window, which may be slow where a map is worked out when it is asked.
 */
export const modelFaults = (model: Model): string[] => faultsOf(model, true);

/**
 * Maps are not tried here.
 * @throws RangeError when the model, or what is asked of the solver, has faults; its message names them
 */
export function requireSound(model: Model, options: SolveOptions): void {
  const found = [...faultsOf(model, false), ...optionFaults(model, options)];
  if (found.length === 0) return;
  const more = found.length > MOST_TOLD ? [`and ${found.length - MOST_TOLD} more`] : [];
  throw new RangeError(`solve: ${[...found.slice(0, MOST_TOLD), ...more].join('; ')}`);
}

function faultsOf(model: Model, triesMaps: boolean): string[] {
  const faults = new Faults(model, triesMaps);
  faults.all();
  return faults.found;
}

function optionFaults(model: Model, { seed, budget, hint, others = [] }: SolveOptions): string[] {
  const found: string[] = [];
  if (!Number.isInteger(seed)) found.push(`seed: ${seed}; right would be a whole number`);
  if (!(budget >= 0)) found.push(`budget: ${budget}; right would be a number of steps, from 0 on`);
  for (const [name, plan] of [['hint', hint] as const, ...others.map((plan) => ['others', plan] as const)]) {
    if (plan === undefined) continue;
    if (plan.starts.length !== model.starts.length || plan.choices.length !== model.choices.length)
      found.push(
        `${name}: ${plan.starts.length} starts and ${plan.choices.length} choices; ` +
          `right would be ${model.starts.length} and ${model.choices.length}, as in the model`,
      );
  }
  return found;
}

class Faults {
  readonly found: string[] = [];
  /** What many share is looked at once. */
  private readonly tried = new Set<object>();
  /** Where the look is now, put into words only when a fault is found: `group[k]`, or `group[k].list[i]`. */
  private group = '';
  private k = 0;
  private list = '';
  private i = 0;

  constructor(
    private readonly model: Model,
    private readonly triesMaps: boolean,
  ) {}

  all(): void {
    const { starts, lags, openings, clauses, resources, exclusions, levels, reasons } = this.model;
    if (!Number.isInteger(reasons) || reasons < 0)
      this.found.push(`reasons: ${reasons}; right would be how many there are, a whole number from 0 on`);
    starts.forEach(({ earliest, latest, reason }, k) => {
      this.at('starts', k);
      this.time('earliest', earliest);
      this.time('latest', latest);
      this.reason(reason);
    });
    lags.forEach(({ from, to, kind, map, when, reason }, k) => {
      this.at('lags', k);
      this.start('from', from);
      this.start('to', to);
      if (kind !== 'least' && kind !== 'most') this.note('kind', kind, "'least' or 'most'");
      this.map('map', map, from);
      this.literals('when', when);
      this.reason(reason);
    });
    openings.forEach(({ start, allowed, when, reason }, k) => {
      this.at('openings', k);
      this.start('start', start);
      if (!this.isTried(allowed) && (allowed.length % 2 !== 0 || !ascends(allowed, 1)))
        this.note('allowed', told(allowed), 'pairs of from and to, ascending');
      this.literals('when', when);
      this.reason(reason);
    });
    clauses.forEach(({ literals, reason }, k) => {
      this.at('clauses', k);
      this.literals('literals', literals);
      this.reason(reason);
    });
    resources.forEach(({ capacity, tasks }, k) => {
      this.at('resources', k);
      this.capacity(capacity);
      this.tasks('resources', k, 'tasks', tasks);
    });
    exclusions.forEach(({ one, other }, k) => {
      this.tasks('exclusions', k, 'one', one);
      this.tasks('exclusions', k, 'other', other);
    });
    levels.forEach(({ costs }, k) =>
      costs.forEach((cost, i) => {
        this.at('levels', k, 'costs', i);
        this.cost(cost);
      }),
    );
  }

  private at(group: string, k: number, list = '', i = 0): void {
    this.group = group;
    this.k = k;
    this.list = list;
    this.i = i;
  }

  private note(field: string, what: unknown, right: string): void {
    const { group, k, list, i } = this;
    const inside = list === '' ? '' : `.${list}[${i}]`;
    this.found.push(`${group}[${k}]${inside}.${field}: ${String(what)}; right would be ${right}`);
  }

  private isTried(shared: object): boolean {
    const { size } = this.tried;
    return this.tried.add(shared).size === size;
  }

  private time(field: string, t: number): void {
    if (!Number.isInteger(t)) this.note(field, t, 'a whole number');
  }

  private start(field: string, k: number): void {
    const count = this.model.starts.length;
    if (!isIndex(k, count)) this.note(field, k, `the number of a start, ${upTo(count)}`);
  }

  private literals(field: string, literals: readonly number[] | undefined): void {
    if (literals === undefined) return;
    const count = 2 * this.model.choices.length;
    for (const literal of literals)
      if (!isIndex(literal, count))
        this.note(field, literal, `twice the number of a choice, or one more for no, ${upTo(count)}`);
  }

  private reason(reason: number | undefined): void {
    const { reasons } = this.model;
    if (reason !== undefined && !isIndex(reason, reasons))
      this.note('reason', reason, `the number of a reason, ${upTo(reasons)}`);
  }

  private capacity(capacity: Int32Array): void {
    if (capacity.length === 0 || capacity.length % 2 !== 0 || capacity[0] > 0 || !ascends(capacity, 2))
      this.note(
        'capacity',
        told(capacity),
        'pairs of a time and a capacity, times ascending, the first at 0 or before',
      );
    for (let i = 1; i < capacity.length; i += 2)
      if (capacity[i] < 0) this.note(`capacity[${i}]`, capacity[i], '0 or more');
  }

  private tasks(group: string, k: number, list: string, tasks: readonly Task[]): void {
    tasks.forEach(({ from, to, until, amount, when, reason }, i) => {
      this.at(group, k, list, i);
      this.start('from', from);
      this.start('to', to);
      this.map('until', until, to);
      if (!Number.isInteger(amount) || amount < 0) this.note('amount', amount, 'a whole number from 0 on');
      this.literals('when', when);
      this.reason(reason);
    });
  }

  /** Where its start may begin, a map's inverse leads back from what it reaches, and from no more. */
  private map(field: string, map: MonotoneMap, start: number): void {
    if (typeof map?.at !== 'function' || typeof map.leastReaching !== 'function') {
      this.note(field, map, 'a map with `at` and `leastReaching`');
      return;
    }
    if (!this.triesMaps || this.isTried(map)) return;
    const { earliest, latest } = this.model.starts[start] ?? {};
    for (const s of [earliest, latest]) {
      if (s === undefined || !Number.isInteger(s)) continue;
      const v = map.at(s);
      if (v >= NEVER || v <= -NEVER) continue;
      const [back, beyond] = [map.leastReaching(v), map.leastReaching(v + 1)];
      if (Number.isInteger(v) && back <= s && beyond > s) continue;
      this.note(
        field,
        `at(${s}) is ${v}, leastReaching(${v}) ${back}, leastReaching(${v + 1}) ${beyond}`,
        `whole numbers, ${s} or less, and more than ${s}`,
      );
      return;
    }
  }

  private cost(cost: Cost): void {
    if (!Number.isInteger(cost.weight) || cost.weight <= 0)
      this.note('weight', cost.weight, 'a whole number from 1 on');
    if (cost.kind === 'late') {
      this.start('start', cost.start);
      this.time('after', cost.after);
    } else if (cost.kind === 'early') {
      this.start('start', cost.start);
      this.time('before', cost.before);
    } else if (cost.kind === 'choice') this.literals('when', [cost.when]);
    else if (cost.kind === 'buckets') {
      cost.starts.forEach((start, i) => this.start(`starts[${i}]`, start));
      cost.when?.forEach((when, i) => this.literals(`when[${i}]`, when));
      if (cost.when !== undefined && cost.when.length !== cost.starts.length)
        this.note('when', `${cost.when.length} lists`, `one for each of its ${cost.starts.length} starts`);
      if (!ascends(cost.edges, 1)) this.note('edges', told(cost.edges), 'times, ascending');
    } else {
      const { kind } = cost as { kind: unknown };
      this.note('kind', kind, "'late', 'early', 'choice' or 'buckets'");
    }
  }
}

const isIndex = (k: number, count: number): boolean => Number.isInteger(k) && k >= 0 && k < count;

const upTo = (count: number): string => (count > 0 ? `0 to ${count - 1}` : 'but there are none');

function ascends(times: Int32Array, by: number): boolean {
  for (let k = by; k < times.length; k += by) if (times[k] < times[k - by]) return false;
  return true;
}

/** The beginning of a list, as text. */
const told = (values: Int32Array): string =>
  values.length > 8 ? `[${values.subarray(0, 8).join(', ')}, ...]` : `[${values.join(', ')}]`;
