/**
 * The trail: every bound of every variable, and how it came to be.
 *
 * One integer form serves all: variable `x` has two *views*, `2x` with value `x` and `2x + 1` with value `-x`. A view
 * has one lower bound, so `bound[2x]` is the least value of `x` and `-bound[2x + 1]` the greatest. An *atom* is a pair
 * (view, value), read `view >= value`; its negation is `(view ^ 1, 1 - value)`. Choices are variables in `0..1`.
 */
import { NEVER } from './model.ts';

/** A conjunction of atoms under construction: why something holds. */
export class Because {
  views = new Int32Array(256);
  values = new Int32Array(256);
  size = 0;

  push(view: number, value: number): void {
    if (this.size === this.views.length) {
      this.views = grown(this.views);
      this.values = grown(this.values);
    }
    this.views[this.size] = view;
    this.values[this.size++] = value;
  }
}

/** Whoever changes bounds can say why, later and only when asked. */
export interface Explainer {
  /**
   * Pushes atoms that all held before trail position `before` and together imply `view >= value`, where `ref` is what the
   * explainer handed to `Trail.set`.
   */
  explain(view: number, value: number, before: number, ref: number, because: Because): void;
}

export function grown(array: Int32Array): Int32Array<ArrayBuffer> {
  const bigger = new Int32Array(array.length * 2);
  bigger.set(array);
  return bigger;
}

/** Of the trail's arrays; they grow. */
const FIRST_SIZE = 256;

/** The reason number of a decision. */
export const DECIDED = -1;

export class Trail {
  /** Lower bound of each view. */
  readonly bound: Int32Array;
  /** Position of the last change of each view, or -1. */
  readonly last: Int32Array;
  readonly views: number;

  view = new Int32Array(FIRST_SIZE);
  now = new Int32Array(FIRST_SIZE);
  old = new Int32Array(FIRST_SIZE);
  prev = new Int32Array(FIRST_SIZE);
  by = new Int32Array(FIRST_SIZE);
  ref = new Int32Array(FIRST_SIZE);
  levelOf = new Int32Array(FIRST_SIZE);
  size = 0;

  level = 0;
  private levelStart = new Int32Array(256);
  private levelNotes = new Int32Array(256);

  /** Small facts that explainers leave for themselves; forgotten with the trail. */
  notes = new Int32Array(FIRST_SIZE);
  noteSize = 0;

  /** The change that failed: it contradicts the opposite view's bound. */
  failView = 0;
  failValue = 0;
  failBy = 0;
  failRef = 0;

  /** Work done so far, in counted steps; deterministic. */
  work = 0;

  readonly explainers: Explainer[] = [];

  constructor(least: Int32Array, greatest: Int32Array) {
    const n = least.length;
    this.views = 2 * n;
    this.bound = new Int32Array(2 * n);
    this.last = new Int32Array(2 * n).fill(-1);
    for (let x = 0; x < n; x++) {
      this.bound[2 * x] = least[x];
      this.bound[2 * x + 1] = -greatest[x];
    }
  }

  /** Registers an explainer and returns its number, to be given as `by`. */
  register(explainer: Explainer): number {
    return this.explainers.push(explainer) - 1;
  }

  holds(view: number, value: number): boolean {
    return this.bound[view] >= value;
  }

  fails(view: number, value: number): boolean {
    return this.bound[view ^ 1] >= 1 - value;
  }

  /** Raises `view` to `value`. False when that leaves no value: the failed change is kept for the analysis. */
  set(view: number, value: number, by: number, ref: number): boolean {
    const before = this.bound[view];
    if (value <= before) return true;
    if (value > -this.bound[view ^ 1]) {
      this.failView = view;
      this.failValue = value > NEVER ? NEVER : value;
      this.failBy = by;
      this.failRef = ref;
      return false;
    }
    const p = this.size++;
    if (p === this.view.length) this.grow();
    this.view[p] = view;
    this.now[p] = value;
    this.old[p] = before;
    this.prev[p] = this.last[view];
    this.by[p] = by;
    this.ref[p] = ref;
    this.levelOf[p] = this.level;
    this.bound[view] = value;
    this.last[view] = p;
    return true;
  }

  private grow(): void {
    this.view = grown(this.view);
    this.now = grown(this.now);
    this.old = grown(this.old);
    this.prev = grown(this.prev);
    this.by = grown(this.by);
    this.ref = grown(this.ref);
    this.levelOf = grown(this.levelOf);
  }

  note(a: number, b: number): number {
    if (this.noteSize + 2 > this.notes.length) this.notes = grown(this.notes);
    this.notes[this.noteSize++] = a;
    this.notes[this.noteSize++] = b;
    return this.noteSize - 2;
  }

  decide(view: number, value: number): boolean {
    this.level++;
    if (this.level >= this.levelStart.length) {
      this.levelStart = grown(this.levelStart);
      this.levelNotes = grown(this.levelNotes);
    }
    this.levelStart[this.level] = this.size;
    this.levelNotes[this.level] = this.noteSize;
    return this.set(view, value, DECIDED, 0);
  }

  /** The trail position at which a level begins. */
  startOf(level: number): number {
    return level === 0 ? 0 : this.levelStart[level];
  }

  /** Undoes everything above `level`. */
  backTo(level: number): void {
    if (level >= this.level) return;
    const start = this.levelStart[level + 1];
    const { view, old, prev, bound, last } = this;
    for (let p = this.size - 1; p >= start; p--) {
      const w = view[p];
      bound[w] = old[p];
      last[w] = prev[p];
    }
    this.size = start;
    this.noteSize = this.levelNotes[level + 1];
    this.level = level;
  }

  /** At level 0 nothing needs a history: what holds there holds for good. */
  forgetRoot(): void {
    for (let p = this.size - 1; p >= 0; p--) this.last[this.view[p]] = -1;
    this.size = 0;
    this.noteSize = 0;
  }

  /** The position of the change that made `view >= value` true; -1 when it held from the outset. */
  positionOf(view: number, value: number): number {
    let p = this.last[view];
    while (p >= 0 && this.old[p] >= value) p = this.prev[p];
    return p;
  }

  /** The bound of a view at level 0: it holds for good. */
  rootBound(view: number): number {
    return this.level === 0 ? this.bound[view] : this.boundBefore(view, this.levelStart[1]);
  }

  /** The bound that a view had before a trail position. */
  boundBefore(view: number, before: number): number {
    let b = this.bound[view];
    let p = this.last[view];
    while (p >= before) {
      b = this.old[p];
      p = this.prev[p];
    }
    return b;
  }
}
