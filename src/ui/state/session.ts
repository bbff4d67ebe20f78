/**
 * One visit: the shop document with its history, the plan, and what ties them to the engine and to this device's
 * storage. Screens read its signals and send it edits; nothing else changes the shop.
 */
import { batch, createEffect, createMemo, createSignal, onCleanup, untrack, type Accessor } from 'solid-js';
import type { Plan } from '../../engine/plan/document.ts';
import type { Shop } from '../../engine/shop/index.ts';
import { makeZoneClock, minuteOf, type Minute, type ZoneClock } from '../clock/index.ts';
import type { Edit } from '../edits/index.ts';
import type { ApplicationCure, Engine, FileFault, PlanJob, Planned, PlanRequest } from '../engine/index.ts';
import type { Kept } from '../storage/index.ts';
import { exampleText, FIRST_EXAMPLE } from './demo.ts';
import { advance, beginHistory, stepBack, stepForward, type History } from './history.ts';
import { laterPieces, movedSteps, type Later, type Moved } from './moved.ts';

/**
 * starting: reading what this device keeps. planning: no plan for this shop yet. improving: a plan stands, better
 * ones may come. settled: the engine is done. clash: no plan can exist. failed: our fault; the last plan stays.
 */
export type Phase = 'starting' | 'planning' | 'improving' | 'settled' | 'clash' | 'failed';

export interface Trouble {
  readonly title: string;
  readonly lines: readonly string[];
}

/** What the last change did, for the remark with its undo. */
export interface Change {
  readonly says: string;
  readonly moved: readonly Moved[];
  readonly later: readonly Later[];
  /** Counts up, so that two equal changes are still two. */
  readonly number: number;
}

export interface Storage {
  readKept(): Promise<Kept>;
  keepShop(shop: string, plan: string | null, isExample: boolean): Promise<void>;
}

export interface SessionParts {
  readonly engine: Engine;
  readonly storage: Storage;
  /** Milliseconds since 1970. */
  readonly clockMs: () => number;
  /** Counted steps of search for one plan. */
  readonly budget?: number;
}

export interface Session {
  readonly shop: Accessor<Shop | null>;
  readonly planned: Accessor<Planned | null>;
  readonly cures: Accessor<readonly ApplicationCure[]>;
  readonly phase: Accessor<Phase>;
  readonly trouble: Accessor<Trouble | null>;
  readonly change: Accessor<Change | null>;
  /** Goes up once a minute. */
  readonly now: Accessor<Minute>;
  readonly clockMs: () => number;
  /** The shop's wall clock; of UTC while there is no shop. */
  readonly clock: Accessor<ZoneClock>;
  readonly engine: Engine;
  readonly undoSays: Accessor<string | null>;
  readonly redoSays: Accessor<string | null>;
  /** Whether the shop on the screen is an untouched example. */
  readonly isExample: Accessor<boolean>;
  start(): Promise<void>;
  edit(edit: Edit, except?: readonly { readonly piece: string; readonly step: string }[]): void;
  undo(): void;
  redo(): void;
  dismissTrouble(): void;
  /** Plans once more around what stands, from the present minute. */
  planAgain(): void;
  /** Opens a shop file's text in place of this shop (undoable); its faults when it is none. */
  openText(text: string, says: string): Promise<readonly FileFault[]>;
  openExample(name: string): Promise<void>;
  /** The shop file as it would be saved. */
  exportText(): string | null;
  /** Resolves once the engine answers questions about the plan that is shown. */
  readonly ready: () => Promise<void>;
  /** While something is in the hand, new plans wait; they are shown once it is let go. */
  takeInHand(): void;
  letGo(): void;
}

const SEED = 1;
/** Work for one plan; see the engine's door. Enough for the six-week example to settle. */
const BUDGET = 400_000;
/** So many times as much while a piece is late that might not have to be. */
const LONGER = 10;
const SAVE_AFTER_MS = 250;
/** A step that is not begun this long after its time, and the plan is made again around what is true. */
const PATIENCE_MINUTES = 10;

