/**
 * Conflict analysis: the first unique implication point over atoms (Zhang et al. 2001; Marques-Silva and Sakallah 1999; for bounds
 * Ohrimenko, Stuckey, Codish 2009). What is needed of each trail position is the weakest value that explains the conflict, so the
 * learned clause says more than the values that happened to hold.
 */
import { Because, DECIDED, type Trail } from './trail.ts';

const NOT_NEEDED = -0x80000000;
/** An atom that follows only in so many steps is not looked into further. */
const DEEPEST = 20;
/** So many atoms (two to the power of this) take about as long to read as a step. */
const ATOMS_PER_STEP_LOG = 3;

export class Learning {
  /** The value needed of the change at a trail position. */
  private need = new Int32Array(1024).fill(NOT_NEEDED);
  private readonly touched: number[] = [];
  private readonly lower: number[] = [];
  private readonly because = new Because();
  private readonly strongest = new Map<number, number>();
  /** The explanations on the way to what implies an atom, a step each. */
  private readonly steps: Because[] = [];
  /** Positions of which it is known that what is needed does not imply them. */
  private readonly notImplied = new Set<number>();
  /** Of explanations while a clause was minimised. */
  private atomsRead = 0;
  /** The learned clause, its first atom the one to be set, its second of the level to go back to. */
  readonly clause = new Because();
  /** The level to go back to. */
  backLevel = 0;
  /** Number of distinct levels in the clause. */
  quality = 0;

  constructor(
    private readonly trail: Trail,
    private readonly bump: (variable: number) => void,
    /** For tests: every explanation used. */
    private readonly witness: ((view: number, value: number, because: Because) => void) | null,
  ) {}

  private explain(
    view: number,
    value: number,
    before: number,
    by: number,
    ref: number,
    because = this.because,
  ): Because {
    because.size = 0;
    this.trail.explainers[by].explain(view, value, before, ref, because);
    if (this.witness !== null) this.witness(view, value, because);
    return because;
  }

  private readonly levels = new Set<number>();

  /** The failed change as a conjunction of atoms that hold and cannot. */
  private failure(): Because {
    const { trail } = this;
    // One more than the view may reach is enough for the conflict, however far the change would have gone.
    const most = -trail.bound[trail.failView ^ 1];
    const because = this.explain(trail.failView, most + 1, trail.size, trail.failBy, trail.failRef);
    because.push(trail.failView ^ 1, -most);
    return because;
  }

  private reset(): void {
    for (const p of this.touched) this.need[p] = NOT_NEEDED;
    this.touched.length = 0;
    this.lower.length = 0;
    if (this.need.length < this.trail.view.length)
      this.need = new Int32Array(this.trail.view.length).fill(NOT_NEEDED);
  }

  /** Analyses the failed change. False when it needs no decision: the problem has no solution. */
  analyse(): boolean {
    const { trail, lower } = this;
    this.reset();
    const { need } = this;
    const conflict = this.failure();
    let level = 0;
    for (let k = 0; k < conflict.size; k++) {
      const p = trail.positionOf(conflict.views[k], conflict.values[k]);
      if (p >= 0 && trail.levelOf[p] > level) level = trail.levelOf[p];
    }
    if (level === 0) return false;
    let open = this.require(conflict, level);
    let p = trail.size - 1;
    for (;;) {
      while (need[p] === NOT_NEEDED || trail.levelOf[p] !== level) p--;
      if (open === 1) break;
      const value = need[p];
      need[p] = NOT_NEEDED;
      open += this.require(this.explain(trail.view[p], value, p, trail.by[p], trail.ref[p]), level) - 1;
      p--;
    }
    this.atomsRead = 0;
    this.minimise();
    trail.work += this.atomsRead >> ATOMS_PER_STEP_LOG;
    this.build(p, lower);
    return true;
  }

