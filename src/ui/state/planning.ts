/**
 * The plan of the shop on the screen: asked of the engine, bettered while the maker looks, made again when reality has
 * moved on, and held back while something is in the hand.
 */
import { batch, createEffect, createSignal, on, onCleanup, untrack, type Accessor } from 'solid-js';
import type { Plan } from '../../engine/plan/document.ts';
import type { Shop } from '../../engine/shop/index.ts';
import type { Minute, ZoneClock } from '../clock/index.ts';
import type { ApplicationCure, Engine, PlanJob, Planned, PlanRequest } from '../engine/index.ts';
import { makeForeseen } from './foreseen.ts';
import { isOverdue, isSame, isSameWorth, mayBeSooner, stillCuring } from './of-plans.ts';
import { laterPieces, movedBy, type Later, type Moved } from './moved.ts';
import { troubleOf, wordsOf, type Trouble } from './trouble.ts';

/**
 * starting: reading what this device keeps. planning: no plan for this shop yet. improving: a plan stands, better
 * ones may come. settled: the engine is done. clash: no plan can exist. failed: our fault; the last plan stays.
 */
export type Phase = 'starting' | 'planning' | 'improving' | 'settled' | 'clash' | 'failed';

/** What the last change did, for the remark with its undo. */
export interface Change {
  readonly says: string;
  readonly moved: readonly Moved[];
  readonly later: readonly Later[];
  /** Counts up, so that two equal changes are still two. */
  readonly number: number;
}

/** Whether a plan can exist for a shop that is only thought of; unknown where none was found so soon. */
export type Trial =
  | { readonly kind: 'plan'; readonly plan: Plan }
  | { readonly kind: 'clash'; readonly clash: readonly string[] }
  | { readonly kind: 'unknown' };

type Steps = readonly { readonly piece: string; readonly step: string }[];

export interface PlanningParts {
  readonly engine: Engine;
  /** Counted steps of search for one plan. */
  readonly budget: number;
  readonly shop: Accessor<Shop | null>;
  readonly now: Accessor<Minute>;
  readonly clock: Accessor<ZoneClock>;
  readonly tell: (trouble: Trouble | null) => void;
  /** Called with every plan that is shown from now on. */
  readonly shown: () => void;
}

export interface Planning {
  readonly planned: Accessor<Planned | null>;
  readonly cures: Accessor<readonly ApplicationCure[]>;
  readonly phase: Accessor<Phase>;
  readonly change: Accessor<Change | null>;
  /** Nothing is planned any more: another shop comes. */
  forget(): void;
  /** This plan stands for the shop, since an earlier visit say. */
  stand(shop: Shop, plan: Planned | null): void;
  /** Plans a shop around what stands; nobody is told what moved. */
  begin(shop: Shop): void;
  /**
   * Plans the shop that is about to be on the screen, and tells what moved but for `except`. With `known`, a plan found
   * for it before, the next one is no worse.
   */
  follow(shop: Shop, says: string, except: Steps, known?: Plan): void;
  /** Has the plan made that would follow this shop, while it may yet come to nothing; resolves once that is done. */
  foresee(shop: Shop): Promise<void>;
  /** Shows the plan that stood for this state of the shop before, or the one that was foreseen for it, if there is any. */
  bringBack(shop: Shop): void;
  /** Plans once more around what stands, from the present minute. */
  again(): void;
  /** Whether a plan can exist for this shop, in which something of `piece` has been fixed. */
  tryOut(shop: Shop, piece: string): Promise<Trial>;
  /** Resolves once the engine answers questions about the plan that is shown. */
  readonly ready: () => Promise<void>;
  /** While something is in the hand, new plans wait; they are shown once it is let go. */
  takeInHand(): void;
  letGo(): void;
  /** Something of the engine went wrong. */
  fail(error: unknown): void;
}

const SEED = 1;
/** So long the workers are left in peace where there is something to be drawn: they take the processor from it. */
const DRAWING_MS = 20;
/** Work for a plan that only has to exist. */
const TRIAL_BUDGET = 20_000;
/** So many times as much work while a piece is late that might not have to be. */
const LONGER = 10;