export const makeSession = ({ engine, storage, clockMs, budget = BUDGET }: SessionParts): Session => {
  const [history, setHistory] = createSignal<History<Shop> | null>(null);
  const [planned, setPlanned] = createSignal<Planned | null>(null);
  const [cures, setCures] = createSignal<readonly ApplicationCure[]>([]);
  const [phase, setPhase] = createSignal<Phase>('starting');
  const [trouble, setTrouble] = createSignal<Trouble | null>(null);
  const [change, setChange] = createSignal<Change | null>(null);
  const [now, setNow] = createSignal<Minute>(Math.floor(clockMs() / 60_000));
  const [isExample, setIsExample] = createSignal(false);
  const shop = createMemo(() => history()?.present.value ?? null);
  const zone = createMemo(() => shop()?.zone ?? 'UTC');
  const clock = createMemo(() => makeZoneClock(zone()));

  const ticking = setInterval(() => setNow(Math.floor(clockMs() / 60_000)), 1000);
  let saving: ReturnType<typeof setTimeout> | undefined;
  onCleanup(() => {
    clearInterval(ticking);
    clearTimeout(saving);
    engine.close();
  });

  /** Keeps the shop as it is now, with the plan that is shown. */
  const save = (): void => {
    clearTimeout(saving);
    saving = undefined;
    const document = shop();
    if (!document) return;
    const plan = planned()?.plan;
    storage
      .keepShop(JSON.stringify(document), plan ? JSON.stringify(plan) : null, isExample())
      .catch((error: unknown) => {
        setTrouble({
          title: 'This device does not keep your changes',
          lines: [wordsOf(error), 'Export the shop file before you close this page.'],
        });
      });
  };

  /** For plans, which come one after the other and can be made again. What the maker changed is kept at once. */
  const saveSoon = (): void => {
    saving ??= setTimeout(save, SAVE_AFTER_MS);
  };

  /** The plan that stood for each state of the shop, so that undo brings back the plan with the shop. */
  const plans = new WeakMap<Shop, Planned>();
  let job: PlanJob | null = null;
  let inHand = false;
  let waiting: Planned | null = null;
  let changes = 0;
  /** What the next plan is compared with, to say what moved. */
  let compare: {
    says: string;
    before: Planned | null;
    except: readonly { piece: string; step: string }[];
  } | null = null;

  /** Resolves once the desk holds the plan that is shown. */
  let holding: Promise<void> = Promise.resolve();
  const hold = (current: Shop, next: Planned): void => {
    holding = engine
      .ask('hold', { shop: current, plan: next.plan })
      .then((found) => {
        if (planned() === next) setCures(found);
      })
      .catch(report);
  };

  const show = (next: Planned): void => {
    if (inHand) {
      waiting = next;
      return;
    }
    if (next.broken.length > 0) {
      setTrouble({
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
        const moved = before ? movedSteps(before, next.plan, compare.except) : [];
        const later = before ? laterPieces(before, next.plan) : [];
        setChange({ says: compare.says, moved, later, number: ++changes });
      }
    });
    const current = shop();
    if (current) {
      plans.set(current, next);
      hold(current, next);
    }
    saveSoon();
  };

  const report = (error: unknown): void => {
    setTrouble({ title: 'The planning engine stopped', lines: [wordsOf(error)] });
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

  const replan = (current: Shop, standing?: Plan, known?: Plan): void => {
    const request = requestFor(current, standing, known);
    setPhase(request.standing ? 'improving' : 'planning');
    plan(request, (better) => better.plan.steps.length > 0 && show(better));
  };

  const plan = (request: PlanRequest, better: (found: Planned) => void): void => {
    job?.stop();
    job = engine.plan(request, better);
    job.done
      .then((answer) => {
        if (!answer.ok) {
          setTrouble({
            title: 'This change leaves the shop file with faults',
            lines: answer.faults.map((fault) => `${fault.path}: ${fault.message}`),
          });
          setPhase('failed');
          return;
        }
        const { plan: found } = answer.planned;
        if (found.status === 'infeasible' || found.status === 'unknown') {
          setTrouble({
            title:
              found.status === 'infeasible'
                ? 'No plan can exist as things are'
                : 'No plan was found in the time given',
            lines: found.clash,
          });
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
      .catch(report);
  };

  // Reality has moved on when what should have begun has not: the plan follows, and says what moved.
  createEffect(() => {
    const minute = now();
    if (untrack(phase) !== 'settled') return;
    const overdue = untrack(planned)?.plan.steps.some(
      (step) =>
        step.handsOnMinutes > 0 &&
        step.state === 'planned' &&
        minuteOf(step.start) + PATIENCE_MINUTES < minute,
    );
    if (overdue) untrack(planAgain);
  });

  const planAgain = (): void => {
    setTrouble(null);
    const current = shop();
    if (!current) return;
    compare = { says: 'planned again from now', before: planned(), except: [] };
    replan(current);
  };

  const turn = (
    next: History<Shop>,
    says: string,
    except: readonly { piece: string; step: string }[] = [],
    found?: Plan,
  ): void => {
    if (next === history()) return;
    const { value: current } = next.present;
    const before = planned();
    const stood = plans.get(current);
    compare = { says, before, except };
    // Asked first, so that planning goes on while the screen is drawn.
    replan(current, inHand ? undefined : stood?.plan, found);
    batch(() => {
      setTrouble(null);
      setHistory(next);
      if (stood) show(stood);
    });
    save();
  };

  const openShop = (document: Shop, says: string): void => {
    const known = history();
    batch(() => {
      setPlanned(null);
      setCures([]);
      setChange(null);
      setHistory(known ? advance(known, document, says) : beginHistory(document));
    });
    compare = null;
    save();
    replan(document);
  };

  const openDocument = async (
    text: string,
    says: string,
    fromExample: boolean,
    stillWanted: () => boolean = () => true,
  ): Promise<readonly FileFault[]> => {
    const opened = await engine.ask('open', { text });
    if (!opened.ok) return opened.faults;
    if (!stillWanted()) return [];
    if (phase() !== 'starting') setTrouble(null);
    setIsExample(fromExample);
    openShop(opened.shop, says);
    return [];
  };

  const openText = (text: string, says: string): Promise<readonly FileFault[]> =>
    openDocument(text, says, false);

  const openExample = async (name: string, stillWanted?: () => boolean): Promise<void> => {
    const text = await exampleText(name, clockMs());
    const faults = await openDocument(text, `open the example ${name}`, true, stillWanted);
    if (faults.length > 0)
      throw new Error(faults.map((fault) => `${fault.path}: ${fault.message}`).join('\n'));
  };

  const restore = async (kept: Kept): Promise<boolean> => {
    if (kept.shop === null) return false;
    const opened = await engine.ask('open', { text: kept.shop });
    if (!opened.ok) {
      setTrouble({
        title: 'What this device kept could not be read; the example is shown instead',
        lines: opened.faults.map((fault) => `${fault.path}: ${fault.message}`),
      });
      return false;
    }
    const standing =
      kept.plan === null ? null : await engine.ask('readPlan', { text: kept.plan, shop: opened.shop });
    batch(() => {
      setHistory(beginHistory(opened.shop));
      setIsExample(kept.isExample);
      setPlanned(standing);
    });
    if (standing) hold(opened.shop, standing);
    replan(opened.shop);
    return true;
  };

  return {
    shop,
    planned,
    cures,
    phase,
    trouble,
    change,
    now,
    clockMs,
    clock,
    engine,
    isExample,
    undoSays: createMemo(() => (history()?.past.length ? (history()?.present.says ?? null) : null)),
    redoSays: createMemo(() => history()?.future[0]?.says ?? null),
    async start() {
      const kept = await storage.readKept().catch((error: unknown): Kept => {
        setTrouble({ title: 'This device keeps nothing between visits', lines: [wordsOf(error)] });
        return { shop: null, plan: null, view: null, isExample: false };
      });
      try {
        // A file that is opened while we start is what the maker wants to see.
        const isEmpty = (): boolean => history() === null;
        if (!(await restore(kept)) && isEmpty()) await openExample(FIRST_EXAMPLE, isEmpty);
      } catch (error) {
        report(error);
      }
    },
    edit(edit, except) {
      const known = history();
      if (!known) return;
      setIsExample(false);
      turn(advance(known, edit.apply(known.present.value), edit.says), edit.says, except, edit.known);
    },
    undo() {
      const known = history();
      if (known) turn(stepBack(known), `undone: ${known.present.says}`);
    },
    redo() {
      const known = history();
      if (known) turn(stepForward(known), `done again: ${known.future[0]?.says ?? ''}`);
    },
    dismissTrouble() {
      setTrouble(null);
    },
    planAgain,
    openText,
    openExample: (name) => openExample(name),
    exportText() {
      const document = shop();
      return document ? `${JSON.stringify(document, null, 2)}\n` : null;
    },
    ready: () => holding,
    takeInHand() {
      inHand = true;
      const current = shop();
      // What is taken up will be put down, and the plan made again around it.
      if (current) engine.rehearse(requestFor(current));
    },
    letGo() {
      inHand = false;
      const next = waiting;
      waiting = null;
      if (next) show(next);
    },
  };
};

/** While a finer answer is on its way, what cures as before is drawn as before. */
const stillCuring = (plan: Plan, cures: readonly ApplicationCure[]): readonly ApplicationCure[] => {
  const starts = new Map(plan.steps.map((step) => [`${step.piece}/${step.step}`, step.start]));
  return cures.filter((cure) => starts.get(`${cure.piece}/${cure.step}`) === cure.applied);
};

/** Whether a piece is late of which it is not proved that it must be. */
const mayBeSooner = ({ levels }: Plan): boolean =>
  levels.some(({ name, value, proven }) => name === 'tardiness' && value > 0 && !proven);

const isSameWorth = (one: Plan, other: Plan): boolean =>
  one.levels.length === other.levels.length &&
  one.levels.every(({ name, value }, k) => name === other.levels[k].name && value === other.levels[k].value);

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Minutes of a plan's step, read once. */
export const spanOf = (step: { readonly start: string; readonly end: string }): readonly [Minute, Minute] => [
  minuteOf(step.start),
  minuteOf(step.end),
];
