/**
 * The checker of proofs. Each clause of a proof must follow by reverse unit propagation (Goldberg and Novikov 2003; for bounds, Flippo et al.
 * 2024): its negation is assumed, the rules of the model and the clauses before it are propagated, and that must fail. The rules are this folder's own; of
 * the solver nothing is used but the model's types and, for the schedule that a proof names, the plain check of all rules.
 *
 * Literature: Wetzler, Heule, Hunt 2014 (clausal proofs); Flippo, Sidorov, Marijnissen, Smits, Demirović, CP 2024 (proofs of constraint
 * solvers).
 */
import { evaluate } from '../evaluate.ts';
import type { Model } from '../model.ts';
import { verify } from '../verify.ts';
import { atMost, negated, type Atom } from './bounds.ts';
import { assumeFalse, ClauseStore } from './clause-store.ts';
import { asMachine, beginsWithin, greatest, keepsApart, type Shared, type Span } from './cliques.ts';
import { HEADING, readLine, UnreadableLine, type Pair, type Step } from './lines.ts';
import { layOut, type RuleBook } from './rule-book.ts';
import { BrokenMap, leastLag, type Rule } from './rules.ts';
import { energyRule, isOverfull } from './use-rules.ts';

/**
 * `optimal`: the named schedule keeps all rules and no level can be better, the earlier ones kept. `feasible`: it keeps all rules. `infeasible`: no
 * schedule does. `unknown`: neither was shown.
 */
export type Verdict =
  | {
      readonly isAccepted: true;
      readonly shows: 'optimal' | 'feasible' | 'infeasible' | 'unknown';
      /** The values of the named schedule, level by level. */
      readonly values: readonly number[] | null;
      /** What was shown of each level, the earlier ones at the values of the named schedule: none is below. */
      readonly bounds: readonly number[];
    }
  /** `line`: counted from 1. */
  | { readonly isAccepted: false; readonly line: number; readonly text: string; readonly why: string };

/** Checks a proof, line by line. */
export function checkProof(model: Model, lines: readonly string[]): Verdict {
  const refused = (k: number, why: string): Verdict => ({
    isAccepted: false,
    line: k + 1,
    text: lines[k] ?? '',
    why,
  });
  if (lines[0]?.trim() !== HEADING) return refused(0, `the first line must be '${HEADING}'`);
  let k = 0;
  try {
    const checker = new Checker(model);
    for (k = 1; k < lines.length; k++) {
      if (lines[k].trim() === '') continue;
      const why = checker.take(readLine(lines[k], (name) => checker.book.variables.get(name)));
      if (why !== null) return refused(k, why);
    }
    return checker.verdict();
  } catch (error) {
    if (error instanceof UnreadableLine || error instanceof BrokenMap) return refused(k, error.message);
    throw error;
  }
}

/** What was refuted: these totals at most so much. */
type Refuted = readonly (number | null)[];

class Checker {
  readonly book: RuleBook;
  private readonly store: ClauseStore;
  private readonly rules: Rule[] = [];
  /** The model's resources, and the cliques shown so far. */
  private readonly resources: Shared[];
  /** Energy in all windows: for the root and for assumed bounds. */
  private readonly slowRules: Rule[];
  private readonly readers: number[][] = [];
  private readonly queue: number[] = [];
  private readonly queued = new Set<number>();
  /** Nothing keeps the rules: what is left follows. */
  private isDead = false;
  private best: { readonly values: readonly number[] } | null = null;
  private readonly refuted: Refuted[] = [];

  constructor(private readonly model: Model) {
    this.book = layOut(model);
    const { bounds, rules, clauses, resources } = this.book;
    this.resources = [...resources];
    this.slowRules = resources.map(({ uses, capacity }) => energyRule(uses, capacity));
    this.store = new ClauseStore(bounds);
    if (bounds.lo.some((lo, variable) => lo > bounds.hi[variable])) this.isDead = true;
    for (const rule of rules) this.addRule(rule);
    for (const clause of clauses) this.keep(clause);
    this.settle();
  }

  private addRule(rule: Rule): void {
    const number = this.rules.push(rule) - 1;
    for (const variable of rule.reads) (this.readers[variable] ??= []).push(number);
    this.enqueue(number);
  }

  private removeLastRule(): void {
    const rule = this.rules.pop()!;
    for (const variable of rule.reads) this.readers[variable].pop();
  }

