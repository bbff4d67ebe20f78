/**
 * The kernel: a model compiled into variables, propagators and clauses, and propagation to the fixpoint. It knows nothing of search.
 *
 * Variables: first the starts, then the choices, then a total for each level, then bucket markers, then orders (of two tasks that
 * cannot overlap). Order of work: lags, openings and buckets with clauses at once, then the objective, then resources.
 */
import { Buckets } from './buckets.ts';
import { Capacity } from './capacity.ts';
import { Clauses } from './clauses.ts';
import { Conditions } from './conditions.ts';
import { Energy } from './energy.ts';
import { Lags } from './lags.ts';
import { valuesBy } from './lists-by.ts';
import { constantLag, isConstant } from './maps.ts';
import { NEVER, type Cost, type Literal, type Model, type Task } from './model.ts';
import { Openings } from './openings.ts';
import { OneAtATime } from './one-at-a-time.ts';
import { OrderLags } from './order-lags.ts';
import { deriveOrders, isPlain, type Orders, type OrderTask } from './orders.ts';
import { Sum, SATURATED, type Term } from './sum.ts';
import { SureProfile, type Use } from './sure-profile.ts';
import { TimeTable } from './time-table.ts';
import { SharedTasks, timedTask } from './timed-tasks.ts';
import { Because, Trail } from './trail.ts';

/** A propagator that looks at all it has at once, when something it watches has changed. */
interface Whole {
  propagate(): boolean;
  watched(): readonly number[];
}

export class Kernel {
  readonly trail: Trail;
  readonly conditions = new Conditions();
  readonly clauses: Clauses;
  readonly lags: Lags;
  private readonly orderLags: OrderLags;
  private readonly openings: Openings;
  private readonly buckets: Buckets[] = [];
  private readonly wholes: Whole[] = [];
  private readonly wake: Int32Array;
  private readonly wakeStart: Int32Array;
  private readonly queued: Uint8Array;
  private head = 0;
  private waiting = 0;

  readonly startCount: number;
  readonly choiceCount: number;
  /** The total's variable, a level. */
  readonly totals: readonly number[];
  readonly firstMarker: number;
  readonly firstOrder: number;
  readonly orders: Orders;
  /** Once the orders and choices are decided, each start at its least is a solution, and none is cheaper. */
  readonly isSettledByOrders: boolean;
  /** The marker variables of a buckets cost, -1 where no start can lie. */
  readonly markers: ReadonlyMap<Cost, Int32Array>;
  readonly variableCount: number;
  /** False when the model contradicts itself before any search. */
  readonly sound: boolean;

