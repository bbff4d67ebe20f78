/**
 * The latest times of one part, its choices made, while the others stand and it costs no more: what has to wait anyway is not done long
 * before, where it would stand in the way of others.
 *
 * Closed under taking the later of two solutions start by start as it is under taking the earlier (`earliest.ts`): lowering upper bounds
 * to their greatest fixpoint gives the one solution in which every start is as late as in any.
 *
 * Literature: Valls, Ballestín and Quintanilla 2005 (justification).
 */
import { byStart } from './by-start.ts';
import { firstReaching } from './maps.ts';
import { NEVER, type Lag, type Literal, type Model, type Opening, type Time } from './model.ts';
import type { Use } from './uses.ts';

export class Latest {
  /** The latest time of each start, so far. */
  readonly most: Int32Array;
  /** Counted steps: revised starts. */
  work = 0;
  private readonly last: Int32Array;
  private readonly openings: readonly Opening[][];
  /** Lags by which a start bounds what it follows, and what follows it. */
  private readonly lagsBack: readonly Lag[][];
  private readonly lagsOut: readonly Lag[][];
  private readonly own: readonly Use[][];
  private readonly held: readonly Use[][];
  private readonly queue: number[] = [];
  private readonly queued: Uint8Array;

  /** @param holds whether a condition is true under the choices made */
  constructor(
    model: Model,
    uses: readonly Use[],
    private readonly holds: (when: readonly Literal[] | undefined) => boolean,
  ) {
    const S = model.starts.length;
    this.last = Int32Array.from(model.starts, (start) => start.latest);
    this.most = this.last.slice();
    this.queued = new Uint8Array(S);
    const isLeast = ({ kind }: Lag): boolean => kind === 'least';
    const isOwn = ({ task }: Use): boolean => task.from === task.to;
    this.openings = byStart(S, model.openings, ({ start }) => start);
    this.lagsBack = byStart(S, model.lags.filter(isLeast), ({ to }) => to);
    this.lagsOut = byStart(
      S,
      model.lags.filter((lag) => !isLeast(lag)),
      ({ from }) => from,
    );
    this.own = byStart(S, uses.filter(isOwn), ({ task }) => task.from);
    this.held = byStart(
      S,
      uses.filter((use) => !isOwn(use)),
      ({ task }) => task.from,
    );
  }

  /** Begins anew: all starts of a part as late as the model has them. */
  begin(starts: readonly number[]): void {
    for (const s of starts) this.most[s] = this.last[s];
  }

  /**
   * Lowers `most` of a part to the latest solution below it. False when a start would be before `least`, a solution: where a run is empty,
   * for such a run is held to fit only where a moment would.
   */
  lower(starts: readonly number[], least: Int32Array): boolean {
    const { queue, queued, most } = this;
    for (const s of starts) this.enqueue(s);
    let fits = true;
    for (let head = 0; head < queue.length; head++) {
      const s = queue[head];
      queued[s] = 0;
      if (!fits) continue;
      this.work++;
      this.lowerStart(s);
      fits = most[s] >= least[s];
    }
    queue.length = 0;
    return fits;
  }

  private enqueue(s: number): void {
    if (this.queued[s] === 1) return;
    this.queued[s] = 1;
    this.queue.push(s);
  }

  private lowerTo(s: number, to: Time): void {
    if (to >= this.most[s]) return;
    this.most[s] = to;
    this.enqueue(s);
  }

  private lowerStart(s: number): void {
    const { most } = this;
    let at = most[s];
    for (let before = at + 1; before !== at;) {
      before = at;
      for (const { allowed, when } of this.openings[s]) if (this.holds(when)) at = lastAllowed(allowed, at);
      for (const { task, fits, needs } of this.own[s])
        if (this.holds(task.when)) at = fits.lastFit(at, task.until, needs);
    }
    most[s] = at;
    for (const { from, map, when } of this.lagsBack[s])
      if (this.holds(when)) this.lowerTo(from, map.leastReaching(at + 1) - 1);
    for (const { to, map, when } of this.lagsOut[s]) if (this.holds(when)) this.lowerTo(to, map.at(at));
    for (const { task, fits, needs } of this.held[s])
      if (this.holds(task.when))
        this.lowerTo(task.to, task.until.leastReaching(fits.lastEnd(at, needs) + 1) - 1);
  }
}

/** The last allowed time up to `t`. */
function lastAllowed(allowed: Int32Array, t: Time): Time {
  const k = firstReaching(allowed, t + 1);
  // Inside an interval the edge before is its beginning, which has an even index.
  return (k & 1) === 1 ? t : k > 0 ? allowed[k - 1] - 1 : -NEVER;
}