  private enqueue(number: number): void {
    if (this.queued.has(number)) return;
    this.queued.add(number);
    this.queue.push(number);
  }

  /** To the fixpoint of rules and clauses. False when something cannot hold. */
  private propagate(isSlow: boolean): boolean {
    const isConsistent = this.run() && (!isSlow || this.runSlow());
    this.rest();
    return isConsistent;
  }

  private rest(): void {
    this.queue.length = 0;
    this.queued.clear();
    this.book.bounds.changed.length = 0;
  }

  private run(): boolean {
    const { bounds } = this.book;
    for (;;) {
      const variable = bounds.changed.pop();
      if (variable !== undefined) {
        if (!this.store.propagate(variable)) return false;
        for (const number of this.readers[variable] ?? []) this.enqueue(number);
        continue;
      }
      const number = this.queue.shift();
      if (number === undefined) return true;
      this.queued.delete(number);
      if (!this.rules[number].run(bounds)) return false;
    }
  }

  private runSlow(): boolean {
    const { bounds } = this.book;
    for (;;) {
      const before = bounds.mark();
      if (!this.slowRules.every((rule) => rule.run(bounds))) return false;
      if (bounds.mark() === before) return true;
      if (!this.run()) return false;
    }
  }

  /** The fixpoint where nothing is assumed; only looked for when something has changed there. */
  private settle(): void {
    const { bounds } = this.book;
    if (this.isDead || (bounds.mark() === 0 && this.queue.length === 0)) return;
    if (!this.propagate(true)) this.isDead = true;
    bounds.forgetUndo();
  }

  private keep(clause: readonly Atom[]): void {
    if (!this.isDead && !this.store.add(clause)) this.isDead = true;
  }

  /** Does assuming that all these atoms hold fail? */
  private isRefuted(assumed: readonly Atom[], isSlow = false): boolean {
    if (this.isDead) return true;
    const { bounds } = this.book;
    const mark = bounds.mark();
    const fails = !assumed.every((atom) => bounds.set(atom)) || !this.propagate(isSlow);
    this.rest();
    bounds.backTo(mark);
    return fails;
  }

  /** Null when the step follows, else why not. */
  take(step: Step): string | null {
    switch (step.kind) {
      case 'order':
        return this.order(step.name, step);
      case 'after':
        return this.after(step);
      case 'clique':
        return this.clique(step.spans);
      case 'window':
        if (!this.isFull(step.a, step.b, step.clause))
          return `the tasks would fit into [${step.a}, ${step.b}) if the clause were false`;
        break;
      case 'clause':
        if (!this.isRefuted(step.clause.map(negated))) return 'the clause does not follow by propagation';
        break;
      case 'best':
        return this.name(step.starts, step.choices);
      case 'empty':
        return this.empty(step.assumed);
    }
    this.keep(step.clause);
    this.settle();
    return null;
  }

  /** Would some resource be overfull in the window if the clause were false? */
  private isFull(a: number, b: number, clause: readonly Atom[]): boolean {
    if (this.isDead) return true;
    const { bounds } = this.book;
    const mark = bounds.mark();
    const fails =
      !assumeFalse(bounds, clause) ||
      this.resources.some(({ uses, capacity }) => isOverfull(bounds, uses, capacity, a, b));
    bounds.backTo(mark);
    return fails;
  }

  /** Two tasks that cannot run at once and always run a while; null with the reason when they are not such. */
  private apart({ resource, one, other }: Pair): string | null {
    if (this.isDead) return null;
    const { uses, capacity } = this.book.resources[resource] ?? { uses: [], capacity: Int32Array.of(0, 0) };
    if (one === other || uses[one] === undefined || uses[other] === undefined)
      return `there are no such two tasks`;
    if (uses[one].amount + uses[other].amount <= greatest(capacity))
      return 'the two tasks may run at the same time';
    if (uses[one].length <= 0 || uses[other].length <= 0) return 'one of the two tasks may be empty';
    return null;
  }

  /** The task ends before the next begins, while both conditions and `more` hold. */
  private before(resource: number, task: number, next: number, more: readonly Atom[]): Rule {
    const { uses } = this.book.resources[resource];
    const [a, b] = [uses[task], uses[next]];
    return leastLag(a.to, b.from, a.until, [...more, ...a.when, ...b.when]);
  }

