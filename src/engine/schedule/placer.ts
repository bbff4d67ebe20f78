/**
 * Lays parts down and takes them up, one while the others stand: its earliest times (`earliest.ts`) under the choices that cost least
 * (`choosing.ts`). Only tasks of the same part that run into one another break the rule that nothing can be earlier; the later one is pushed behind.
 */
import type { Chance } from './chance.ts';
import { Choosing, type PlaceWishes } from './choosing.ts';
import { Earliest } from './earliest.ts';
import { LaidDown } from './laid-down.ts';
import { Latest } from './latest.ts';
import type { Assignment, Literal, Model, Time } from './model.ts';
import { partOfStarts, type Part } from './parts.ts';
import { reachOfChoices } from './questions.ts';
import { Tally } from './tally.ts';
import { usesOf, type Use } from './uses.ts';

/** Times and choices of one part, to be put back as they were. */
export interface Placement {
  readonly part: number;
  readonly starts: Int32Array;
  readonly choices: Int8Array;
}

const PUSHES = 200;

export class Placer {
  readonly tally: Tally;
  /** What each part costs at least, level by level, when it has everything for itself. */
  readonly costsAlone: readonly Float64Array[];
  private readonly times: Earliest;
  private readonly choosing: Choosing;
  private readonly latest: Latest;
  private readonly laid: LaidDown;
  private readonly usesOfPart: readonly Use[][];

  constructor(
    model: Model,
    readonly parts: readonly Part[],
    chance: Chance,
  ) {
    const uses = usesOf(model);
    const partOf = partOfStarts(parts, model.starts.length);
    this.usesOfPart = parts.map(() => []);
    for (const use of uses) this.usesOfPart[partOf[use.task.from]].push(use);
    const { startsOfChoice, wakes } = reachOfChoices(model);
    this.times = new Earliest(model, parts, uses, wakes);
    this.latest = new Latest(model, uses, (when) => this.times.holds(when));
    const { least, truth } = this.times;
    this.tally = new Tally(model, parts, least, truth);
    // Nothing is laid down yet: each start is where its part alone has it.
    this.costsAlone = parts.map((_, p) => {
      const costs = new Float64Array(model.levels.length);
      this.tally.atLeast(p, costs);
      return costs;
    });
    this.laid = new LaidDown(parts.length, least);
    const layDown = (part: number): boolean => this.layDown(part);
    this.choosing = new Choosing(model, parts, this.times, this.tally, startsOfChoice, chance, layDown);
  }

  /** The time of each start that is laid down. */
  get least(): Int32Array {
    return this.times.least;
  }

  /** Counted steps: revised starts, asked questions, and what the caller adds. */
  get work(): number {
    return this.times.work;
  }

  set work(steps: number) {
    this.times.work = steps;
  }

  /** Whether some part does not fit even alone. */
  get isHopeless(): boolean {
    return this.times.isHopeless;
  }

  /** The least time of a start when its part has everything for itself: no solution has it earlier. */
  leastAlone(start: number): Time {
    return this.times.leastAlone(start);
  }

  /** Is the literal true in every solution, as far as the part alone tells? */
  isForced(literal: Literal): boolean {
    return this.times.isForced(literal);
  }

  isFixed(part: number): boolean {
    return this.times.isFixed(part);
  }

  assignment(): Assignment {
    const { least, truth } = this.times;
    return { starts: [...least], choices: Array.from(truth, (value) => value === 1) };
  }

  /** Lays the part down, as early as what stands allows. False when no way was found; then it is not there. */
  place(part: number, wishes: PlaceWishes = {}): boolean {
    const done = this.times.begin(part, wishes.floor, wishes.given) && this.choosing.settle(part, wishes);
    if (done && wishes.isLate) this.moveBack(part);
    if (done) this.tally.add(part);
    return done;
  }

  /** What a part that is not there would cost at least beside what stands, level by level. False when it has no place there. */
  leastBeside(part: number, { floor, given }: PlaceWishes, into: Float64Array): boolean {
    if (!this.times.begin(part, floor, given)) return false;
    this.tally.atLeast(part, into);
    return true;
  }

  /**
   * The literals of a part that must be false, for by them alone it would cost more than it may.
   * @param least what it, and all that is not laid down, costs at least
   */
  tooDear(part: number, least: Float64Array, mayCost: (least: Float64Array) => boolean): Literal[] {
    return this.tally.tooDear(part, least, (literal) => this.times.isForced(literal), mayCost);
  }

