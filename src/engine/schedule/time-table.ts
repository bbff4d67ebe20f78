/**
 * Time-table propagation over the profile of what surely runs: a task that does not fit on top of the profile at t starts after t, or is over by t.
 *
 * Explanations are pointwise (Schutt, Feydy, Stuckey, Wallace 2013): at one moment t, `start <= t` and `end > t` of enough tasks. They are
 * made only when asked, from the bounds of that moment. An exclusion is the same rule with contributors on one side and filtered
 * tasks on the other.
 */
import { DEAD, TRUE, type Conditions } from './conditions.ts';
import { NEVER } from './model.ts';
import type { SureProfile, TimedTask } from './sure-profile.ts';
import type { Because, Explainer, Trail } from './trail.ts';

export class TimeTable implements Explainer {
  private readonly by: number;
  private readonly filtered: Uint8Array;
  /** Scratch: uses. */
  private readonly running: Int32Array;
  /** For each task the bounds and the state of its condition when it was last looked at. */
  private readonly seen: Int32Array;
  /** Must every task be looked at? */
  private all = true;

  /** `tasks`: those of the profile. */
  constructor(
    private readonly trail: Trail,
    private readonly conditions: Conditions,
    private readonly profile: SureProfile,
    tasks: readonly TimedTask[],
  ) {
    this.by = trail.register(this);
    this.filtered = Uint8Array.from(tasks, ({ filtered }) => (filtered ? 1 : 0));
    this.running = new Int32Array(tasks.length);
    this.seen = new Int32Array(5 * tasks.length);
  }

  /** The views whose change may matter. */
  watched(): number[] {
    const views: number[] = [];
    for (let i = 0; i < this.profile.n; i++) this.profile.watch(i, views);
    return views;
  }

  propagate(): boolean {
    const { trail, conditions, profile, seen, all } = this;
    const { n, from, to, condition } = profile;
    const { bound } = trail;
    trail.work += 1 + (n >> 4);
    if (profile.refresh(all)) trail.work += n >> 4;
    const { grownFrom, grownTo } = profile;
    // A run that is cut short by a conflict leaves tasks unlooked at: then the next one looks at all.
    this.all = true;
    for (let i = 0; i < n; i++) {
      if (this.filtered[i] === 0) continue;
      const least = bound[2 * from[i]];
      const first = bound[2 * from[i] + 1];
      const last = bound[2 * to[i]];
      const most = bound[2 * to[i] + 1];
      const state = conditions.state(trail, condition[i]);
      const at = 5 * i;
      if (
        !all &&
        seen[at] === least &&
        seen[at + 1] === first &&
        seen[at + 2] === last &&
        seen[at + 3] === most &&
        seen[at + 4] === state &&
        (grownTo <= least || grownFrom >= profile.end(i, -most))
      )
        continue;
      if (profile.fits(i)) continue;
      trail.work++;
      if (state === DEAD) {
        // Nothing to do until the condition is open again.
      } else if (state !== TRUE) {
        if (!this.tryDeny(i, state)) return false;
      } else if (!this.raise(i) || !this.lower(i)) return false;
      seen[at] = bound[2 * from[i]];
      seen[at + 1] = bound[2 * from[i] + 1];
      seen[at + 2] = bound[2 * to[i]];
      seen[at + 3] = bound[2 * to[i] + 1];
      seen[at + 4] = state;
    }
    this.all = false;
    return true;
  }

  /** Moves the lower bound of the task's first start past the places where it does not fit. */
  private raise(i: number): boolean {
    const { trail, profile } = this;
    const { segFrom } = profile;
    const from = 2 * profile.from[i];
    const same = profile.from[i] === profile.to[i];
    let end = profile.end(i, trail.bound[2 * profile.to[i]]);
    let at = trail.bound[from];
    if (at >= end) return true;
    for (let k = profile.segmentAt(at); k < profile.segments && segFrom[k] < end; k++) {
      const use = profile.full(i, k);
      if (use < 0) continue;
      const segEnd = k + 1 < profile.segments ? segFrom[k + 1] : NEVER;
      while (at < segEnd && segFrom[k] < end) {
        at = Math.min(segEnd, end);
        if (!trail.set(from, at, this.by, trail.note(use, at - 1))) return false;
        if (!same) break;
        end = profile.end(i, trail.bound[from]);
        if (at >= end) return true;
      }
    }
    return true;
  }