  /** `seesEnergy`: false leaves out the energy of what is shared, which costs more than it finds where nearly all lies fast. */
  constructor(
    readonly model: Model,
    private readonly seesEnergy = true,
  ) {
    const S = (this.startCount = model.starts.length);
    const C = (this.choiceCount = model.choices.length);
    const least = model.starts.map((start) => Math.max(1 - NEVER, start.earliest));
    const greatest = model.starts.map((start) => Math.min(NEVER - 1, start.latest));
    const feasibleWindows = least.every((value, k) => value <= greatest[k]);
    if (!feasibleWindows) least.forEach((value, k) => (greatest[k] = Math.max(value, greatest[k])));
    for (let c = 0; c < C; c++) {
      least.push(0);
      greatest.push(1);
    }
    const total = S + C;
    this.totals = model.levels.map((_, k) => total + k);
    for (let k = 0; k < model.levels.length; k++) {
      least.push(0);
      greatest.push(SATURATED);
    }
    this.firstMarker = least.length;
    const bucketCosts = model.levels.flatMap((level) =>
      level.costs.filter((cost) => cost.kind === 'buckets'),
    );
    const markers = new Map<Cost, Int32Array>();
    for (const cost of bucketCosts) {
      const marker = new Int32Array(Math.max(0, cost.edges.length - 1)).fill(-1);
      for (let k = 0; k < marker.length; k++) {
        if (!cost.starts.some((s) => least[s] < cost.edges[k + 1] && greatest[s] >= cost.edges[k])) continue;
        marker[k] = least.length;
        least.push(0);
        greatest.push(1);
      }
      markers.set(cost, marker);
    }
    this.firstOrder = least.length;
    const tasks: OrderTask[][] = model.resources.map((resource) =>
      resource.tasks
        .filter((task) => task.amount > 0)
        .map((task) => ({ task, condition: this.when(task.when) })),
    );
    const orders = feasibleWindows
      ? deriveOrders(model, tasks, this.conditions, least, greatest, this.firstOrder)
      : {
          count: 0,
          isComplete: false,
          settled: [],
          lags: [],
          pairs: [],
          lengths: [],
          cliques: [],
        };
    this.orders = orders;
    this.isSettledByOrders =
      orders.isComplete &&
      orders.count > 0 &&
      model.exclusions.length === 0 &&
      model.levels.every(({ costs }) => costs.every(({ kind }) => kind === 'late' || kind === 'choice'));
    this.markers = markers;
    for (let k = 0; k < orders.count; k++) {
      least.push(0);
      greatest.push(1);
    }
    this.variableCount = least.length;
    const trail = (this.trail = new Trail(new Int32Array(least), new Int32Array(greatest)));
    this.clauses = new Clauses(trail, 2 * this.firstOrder);
    this.lags = new Lags(trail, this.conditions);
    this.orderLags = new OrderLags(trail, 2 * this.firstOrder, orders.count);
    this.openings = new Openings(trail, this.conditions);

    for (const lag of model.lags) this.lags.add(lag.from, lag.to, lag.kind, lag.map, this.when(lag.when));
    for (const { from, to, map, condition, order } of orders.lags) {
      if (order >= 0 && condition === 0 && isConstant(map)) this.orderLags.add(from, to, map.gap, order);
      else this.lags.add(from, to, 'least', map, order < 0 ? condition : this.whileOrdered(order, condition));
    }
    for (const opening of model.openings)
      this.openings.add(opening.start, opening.allowed, this.when(opening.when));
    for (const cost of bucketCosts)
      this.buckets.push(
        new Buckets(
          trail,
          this.conditions,
          cost.starts,
          cost.starts.map((_, i) => this.when(cost.when?.[i])),
          cost.edges,
          markers.get(cost)!,
        ),
      );
    model.levels.forEach((level, k) => this.addLevel(total + k, level.costs, markers));
    const energies: Energy[] = [];
    const machines: OneAtATime[] = [];
    const sharing: ResourceUse[] = [];
    model.resources.forEach((resource, r) => {
      if (tasks[r].length === 0) return;
      const lengths = orders.lengths[r] ?? NO_LENGTHS;
      const use = { capacity: new Capacity(resource.capacity), tasks: tasks[r], lengths };
      const isPlainUse = tasks[r].every(({ task }) => isPlain(task));
      if (!(orders.settled[r] ?? false)) {
        if (isPlainUse && tasks[r].every(({ condition }) => condition === 0)) sharing.push(use);
        else energies.push(...this.addTimeTable([use], false));
        return;
      }
      if (!isPlainUse) energies.push(...this.addTimeTable([use], true));
      else if (hasEnergy(lengths))
        machines.push(
          new OneAtATime(
            trail,
            tasks[r].map(({ task }) => task.from),
            lengths,
          ),
        );
    });
    if (sharing.length > 0) energies.push(...this.addTimeTable(sharing, false));
    for (const { starts, lengths } of orders.cliques) machines.push(new OneAtATime(trail, starts, lengths));
    for (const exclusion of model.exclusions) {
      const sided = (filtered: readonly Task[], contributing: readonly Task[]): void => {
        const timed = [
          ...filtered.map((task) => timedTask(task, this.when(task.when), [ONE], false, true)),
          ...contributing.map((task) => timedTask(task, this.when(task.when), [ONE], true, false)),
        ];
        if (filtered.length === 0 || contributing.length === 0) return;
        const profile = new SureProfile(trail, this.conditions, timed, [new Capacity(Int32Array.of(0, 1))]);
        this.wholes.push(new TimeTable(trail, this.conditions, profile, timed));
      };
      sided(exclusion.one, exclusion.other);
      sided(exclusion.other, exclusion.one);
    }

    // Energy after the time-tables, which bring the profiles up to date that it reads.
    this.wholes.unshift(...machines);
    this.wholes.push(...energies);
    this.lags.seal();
    this.orderLags.seal();
    [this.wake, this.wakeStart] = wakeLists(this.wholes, trail.views);
    this.queued = new Uint8Array(this.wholes.length).fill(1);
    this.waiting = this.wholes.length;
    this.sound = feasibleWindows && this.addClauses() && this.initial();
  }

  /** Are starts worth deciding on? Where many tasks exclude each other, the orders are the better decisions once there is a schedule to follow. */
  get decidesStarts(): boolean {
    return !this.isSettledByOrders && this.orders.count < this.startCount;
  }

  /** The atom that makes a literal true. */
  atom(literal: Literal): [number, number] {
    const x = 2 * (this.startCount + (literal >> 1));
    return (literal & 1) === 0 ? [x, 1] : [x + 1, 0];
  }

  private when(literals: readonly Literal[] | undefined): number {
    return literals === undefined ? 0 : this.conditions.add(literals.map((literal) => this.atom(literal)));
  }

  private whileOrdered(order: number, condition: number): number {
    const { conditions } = this;
    const value = 1 - (order & 1);
    return condition === 0
      ? conditions.addFresh(order, value)
      : conditions.add([[order, value], ...conditions.atoms(condition)]);
  }