  /** Takes a part up and tells where it lay. */
  remove(part: number): Placement {
    const { starts, choices } = this.parts[part];
    const { least, truth } = this.times;
    this.tally.remove(part);
    this.laid.release(part);
    return {
      part,
      starts: new Int32Array(starts.map((s) => least[s])),
      choices: new Int8Array(choices.map((c) => truth[c])),
    };
  }

  /** Puts a part back where it lay; nothing is checked. */
  restore({ part, starts, choices }: Placement): void {
    this.times.put(
      part,
      (k) => starts[k],
      (k) => choices[k],
    );
    for (const use of this.usesOfPart[part]) if (this.binds(use)) this.laid.take(part, use);
    this.tally.add(part);
  }

  /** Lays a part down exactly as given. False, and it is not there, when it breaks a rule. */
  putAt(part: number, at: Assignment): boolean {
    const { starts, choices } = this.parts[part];
    this.times.put(
      part,
      (k) => at.starts[starts[k]],
      (k) => (at.choices[choices[k]] ? 1 : 0),
    );
    return this.times.isSound(part) && this.layAsItIs(part);
  }

  /** Puts a part back where it lay. False, and it is not there, when it does not fit there any more. */
  putBack({ part, starts, choices }: Placement): boolean {
    this.times.put(
      part,
      (k) => starts[k],
      (k) => choices[k],
    );
    return this.layAsItIs(part);
  }

  /** Takes the part's share of all channels and counts it; nothing of that when it does not fit. */
  private layAsItIs(part: number): boolean {
    const { times, laid } = this;
    for (const use of this.usesOfPart[part]) {
      if (!this.binds(use)) continue;
      times.work++;
      if (times.fitsFrom(use) !== this.least[use.task.from]) {
        laid.release(part);
        return false;
      }
      laid.take(part, use);
    }
    this.tally.add(part);
    return true;
  }

  private binds({ task }: Use): boolean {
    return this.times.holds(task.when);
  }

  /** Takes the part's share of all channels; tasks of its own that get in one another's way are pushed apart. */
  private layDown(part: number): boolean {
    const { times, laid } = this;
    const { least } = times;
    const uses = this.usesOfPart[part].filter((use) => this.binds(use));
    for (let pushes = 0; pushes < PUSHES; pushes++) {
      uses.sort((a, b) => least[a.task.from] - least[b.task.from]);
      let pushed = false;
      for (const use of uses) {
        const fits = times.fitsFrom(use);
        if (fits === least[use.task.from]) {
          laid.take(part, use);
          continue;
        }
        laid.release(part);
        if (!times.raise(use.task.from, fits) || !times.propagate()) return false;
        pushed = true;
        break;
      }
      if (!pushed) return true;
    }
    return false;
  }

  /** Moves what is laid down of a part as late as it can be at the same cost; not at all when tasks of its own would then run into one another. */
  private moveBack(part: number): void {
    const { times, laid, latest, tally } = this;
    const { least } = times;
    const { starts } = this.parts[part];
    const uses = this.usesOfPart[part].filter((use) => this.binds(use));
    laid.release(part);
    latest.begin(starts);
    tally.limit(part, latest.most);
    const before = latest.work;
    const isFound = latest.lower(starts, least);
    times.work += latest.work - before;
    const early = new Int32Array(starts.map((s) => least[s]));
    if (isFound) for (const s of starts) least[s] = latest.most[s];
    for (const use of uses) {
      if (isFound && times.fitsFrom(use) !== least[use.task.from]) {
        laid.release(part);
        starts.forEach((s, k) => (least[s] = early[k]));
        for (const each of uses) laid.take(part, each);
        return;
      }
      laid.take(part, use);
    }
  }

  /**
   * The other parts with something on a channel that the part uses too, in the span of time given.
   * @param onlyHeld only channels that the part holds from one start to another
   */
  meeting(part: number, from: Time, until: Time, onlyHeld: boolean): number[] {
    const mine = this.usesOfPart[part].filter(
      (use) => (!onlyHeld || use.task.from !== use.task.to) && this.binds(use),
    );
    return this.laid.meeting(part, new Set(mine.map(({ takes }) => takes)), from, until);
  }
}
