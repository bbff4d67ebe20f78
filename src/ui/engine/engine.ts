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

type Asked = Exclude<Ask, 'plan' | 'tryPlan' | 'rehearse' | 'foresee'>;

export interface Engine {
  ask<K extends Asked>(ask: K, question: Asks[K]['question']): Promise<Asks[K]['answer']>;
  /** Plans in the background; a plan that is still running is given up. `better` hears every improvement. */
  plan(request: PlanRequest, better: (planned: Planned) => void): PlanJob;
  /** Whether such a plan can exist; rejects once a plan is wanted before that is known. */
  tryPlan(request: PlanRequest & { readonly piece: string }): Promise<PlanAnswer>;
  /** A plan like this will soon be wanted: the worker that will make it gets ready. Nothing is answered. */
  rehearse(request: PlanRequest): void;
  /** The first plan that `plan` would show, checked; null where that is not there soon. */
  foresee(request: PlanRequest): Promise<Planned | null>;
  close(): void;
}

export const makeEngine = (spawn: () => WorkerLike): Engine => {
  const desk = makeLine(spawn());
  let planner: Line | null = null;
  let standby: Line | null = null;
  /** The line that takes the next plan: one that is planning has to be ended first. */
  const next = (): Line => {
    if (planner && !planner.busy('plan')) return planner;
    standby ??= makeLine(spawn());
    return standby;
  };
  /** Ends what is being tried: a plan that is wanted does not wait for it. */
  let giveUpTrials: (() => void)[] = [];
  const endTrials = (): void => {
    for (const giveUp of giveUpTrials) giveUp();
    giveUpTrials = [];
    if (planner?.busy('tryPlan')) {
      planner.cut();
      planner = null;
    }
    if (standby?.busy('tryPlan')) {
      standby.cut();
      standby = null;
    }
  };
  return {
    ask(ask, question) {
      // A plan follows what is asked first: the worker that will make it loads meanwhile.
      if (!planner) standby ??= makeLine(spawn());
      return desk.ask(ask, question);
    },
    plan(request, better) {
      endTrials();
      const line = next();
      if (line !== planner) {
        planner?.cut();
        planner = line;
        standby = null;
      }
      let wanted = true;
      const done = new Promise<PlanAnswer>((resolve, reject) => {
        line
          .ask('plan', request, (planned) => {
            if (wanted) better(planned);
            // Not before there is a plan to look at: loading the engine once more would keep it waiting.
            if (line === planner) standby ??= makeLine(spawn());
          })
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
    tryPlan: (request) =>
      new Promise((resolve, reject) => {
        giveUpTrials.push(() => reject(new Error('a plan is wanted first')));
        next().ask('tryPlan', request).then(resolve, reject);
      }),
    rehearse(request) {
      // What goes wrong in a rehearsal goes wrong again, and is told, when it is meant.
      void next()
        .ask('rehearse', request)
        .catch(() => undefined);
    },
    foresee: (request) => next().ask('foresee', request),
    close() {
      desk.cut();
      planner?.cut();
      standby?.cut();
    },
  };
};