  /** Moves the upper bound of the task's last start before the places where it does not fit. */
  private lower(i: number): boolean {
    const { trail, profile } = this;
    const { segFrom } = profile;
    const to = 2 * profile.to[i];
    const same = profile.from[i] === profile.to[i];
    let start = -trail.bound[2 * profile.from[i] + 1];
    let end = profile.end(i, -trail.bound[to + 1]);
    if (start >= end) return true;
    for (let k = profile.segmentAt(end - 1); k >= 0; k--) {
      const segEnd = k + 1 < profile.segments ? segFrom[k + 1] : NEVER;
      if (segEnd <= start) break;
      const use = profile.full(i, k);
      if (use < 0) continue;
      while (end > segFrom[k] && segEnd > start) {
        const t = Math.max(segFrom[k], start);
        if (!trail.set(to + 1, 1 - profile.endsAfter(i, t), this.by, trail.note(use, t))) return false;
        end = profile.end(i, -trail.bound[to + 1]);
        if (!same) break;
        start = -trail.bound[to + 1];
        if (start >= end) return true;
      }
    }
    return true;
  }

  /** Denies the open condition of a task that would surely run where it does not fit. */
  private tryDeny(i: number, open: number): boolean {
    const { trail, profile } = this;
    const { segFrom } = profile;
    const start = -trail.bound[2 * profile.from[i] + 1];
    const end = profile.end(i, trail.bound[2 * profile.to[i]]);
    if (start >= end) return true;
    for (let k = profile.segmentAt(start); k < profile.segments && segFrom[k] < end; k++) {
      const use = profile.full(i, k);
      if (use >= 0)
        return this.conditions.deny(trail, open, this.by, trail.note(use, Math.max(start, segFrom[k])));
    }
    return true;
  }

  explain(view: number, _value: number, before: number, ref: number, because: Because): void {
    const { trail, conditions, profile } = this;
    const { useOf, amount } = profile;
    const use = trail.notes[ref];
    const t = trail.notes[ref + 1];
    const i = profile.taskOf[use];
    const of = useOf[use];
    const from = 2 * profile.from[i];
    const to = 2 * profile.to[i];
    if (view !== to + 1) because.push(to, profile.endsAfter(i, t));
    if (view !== from) because.push(from + 1, -t);
    conditions.explain(profile.condition[i], view, because);
    // Enough of the others that surely run at t.
    let spare = -1 - (profile.capacities[of].at(t) - amount[use]);
    const { bound } = trail;
    let running = 0;
    for (let k = profile.ofStart[of], end = profile.ofStart[of + 1]; k < end; k++) {
      const u = profile.byResource[k];
      const j = profile.taskOf[u];
      // What is not so now was not so before.
      if (j === i || profile.contributes[j] === 0 || -bound[2 * profile.from[j] + 1] > t) continue;
      if (-trail.boundBefore(2 * profile.from[j] + 1, before) > t) continue;
      if (trail.boundBefore(2 * profile.to[j], before) < profile.endsAfter(j, t)) continue;
      if (!conditions.heldBefore(trail, profile.condition[j], before)) continue;
      this.running[running++] = u;
      spare += amount[u];
    }
    for (let k = 0; k < running; k++) {
      const u = this.running[k];
      if (amount[u] <= spare) {
        spare -= amount[u];
        continue;
      }
      const j = profile.taskOf[u];
      because.push(2 * profile.from[j] + 1, -t);
      because.push(2 * profile.to[j], profile.endsAfter(j, t));
      conditions.explain(profile.condition[j], -1, because);
    }
  }
}