  /** A new variable: 1 when the one task ends before the other begins, 0 the other way round. */
  private order(name: string, pair: Pair): string | null {
    const { bounds, variables } = this.book;
    if (variables.has(name)) return `${name} is already defined`;
    const fault = this.apart(pair);
    if (fault !== null) return fault;
    const variable = bounds.add(0, 1);
    variables.set(name, variable);
    if (this.isDead) return null;
    const { resource, one, other } = pair;
    this.addRule(this.before(resource, one, other, [{ variable, isLeast: true, value: 1 }]));
    this.addRule(this.before(resource, other, one, [{ variable, isLeast: false, value: 0 }]));
    this.settle();
    return null;
  }

  /** The other task begins after the one ends: the reverse fails. */
  private after(pair: Pair): string | null {
    const fault = this.apart(pair);
    if (fault !== null || this.isDead) return fault;
    const { resource, one, other } = pair;
    const { uses } = this.book.resources[resource];
    this.addRule(this.before(resource, other, one, []));
    const isShown = this.isRefuted([...uses[one].when, ...uses[other].when]);
    this.removeLastRule();
    if (!isShown) return 'the reverse order does not fail by propagation';
    this.addRule(this.before(resource, one, other, []));
    this.settle();
    return null;
  }

  /** Spans of which no two overlap, by a resource or because the lags put one after the other. */
  private clique(spans: readonly Span[]): string | null {
    if (this.isDead) return null;
    const { length: count } = this.model.starts;
    const stranger = spans.find(({ start, length }) => start < 0 || start >= count || length < 1);
    if (stranger !== undefined) return `there is no span of ${stranger.length} from start ${stranger.start}`;
    const isShown = (rule: Rule): boolean => {
      this.addRule(rule);
      const fails = this.isRefuted([]);
      this.removeLastRule();
      return fails;
    };
    for (const [k, a] of spans.entries())
      for (const b of spans.slice(k + 1)) {
        const areApart =
          a.start !== b.start &&
          (this.resources.some((shared) => keepsApart(shared, a, b)) ||
            isShown(beginsWithin(b, a)) ||
            isShown(beginsWithin(a, b)));
        if (!areApart) return `the spans of s${a.start} and s${b.start} may overlap`;
      }
    const machine = asMachine(spans);
    this.resources.push(machine);
    this.slowRules.push(energyRule(machine.uses, machine.capacity));
    return null;
  }

  private name(starts: readonly number[], choices: readonly boolean[]): string | null {
    const [fault] = verify(this.model, { starts, choices });
    if (fault !== undefined) return `the schedule breaks a rule: ${fault}`;
    this.best = { values: this.model.levels.map((level) => evaluate(level, { starts, choices })) };
    return null;
  }

  /** The empty clause, under bounds of totals. */
  private empty(assumed: readonly Atom[]): string | null {
    const { totals } = this.book;
    const limits: (number | null)[] = totals.map(() => null);
    for (const { variable, isLeast, value } of assumed) {
      const level = totals.indexOf(variable);
      if (level < 0 || isLeast) return 'only upper bounds of totals, such as t0<=54, can be assumed';
      limits[level] = Math.min(limits[level] ?? Infinity, value);
    }
    const all = limits.flatMap((limit, level) => (limit === null ? [] : [atMost(totals[level], limit)]));
    if (!this.isRefuted(all, true)) return 'the empty clause does not follow by propagation';
    this.refuted.push(limits);
    return null;
  }

  verdict(): Verdict {
    const { best } = this;
    const values = best?.values ?? null;
    const bounds = this.book.totals.map((_, k) =>
      this.refuted.reduce((most, limits) => {
        const own = limits[k];
        const fits = limits.every((limit, j) =>
          j < k ? limit === null || (values !== null && limit >= values[j]) : j === k || limit === null,
        );
        return own === null || !fits ? most : Math.max(most, own + 1);
      }, 0),
    );
    const isInfeasible = this.refuted.some((limits) => limits.every((limit) => limit === null));
    const shows = isInfeasible
      ? 'infeasible'
      : values === null
        ? 'unknown'
        : values.every((value, k) => bounds[k] >= value)
          ? 'optimal'
          : 'feasible';
    return { isAccepted: true, shows, values, bounds };
  }
}