  private addLevel(total: number, costs: readonly Cost[], markers: ReadonlyMap<Cost, Int32Array>): void {
    if (costs.length === 1 && costs[0].kind === 'late' && costs[0].weight === 1) {
      this.lags.add(costs[0].start, total, 'least', constantLag(-costs[0].after), 0);
      return;
    }
    const terms: Term[] = [];
    for (const cost of costs) {
      if (cost.kind === 'late')
        terms.push({
          view: 2 * cost.start,
          after: cost.after,
          weight: cost.weight,
        });
      else if (cost.kind === 'early')
        terms.push({
          view: 2 * cost.start + 1,
          after: -cost.before,
          weight: cost.weight,
        });
      else if (cost.kind === 'choice') {
        const [view, value] = this.atom(cost.when);
        terms.push({ view, after: value - 1, weight: cost.weight });
      } else {
        for (const marker of markers.get(cost)!)
          if (marker >= 0) terms.push({ view: 2 * marker, after: 0, weight: cost.weight });
      }
    }
    this.wholes.push(new Sum(this.trail, total, terms));
  }

  /** A time-table for all of these, and the energy of each; `isSettled`: the orders say all that the time-table would. */
  private addTimeTable(resources: readonly ResourceUse[], isSettled: boolean): Energy[] {
    const { trail, conditions } = this;
    const timed = new SharedTasks();
    const inProfile = resources.map(({ tasks }, of) => tasks.map((each) => timed.add(each, of)));
    const profile = new SureProfile(
      trail,
      conditions,
      timed.all,
      resources.map(({ capacity }) => capacity),
    );
    if (!isSettled) this.wholes.push(new TimeTable(trail, conditions, profile, timed.all));
    return resources.flatMap(({ tasks, lengths, capacity }, of) =>
      this.seesEnergy && hasEnergy(lengths)
        ? [
            new Energy(
              trail,
              conditions,
              profile,
              of,
              capacity,
              tasks.map(({ task: { amount } }, k) => ({
                inProfile: inProfile[of][k],
                amount,
                length: lengths[k],
              })),
              isSettled,
            ),
          ]
        : [],
    );
  }

  private addClauses(): boolean {
    const atoms = new Because();
    for (const clause of this.model.clauses) {
      atoms.size = 0;
      for (const literal of clause.literals) atoms.push(...this.atom(literal));
      if (!this.clauses.addGiven(atoms)) return false;
    }
    return true;
  }

  /** The first fixpoint: everything is looked at once. */
  private initial(): boolean {
    for (let view = 0; view < 2 * this.firstOrder; view++) if (!this.local(view)) return false;
    if (!this.propagate()) return false;
    this.settleRoot();
    return true;
  }

  private local(view: number): boolean {
    if (!this.lags.propagate(view)) return false;
    if (!this.orderLags.propagate(view)) return false;
    if (!this.openings.propagate(view)) return false;
    const { buckets } = this;
    for (let k = 0; k < buckets.length; k++) if (!buckets[k].propagate(view)) return false;
    return true;
  }

  /** Propagates to the fixpoint. False on a conflict, which the trail then describes. */
  propagate(): boolean {
    const { trail, queued, wake, wakeStart, wholes, clauses } = this;
    for (;;) {
      while (this.head < trail.size) {
        const q = this.head++;
        const view = trail.view[q];
        trail.work++;
        // A later change of the same view is on its way: the lags need only that one.
        if (trail.last[view] === q) {
          if (!this.local(view)) return false;
          for (let k = wakeStart[view], end = wakeStart[view + 1]; k < end; k++) {
            if (queued[wake[k]] === 0) {
              queued[wake[k]] = 1;
              this.waiting++;
            }
          }
        }
        if (!clauses.propagate(view, trail.old[q], trail.now[q])) return false;
      }
      if (this.waiting === 0) return true;
      let w = 0;
      while (queued[w] === 0) w++;
      queued[w] = 0;
      this.waiting--;
      if (!wholes[w].propagate()) return false;
    }
  }

  /** Undoes everything above a level; what waited for propagation there is dropped. */
  backTo(level: number): void {
    this.trail.backTo(level);
    this.orderLags.backTo(this.trail.size);
    this.head = Math.min(this.head, this.trail.size);
    this.queued.fill(0);
    this.waiting = 0;
  }

  /** At the root, after a fixpoint: forgets how the root came to be. */
  settleRoot(): void {
    this.trail.forgetRoot();
    this.orderLags.settleRoot();
    this.head = 0;
  }
}

const NO_LENGTHS = new Int32Array(0);
const ONE: Use = { of: 0, amount: 1 };

/** A resource, its tasks and how long each surely takes. */
interface ResourceUse {
  readonly capacity: Capacity;
  readonly tasks: readonly OrderTask[];
  readonly lengths: Int32Array;
}

const hasEnergy = (lengths: Int32Array): boolean =>
  lengths.reduce((count, p) => (p > 0 ? count + 1 : count), 0) > 2;

/** The wholes to look at when a view changes, each once. */
function wakeLists(wholes: readonly Whole[], views: number): [Int32Array, Int32Array] {
  const watched = wholes.map((whole) => whole.watched());
  const latest = new Int32Array(views);
  return valuesBy(views, (note) => {
    latest.fill(-1);
    for (let k = 0; k < watched.length; k++)
      for (const view of watched[k]) {
        if (latest[view] === k) continue;
        latest[view] = k;
        note(view, k);
      }
  });
}
