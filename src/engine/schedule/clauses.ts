/**
 * Clauses over atoms, given and learned, with two watched atoms each.
 *
 * A clause lies in one flat array: `[size, quality, activity slot, view0, value0, view1, value1, ...]`. A watch lies in the list of the
 * view whose rise can make the watched atom false, with the threshold at which it does, and a blocker (another atom of the
 * clause: where that is true nothing needs to be read). Literature: Moskewicz et al. 2001, Een and Sorensson 2003; atoms in
 * place of literals as in Ohrimenko, Stuckey, Codish 2009, here without a Boolean for a bound.
 */
import { Because, grown, type Explainer, type Trail } from './trail.ts';

const HEAD = 3;
const WATCH = 4;

export class Clauses implements Explainer {
  private readonly by: number;
  private data = new Int32Array(1 << 11);
  private used = 0;
  private readonly lists: Int32Array[] = [];
  private readonly sizes: Int32Array;
  private activity = new Float64Array(256);
  private learned: number[] = [];
  private increment = 1;
  /** Watches looked at, for counting work. */
  visits = 0;

  /** `firstQuiet`: the views from here on (choices of order) change rarely: they are the better ones to watch. */
  constructor(
    private readonly trail: Trail,
    private readonly firstQuiet: number,
  ) {
    this.by = trail.register(this);
    for (let view = 0; view < trail.views; view++) this.lists.push(EMPTY);
    this.sizes = new Int32Array(trail.views);
  }

  get learnedCount(): number {
    return this.learned.length;
  }

  private watch(
    view: number,
    threshold: number,
    clause: number,
    blockView: number,
    blockValue: number,
  ): void {
    let list = this.lists[view];
    const at = this.sizes[view];
    if (at + WATCH > list.length)
      list = this.lists[view] = list.length === 0 ? new Int32Array(8 * WATCH) : grown(list);
    list[at] = threshold;
    list[at + 1] = clause;
    list[at + 2] = blockView;
    list[at + 3] = blockValue;
    this.sizes[view] = at + WATCH;
  }

  private store(atoms: Because, quality: number): number {
    const size = atoms.size;
    while (this.used + HEAD + 2 * size > this.data.length) this.data = grown(this.data);
    const at = this.used;
    const { data } = this;
    data[at] = size;
    data[at + 1] = quality;
    data[at + 2] = -1;
    for (let k = 0; k < size; k++) {
      data[at + HEAD + 2 * k] = atoms.views[k];
      data[at + HEAD + 2 * k + 1] = atoms.values[k];
    }
    this.used = at + HEAD + 2 * size;
    this.putQuietFirst(at + HEAD + 4, at + HEAD + 2 * size);
    return at;
  }

  /** Behind the two that are watched: what comes first is tried first when a watch moves. */
  private putQuietFirst(from: number, to: number): void {
    const { data, firstQuiet } = this;
    for (let a = from, next = from; a < to; a += 2) {
      if (data[a] < firstQuiet) continue;
      const [view, value] = [data[next], data[next + 1]];
      data[next] = data[a];
      data[next + 1] = data[a + 1];
      data[a] = view;
      data[a + 1] = value;
      next += 2;
    }
  }

  private attach(clause: number): void {
    const { data } = this;
    const a = clause + HEAD;
    this.watch(data[a] ^ 1, 1 - data[a + 1], clause, data[a + 2], data[a + 3]);
    this.watch(data[a + 2] ^ 1, 1 - data[a + 3], clause, data[a], data[a + 1]);
  }

  /** A clause of the model, at level 0 before the search. False when it cannot hold. */
  addGiven(atoms: Because): boolean {
    const { trail } = this;
    const open = new Map<number, number>();
    for (let k = 0; k < atoms.size; k++) {
      const view = atoms.views[k];
      const value = atoms.values[k];
      if (trail.holds(view, value)) return true;
      if (trail.fails(view, value)) continue;
      const known = open.get(view);
      open.set(view, known === undefined ? value : Math.min(known, value));
    }
    for (const [view, value] of open) {
      const against = open.get(view ^ 1);
      if (against !== undefined && against <= 1 - value) return true;
    }
    const rest = new Because();
    for (const [view, value] of open) rest.push(view, value);
    if (rest.size === 0) return false;
    if (rest.size === 1) return trail.set(rest.views[0], rest.values[0], this.by, -1);
    this.attach(this.store(rest, 0));
    return true;
  }

  /**
   * A learned clause whose first atom is the only one not false, and whose second is the last to become so. Attaches it and
   * sets the first atom.
   */
  addLearned(atoms: Because, quality: number): boolean {
    if (atoms.size === 1) return this.trail.set(atoms.views[0], atoms.values[0], this.by, -1);
    const clause = this.store(atoms, quality);
    const slot = this.learned.push(clause) - 1;
    if (slot >= this.activity.length) {
      const bigger = new Float64Array(this.activity.length * 2);
      bigger.set(this.activity);
      this.activity = bigger;
    }
    this.data[clause + 2] = slot;
    this.activity[slot] = this.increment;
    this.attach(clause);
    return this.trail.set(atoms.views[0], atoms.values[0], this.by, clause);
  }

