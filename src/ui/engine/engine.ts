/**
 * The screen's one typed door to the engine. Three workers: the desk answers short questions and is never kept
 * waiting by planning; one plans; one stands by, so that a plan nobody wants any more is ended at once, by ending its
 * worker, and the next one starts without waiting for the engine to load.
 */
import { makeLine, type Line, type WorkerLike } from './line.ts';
import type { Ask, Asks, PlanAnswer, Planned, PlanRequest } from './protocol.ts';

export interface PlanJob {
  /** The last and best plan; never settles once stopped. */
  readonly done: Promise<PlanAnswer>;
  stop(): void;
}

export interface Engine {
  ask<K extends Exclude<Ask, 'plan'>>(ask: K, question: Asks[K]['question']): Promise<Asks[K]['answer']>;
  /** Plans in the background; a plan that is still running is given up. `better` hears every improvement. */
  plan(request: PlanRequest, better: (planned: Planned) => void): PlanJob;
  close(): void;
}

export const makeEngine = (spawn: () => WorkerLike): Engine => {
  const desk = makeLine(spawn());
  let planner: Line | null = null;
  let standby: Line | null = null;
  const freshPlanner = (): Line => {
    if (planner && !planner.busy()) return planner;
    planner?.cut();
    planner = standby ?? makeLine(spawn());
    standby = makeLine(spawn());
    return planner;
  };
  return {
    ask: (ask, question) => desk.ask(ask, question),
    plan(request, better) {
      const line = freshPlanner();
      let wanted = true;
      const done = new Promise<PlanAnswer>((resolve, reject) => {
        line
          .ask('plan', request, (planned) => wanted && better(planned))
          .then((answer) => wanted && resolve(answer))
          .catch((error: unknown) => wanted && reject(error));
      });
      return {
        done,
        stop() {
          wanted = false;
        },
      };
    },
    close() {
      desk.cut();
      planner?.cut();
      standby?.cut();
    },
  };
};
