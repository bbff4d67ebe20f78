/** The searches that find good schedules for models of a simple form sooner than the exact search does. They prove nothing. */
import { CriticalPathSearch } from './critical-path-search.ts';
import { machineProblem } from './machine-problem.ts';
import type { Assignment, Model } from './model.ts';
import { ProjectSearch } from './project-search.ts';
import { asProject } from './project.ts';

/** How the quick and the exact search share the work. */
export interface Sharing {
  /** The quick search's part of some work. */
  ofQuick(work: number): number;
  /** The gap between value and bound, before and after a search's turn. */
  quickClosed(before: number, after: number): void;
  exactClosed(before: number, after: number): void;
}

export interface QuickSearch {
  readonly shares: Sharing;
  /** It finds nearly all there is to find: where it finds no more, the exact search raises the bound and seeks the proof, no better schedules. */
  readonly leavesProof: boolean;
  /** Work done so far, in steps about as long as those of the exact search. */
  readonly work: number;
  /** The least time found for the end of it all; Infinity without a schedule. */
  readonly makespan: number;
  /** The best schedule as times and choices; it may pass latest times that the search does not look at. */
  assignment(): Assignment | null;
  /** Goes on from a schedule found elsewhere. */
  join(found: Assignment): void;
  /** Searches on until all its work comes to `work`, the makespan is at most `goal`, or it is told to stop. */
  run(work: number, goal: number, stop: () => boolean): void;
}

/** The quick search for the first level of a model, or null when there is none for its form. */
export function quickSearch(model: Model, seed: number): QuickSearch | null {
  const machines = machineProblem(model);
  if (machines !== null) return new CriticalPathSearch(machines, seed);
  const project = asProject(model);
  return project && new ProjectSearch(project, seed);
}