  /** Propagates one change of a view, from `old` to `now`. */
  propagate(view: number, old: number, now: number): boolean {
    const { trail, data } = this;
    const { bound } = trail;
    const list = this.lists[view];
    const size = this.sizes[view];
    let keep = 0;
    let k = 0;
    this.visits += size >> 2;
    for (; k < size; k += WATCH) {
      const threshold = list[k];
      if (threshold > now || threshold <= old || bound[list[k + 2]] >= list[k + 3]) {
        if (keep !== k) {
          list[keep] = threshold;
          list[keep + 1] = list[k + 1];
          list[keep + 2] = list[k + 2];
          list[keep + 3] = list[k + 3];
        }
        keep += WATCH;
        continue;
      }
      const clause = list[k + 1];
      const a = clause + HEAD;
      if (data[a] === (view ^ 1) && data[a + 1] === 1 - threshold) {
        data[a] = data[a + 2];
        data[a + 1] = data[a + 3];
        data[a + 2] = view ^ 1;
        data[a + 3] = 1 - threshold;
      }
      const firstView = data[a];
      const firstValue = data[a + 1];
      let moved = false;
      if (bound[firstView] < firstValue) {
        for (let j = a + 4, end = a + 2 * data[clause]; j < end; j += 2) {
          const w = data[j];
          const v = data[j + 1];
          if (bound[w ^ 1] < 1 - v) {
            data[a + 2] = w;
            data[a + 3] = v;
            data[j] = view ^ 1;
            data[j + 1] = 1 - threshold;
            this.watch(w ^ 1, 1 - v, clause, firstView, firstValue);
            moved = true;
            break;
          }
        }
      }
      if (moved) continue;
      list[keep] = threshold;
      list[keep + 1] = clause;
      list[keep + 2] = firstView;
      list[keep + 3] = firstValue;
      keep += WATCH;
      if (bound[firstView] < firstValue && !trail.set(firstView, firstValue, this.by, clause)) {
        k += WATCH;
        list.copyWithin(keep, k, size);
        this.sizes[view] = keep + size - k;
        return false;
      }
    }
    this.sizes[view] = keep;
    return true;
  }

  explain(view: number, _value: number, _before: number, clause: number, because: Because): void {
    if (clause < 0) return;
    const { data } = this;
    const slot = data[clause + 2];
    if (slot >= 0) this.bump(slot);
    let skipped = false;
    for (let a = clause + HEAD, end = a + 2 * data[clause]; a < end; a += 2) {
      if (!skipped && data[a] === view) skipped = true;
      else because.push(data[a] ^ 1, 1 - data[a + 1]);
    }
  }

  private bump(slot: number): void {
    this.activity[slot] += this.increment;
    if (this.activity[slot] > 1e100) {
      for (let k = 0; k < this.learned.length; k++) this.activity[k] *= 1e-100;
      this.increment *= 1e-100;
    }
  }

  decay(): void {
    this.increment /= 0.999;
  }

  /** Forgets half of the learned clauses, the least active first; those of small quality (levels spanned) stay. At level 0 only. */
  reduce(): void {
    const { data, activity, trail } = this;
    const order = this.learned.map((_, slot) => slot).sort((x, y) => activity[x] - activity[y] || x - y);
    const dropped = new Uint8Array(this.learned.length);
    const goal = order.length >> 1;
    let count = 0;
    for (const slot of order) {
      if (count >= goal) break;
      if (data[this.learned[slot] + 1] <= 2) continue;
      dropped[slot] = 1;
      count++;
    }
    const fresh = new Int32Array(data.length);
    const slots = new Float64Array(activity.length);
    const learned: number[] = [];
    let used = 0;
    this.sizes.fill(0);
    this.data = fresh;
    for (let at = 0, next: number; at < this.used; at = next) {
      const size = data[at];
      next = at + HEAD + 2 * size;
      const slot = data[at + 2];
      if (slot >= 0 && dropped[slot] === 1) continue;
      let satisfied = false;
      let write = used + HEAD;
      for (let a = at + HEAD; a < next; a += 2) {
        const view = data[a];
        const value = data[a + 1];
        if (trail.holds(view, value)) {
          satisfied = true;
          break;
        }
        if (trail.fails(view, value)) continue;
        fresh[write] = view;
        fresh[write + 1] = value;
        write += 2;
      }
      if (satisfied) continue;
      fresh[used] = (write - used - HEAD) >> 1;
      fresh[used + 1] = data[at + 1];
      fresh[used + 2] = -1;
      if (slot >= 0) {
        slots[learned.length] = activity[slot];
        fresh[used + 2] = learned.push(used) - 1;
      }
      this.attach(used);
      used = write;
    }
    this.used = used;
    this.learned = learned;
    this.activity = slots;
  }
}

const EMPTY = new Int32Array(0);