  /** Marks what a conjunction needs; returns how many positions of the level were newly marked. */
  private require(because: Because, level: number): number {
    const { trail, need } = this;
    let fresh = 0;
    for (let k = 0; k < because.size; k++) {
      const value = because.values[k];
      const p = trail.positionOf(because.views[k], value);
      if (p < 0 || trail.levelOf[p] === 0) continue;
      if (need[p] === NOT_NEEDED) {
        need[p] = value;
        this.touched.push(p);
        this.bump(because.views[k] >> 1);
        if (trail.levelOf[p] === level) fresh++;
        else this.lower.push(p);
      } else if (value > need[p]) need[p] = value;
    }
    return fresh;
  }

  /** Drops atoms that the others imply. The latest first: what it needs lies before it, and is still there. */
  private minimise(): void {
    const { trail, need, lower, levels } = this;
    lower.sort((a, b) => b - a);
    levels.clear();
    for (const p of lower) levels.add(trail.levelOf[p]);
    this.notImplied.clear();
    let kept = 0;
    for (const p of lower) {
      const value = need[p];
      // It does not follow from itself.
      need[p] = NOT_NEEDED;
      if (this.isImplied(p, value, 0)) continue;
      need[p] = value;
      lower[kept++] = p;
    }
    lower.length = kept;
  }

  /**
   * Does the value at a position follow from what else is needed? Each atom of its explanation is weaker than one of those, or follows from
   * them in turn (Sorensson, Biere 2009).
   */
  private isImplied(p: number, value: number, depth: number): boolean {
    const { trail } = this;
    if (trail.by[p] === DECIDED || depth === DEEPEST) return false;
    const because = (this.steps[depth] ??= new Because());
    this.explain(trail.view[p], value, p, trail.by[p], trail.ref[p], because);
    this.atomsRead += because.size;
    for (let k = 0; k < because.size; k++) {
      const q = this.openPosition(because.views[k], because.values[k]);
      if (q < 0) continue;
      if (!this.levels.has(trail.levelOf[q]) || this.notImplied.has(q)) return false;
      if (!this.isImplied(q, because.values[k], depth + 1)) {
        this.notImplied.add(q);
        return false;
      }
    }
    return true;
  }

  /** The position that made `view >= value` true; -1 when that holds for good, or what is needed of the view says as much. */
  private openPosition(view: number, value: number): number {
    const { trail, need } = this;
    let p = trail.last[view];
    while (p >= 0 && trail.levelOf[p] > 0) {
      if (need[p] >= value) return -1;
      if (trail.old[p] < value) return p;
      p = trail.prev[p];
    }
    return -1;
  }

  private build(uip: number, lower: readonly number[]): void {
    const { trail, need, clause, strongest } = this;
    strongest.clear();
    for (const p of lower) {
      const view = trail.view[p];
      const q = strongest.get(view);
      if (q === undefined || q < p) strongest.set(view, p);
    }
    strongest.delete(trail.view[uip]);
    clause.size = 0;
    clause.push(trail.view[uip] ^ 1, 1 - need[uip]);
    this.backLevel = 0;
    let second = -1;
    this.levels.clear();
    for (const [view, p] of strongest) {
      const level = trail.levelOf[p];
      this.levels.add(level);
      if (level > this.backLevel) {
        this.backLevel = level;
        second = clause.size;
      }
      clause.push(view ^ 1, 1 - need[p]);
    }
    if (second > 1) {
      const { views, values } = clause;
      const view = views[1];
      const value = values[1];
      views[1] = views[second];
      values[1] = values[second];
      views[second] = view;
      values[second] = value;
    }
    this.quality = this.levels.size + 1;
  }

  /** The decisions that the atom `view >= value`, true now, rests on; as (view, value) pairs of what was decided. */
  decisionsBehind(view: number, value: number): [number, number][] {
    const { trail, touched } = this;
    this.reset();
    const { need } = this;
    const result: [number, number][] = [];
    const single = this.because;
    single.size = 0;
    single.push(view, value);
    this.require(single, -1);
    touched.sort((a, b) => a - b);
    for (let p = touched.length === 0 ? -1 : touched[touched.length - 1]; p >= 0; p--) {
      if (need[p] === NOT_NEEDED) continue;
      if (trail.by[p] === DECIDED) result.push([trail.view[p], trail.now[p]]);
      else this.require(this.explain(trail.view[p], need[p], p, trail.by[p], trail.ref[p]), -1);
    }
    return result;
  }
}
