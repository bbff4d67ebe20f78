/**
 * A lower bound on a level's lateness when parts wait for one another: what is scarce has a price by the minute in place of its capacity. Each part
 * then does what is cheapest for itself; what they all cost, less what all that is there would fetch, is no more than any assignment costs, whatever
 * the prices are. They rise where too much is asked for and fall where too little.
 *
 * A relaxation throughout: a part's times are the earliest that it could have alone, its choices are free but for one, and of what it needs only
 * what it holds long counts.
 *
 * Literature: Held and Karp 1971, Fisher 1981 (Lagrangian relaxation), Polyak 1969 (length of a step), Christofides, Alvarez-Valdes, Tamarit 1987
 * and Möhring, Schulz, Stork, Uetz 2003 (projects under such prices), Dyer and Wolsey 1990 (time-indexed bounds).
 */
import { Earliest } from './earliest.ts';
import { holdingOf, type HeldTask, type Held, type Holding } from './holding.ts';
import type { Model, Time } from './model.ts';
import { partOfStarts, type Part } from './parts.ts';
import { Prices } from './prices.ts';
import { questionsOf, reachOfChoices } from './questions.ts';
import { usesOf } from './uses.ts';

/** Classes of time between the first moment and the last that counts. */
const CLASSES = 250;
/** Rounds without a better bound after which steps get shorter, by how much, and how short is too short. */
const PATIENCE = 20;
const SHORTER = 0.7;
const SHORTEST = 0.001;

export class PriceBound {
  /** No assignment of the model costs less at the level. */
  bound = 0;
  /** Prices can do no more. */
  isDone: boolean;
  private readonly prices: Prices;
  /** Of the parts so far, in their order; prices move once all are there. */
  private readonly holdings: Holding[] = [];
  private readonly holdingOf: (part: number) => Holding | null;
  private readonly times: Earliest;
  private workOfRounds = 0;
  private step = 1;
  private idle = 0;

  /**
   * @param parts of the model, or of one with the same starts and choices and fewer clauses
   * @param level whose lateness is bounded
   * @param until the time up to which things have prices
   */
  constructor(
    model: Model,
    private readonly parts: readonly Part[],
    level: number,
    until: Time,
  ) {
    const { startsOfChoice, wakes } = reachOfChoices(model);
    const times = (this.times = new Earliest(model, parts, usesOf(model), wakes));
    const from = model.starts.reduce((first, { earliest }) => Math.min(first, earliest), until);
    const width = Math.max(1, Math.ceil((until - from) / CLASSES));
    const scarcity = scarcityOf(model, times);
    const [tasks, costs] = shares(model, parts, level);
    const grid = { from, width, until };
    this.holdingOf = (p) => {
      const questions = questionsOf(model, parts[p], startsOfChoice);
      return holdingOf(model, [p, parts[p]], questions, times, tasks[p], costs[p], scarcity, grid);
    };
    this.isDone = times.isHopeless;
    this.prices = new Prices(model.resources, from, width, CLASSES + 1);
  }

  /** Counted steps. */
  get work(): number {
    return this.times.work + this.workOfRounds;
  }

  /** Reads one part after the other. False when that takes more than there is, or shows that there is no assignment. */
  private readParts(until: number, stop: () => boolean): boolean {
    while (this.holdings.length < this.parts.length) {
      if (this.isDone || this.work >= until || stop()) return false;
      const holding = this.holdingOf(this.holdings.length);
      if (holding === null) this.isDone = true;
      else this.holdings.push(holding);
    }
    return true;
  }

  /**
   * Changes the prices, once all parts are read; goes on where it stopped.
   * @param upper what some assignment costs
   * @param until counted steps at which to stop
   */
  raise(upper: number, until: number, stop: () => boolean): void {
    if (!this.readParts(until, stop)) return;
    const workOfRound =
      this.holdings.reduce((sum, { last, answers }) => sum + last.length * answers.length, 0) >> 3;
    while (!this.isDone && this.work < until && !stop()) {
      this.workOfRounds += workOfRound;
      const worth = this.prices.settle();
      const cost = this.holdings.reduce((sum, holding) => sum + this.cheapest(holding), -worth);
      if (cost > this.bound) {
        this.bound = Math.ceil(cost);
        this.idle = 0;
      } else if (++this.idle > PATIENCE) {
        this.step *= SHORTER;
        this.idle = 0;
      }
      this.isDone =
        this.bound >= upper || this.step < SHORTEST || !this.prices.move(this.step * (upper - cost));
    }
  }

  /** The least cost of a part under the prices; it asks for what it then holds. */
  private cheapest({ last, cost, answers }: Holding): number {
    const { prices } = this;
    let least = Infinity;
    let best = 0;
    let chosen: readonly Held[] = [];
    for (const held of answers) {
      for (let k = 0; k < last.length; k++) {
        let sum = cost[k];
        for (const { resource, task, ends } of held)
          sum += task.amount * Math.max(0, prices.until(resource, ends[k]) - prices.until(resource, last[k]));
        if (sum >= least) continue;
        least = sum;
        best = k;
        chosen = held;
      }
    }
    for (const { resource, task, ends } of chosen) prices.ask(resource, last[best], ends[best], task.amount);
    return least;
  }
}

/** How long each resource would be held by all that may hold it, one after the other, at its most. */
function scarcityOf({ resources }: Model, { least }: Earliest): number[] {
  return resources.map(({ capacity, tasks }) => {
    const most = capacity.reduce((max, units, k) => (k % 2 === 1 ? Math.max(max, units) : max), 1);
    let held = 0;
    for (const { from, to, until, amount } of tasks)
      if (from !== to) held += amount * Math.max(0, until.at(least[to]) - least[from]);
    return held / most;
  });
}

/** What each part may hold from one start to another, and its costs of lateness at the level. */
function shares(
  model: Model,
  parts: readonly Part[],
  level: number,
): [HeldTask[][], Model['levels'][number]['costs'][number][][]] {
  const partOf = partOfStarts(parts, model.starts.length);
  const tasks = parts.map((): HeldTask[] => []);
  model.resources.forEach((each, resource) => {
    for (const task of each.tasks)
      if (task.from !== task.to && task.amount > 0) tasks[partOf[task.from]].push({ resource, task });
  });
  const costs = parts.map((): Model['levels'][number]['costs'][number][] => []);
  for (const cost of model.levels[level].costs)
    if (cost.kind === 'late') costs[partOf[cost.start]].push(cost);
  return [tasks, costs];
}