export const makePlanning = ({ engine, budget, shop, now, clock, tell, shown }: PlanningParts): Planning => {
  const [planned, setPlanned] = createSignal<Planned | null>(null);
  const [cures, setCures] = createSignal<readonly ApplicationCure[]>([]);
  const [phase, setPhase] = createSignal<Phase>('starting');
  const [change, setChange] = createSignal<Change | null>(null);

  /** The plan that stood for each state of the shop, so that undo brings back the plan with the shop. */
  const plans = new WeakMap<Shop, Planned>();
  let job: PlanJob | null = null;
  let inHand = false;
  let waiting: Planned | null = null;
  let changes = 0;
  /** What the next plan is compared with, to say what moved. */
  let compare: { says: string; before: Planned | null; except: Steps } | null = null;

  const foreseen = makeForeseen(engine);
  /** The plan that was foreseen and is shown: it comes once more, as the first of those that are made for the shop. */
  let shownEarly: Planned | null = null;

  /** Resolves once the desk holds the plan that is shown. */
  let holding: Promise<void> = Promise.resolve();
  const hold = (current: Shop, next: Planned): void => {
    holding = drawn()
      .then(() => engine.ask('hold', { shop: current, plan: next.plan }))
      .then((found) => {
        if (planned() === next) setCures(found);
      })
      .catch(fail);
  };

  const show = (next: Planned): void => {
    if (inHand) {
      waiting = next;
      return;
    }
    if (next.broken.length > 0) {
      tell({
        title: 'Our fault: this plan breaks a rule of the shop, so it is not shown',
        lines: next.broken,
      });
      setPhase('failed');
      return;
    }
    batch(() => {
      setPlanned(next);
      setCures((old) => stillCuring(next.plan, old));
      if (compare) {
        const before = compare.before?.plan;
        const moved = before ? movedBy(before, next.plan, compare.except) : [];
        const later = before ? laterPieces(before, next.plan) : [];
        setChange({ says: compare.says, moved, later, number: ++changes });
      }
    });
    const current = shop();
    if (current) {
      plans.set(current, next);
      hold(current, next);
    }
    shown();
  };

  const fail = (error: unknown): void => {
    tell({ title: 'The planning engine stopped', lines: [wordsOf(error)] });
    setPhase('failed');
  };

  const requestFor = (current: Shop, standing = planned()?.plan, known?: Plan): PlanRequest => ({
    shop: current,
    now: clock().iso(now()),
    seed: SEED,
    budget,
    standing,
    known,
  });

  /** The request that is about to be asked: another one takes its place. */
  let asking: PlanRequest | null = null;
  onCleanup(() => (asking = null));
  const replan = (current: Shop, standing?: Plan, known?: Plan): void => {
    const request = requestFor(current, standing, known);
    setPhase(request.standing ? 'improving' : 'planning');
    shownEarly = null;
    job?.stop();
    asking = request;
    const ask = (): void => {
      if (asking !== request) return;
      plan(request, (better) => {
        if (better.plan.steps.length > 0 && !(shownEarly && isSame(better, shownEarly))) show(better);
      });
    };
    // What is foreseen is drawn before the next one is worked on.
    const made = foreseen.doneFor(current);
    if (made) void made.then(drawn).then(ask);
    else ask();
  };

  const plan = (request: PlanRequest, better: (found: Planned) => void): void => {
    job?.stop();
    job = engine.plan(request, better);
    job.done
      .then((answer) => {
        if (!answer.ok) {
          tell({
            title: 'This change leaves the shop file with faults',
            lines: answer.faults.map((fault) => `${fault.path}: ${fault.message}`),
          });
          setPhase('failed');
          return;
        }
        const { plan: found } = answer.planned;
        if (found.status === 'infeasible' || found.status === 'unknown') {
          tell(troubleOf(found));
          setPhase('clash');
          return;
        }
        const isLonger = request.budget > budget;
        // What is worth the same stays where the maker looks at it.
        const stays = isLonger && request.known && isSameWorth(found, request.known) ? request.known : found;
        show({ ...answer.planned, plan: { ...stays, levels: found.levels, status: found.status } });
        if (phase() === 'failed') return;
        if (!isLonger && mayBeSooner(found)) {
          plan({ ...request, budget: budget * LONGER, known: found }, () => undefined);
          return;
        }
        setPhase('settled');
        compare = null;
      })
      .catch(fail);
  };

  /** Has the next plan rehearsed: it finds its tables made. */
  const rehearse = (): void => {
    const current = shop();
    if (current) engine.rehearse(requestFor(current));
  };

  /** Shows what was foreseen for this shop, or will have been in a moment, unless its plan comes first. */
  const showForeseen = (current: Shop): void => {
    const before = planned();
    foreseen.take(requestFor(current), (found) => {
      if (planned() !== before || shop() !== current) return;
      shownEarly = found;
      show(found);
    });
  };

  const again = (): void => {
    tell(null);
    const current = shop();
    if (!current) return;
    compare = { says: 'planned again from now', before: planned(), except: [] };
    replan(current);
  };

  // Reality has moved on when what should have begun has not: the plan follows, and says what moved.
  createEffect(() => {
    const minute = now();
    if (untrack(phase) !== 'settled') return;
    const stands = untrack(planned)?.plan;
    if (stands && isOverdue(stands, minute)) untrack(again);
  });

  // What is still in the hand when a minute has passed is put down in another: tables are those of one.
  createEffect(on(now, () => inHand && rehearse(), { defer: true }));

  return {
    planned,
    cures,
    phase,
    change,
    forget() {
      batch(() => {
        setPlanned(null);
        setCures([]);
        setChange(null);
      });
      compare = null;
    },
    stand(current, standing) {
      setPlanned(standing);
      if (standing) hold(current, standing);
    },
    begin: (current) => replan(current),
    follow(current, says, except, known) {
      compare = { says, before: planned(), except };
      replan(current, inHand ? undefined : plans.get(current)?.plan, known);
    },
    foresee: (next) => foreseen.make(requestFor(next)),
    bringBack(current) {
      const stood = plans.get(current);
      if (stood) show(stood);
      else showForeseen(current);
    },
    again,
    async tryOut(current, piece) {
      const request = { ...requestFor(current), budget: TRIAL_BUDGET, piece };
      const answer = await engine.tryPlan(request).catch(() => null);
      if (!answer?.ok) return { kind: 'unknown' };
      const { plan: found, broken } = answer.planned;
      if (found.status === 'infeasible') return { kind: 'clash', clash: found.clash };
      return found.status === 'unknown' || broken.length > 0
        ? { kind: 'unknown' }
        : { kind: 'plan', plan: found };
    },
    ready: () => holding,
    takeInHand() {
      inHand = true;
      // What is taken up will be put down, and the plan made again around it.
      rehearse();
    },
    letGo() {
      inHand = false;
      const next = waiting;
      waiting = null;
      if (next) show(next);
    },
    fail,
  };
};

const drawn = (): Promise<void> => new Promise((resolve) => void setTimeout(resolve, DRAWING_MS));
