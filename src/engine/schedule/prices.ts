/** Prices of shared things by the minute, and how much of each is asked for. Time is cut into classes alike; the last one holds all the rest. */
import type { Resource, Time } from './model.ts';

/** Prices are whole multiples of this, so that sums of them are exact. */
const GRAIN = 1 / 4096;

export class Prices {
  /** The price of one unit for one minute, by resource and class; 0 in the last class. */
  readonly price: readonly Float64Array[];
  /** Unit-minutes asked for less those there are, by resource and class. */
  readonly excess: readonly Float64Array[];
  /** The price of one unit from the beginning of time to that of each class. */
  private readonly before: readonly Float64Array[];
  private readonly room: readonly Float64Array[];
  /** The most units there ever are of each resource. */
  private readonly most: readonly number[];

  /**
   * @param from when the first class begins
   * @param width of a class
   * @param count of classes
   */
  constructor(
    resources: readonly Resource[],
    private readonly from: Time,
    private readonly width: Time,
    private readonly count: number,
  ) {
    const perClass = (): Float64Array[] => resources.map(() => new Float64Array(count));
    this.price = perClass();
    this.excess = perClass();
    this.before = perClass();
    this.room = resources.map(({ capacity }) => this.roomOf(capacity));
    this.most = resources.map(({ capacity }) =>
      capacity.reduce((most, units, k) => (k % 2 === 1 ? Math.max(most, units) : most), 1),
    );
  }

  private beginning(k: number): Time {
    return this.from + k * this.width;
  }

  private classOf(t: Time): number {
    return Math.max(0, Math.min(this.count - 1, Math.floor((t - this.from) / this.width)));
  }

  /** Unit-minutes of a capacity in each class; the last has no price, and none is counted. */
  private roomOf(capacity: Int32Array): Float64Array {
    const room = new Float64Array(this.count);
    for (let c = 0; c < capacity.length; c += 2) {
      const from = c === 0 ? -Infinity : capacity[c];
      const until = c + 2 < capacity.length ? capacity[c + 2] : Infinity;
      for (let k = 0; k + 1 < this.count; k++) {
        const shared = Math.min(until, this.beginning(k + 1)) - Math.max(from, this.beginning(k));
        if (shared > 0) room[k] += shared * capacity[c + 1];
      }
    }
    return room;
  }

  /** The price of one unit from the beginning of time to `t`. */
  until(resource: number, t: Time): number {
    const k = this.classOf(t);
    return this.before[resource][k] + this.price[resource][k] * Math.max(0, t - this.beginning(k));
  }

  /** `amount` units are asked for over `[from, until)`. */
  ask(resource: number, from: Time, until: Time, amount: number): void {
    const excess = this.excess[resource];
    for (let k = this.classOf(from); k + 1 < this.count && this.beginning(k) < until; k++)
      excess[k] += amount * (Math.min(until, this.beginning(k + 1)) - Math.max(from, this.beginning(k)));
  }

  /** Begins a round: what was changed in `price` counts, and nothing is asked for. What all that is there would fetch. */
  settle(): number {
    let worth = 0;
    this.price.forEach((price, r) => {
      price[this.count - 1] = 0;
      let sum = 0;
      for (let k = 0; k < this.count; k++) {
        price[k] = Math.round(price[k] / GRAIN) * GRAIN;
        this.before[r][k] = sum;
        sum += price[k] * this.width;
        worth += price[k] * this.room[r][k];
        this.excess[r][k] = -this.room[r][k];
      }
    });
    return worth;
  }

  /**
   * Moves the prices along what is asked for too much.
   * @param missing how much more the bound should become
   * @returns false when there is nothing to move
   */
  move(missing: number): boolean {
    const { price, excess, most } = this;
    const isLoose = (r: number, k: number): boolean => excess[r][k] > 0 || price[r][k] > 0;
    let square = 0;
    // A few units and thousands of them move alike.
    price.forEach((prices, r) => {
      for (let k = 0; k + 1 < prices.length; k++) if (isLoose(r, k)) square += (excess[r][k] / most[r]) ** 2;
    });
    if (square === 0) return false;
    const by = missing / square;
    price.forEach((prices, r) => {
      for (let k = 0; k + 1 < prices.length; k++)
        prices[k] = Math.max(0, prices[k] + (by * excess[r][k]) / (most[r] * most[r]));
    });
    return true;
  }
}
