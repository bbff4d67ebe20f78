/**
 * One visit: the shop document with its history, and what ties it to its plan, to the engine and to this device's
 * storage. Screens read its signals and send it edits; nothing else changes the shop.
 */
import { batch, createMemo, createSignal, onCleanup, type Accessor } from 'solid-js';
import type { Plan } from '../../engine/plan/document.ts';
import type { Shop } from '../../engine/shop/index.ts';
import { makeZoneClock, type Minute, type ZoneClock } from '../clock/index.ts';
import type { Edit } from '../edits/index.ts';
import type { ApplicationCure, Engine, FileFault, Planned } from '../engine/index.ts';
import type { Kept, StateName } from '../storage/index.ts';
import { exampleText, FIRST_EXAMPLE } from './demo.ts';
import { stepBack, stepForward } from './history.ts';
import { makeKeeping } from './keeping.ts';
import { beginLine, lengthen, lineText, nameOf, readLine, withShop, type Line } from './line.ts';
import { makePlanning, type Change, type Phase, type Trial } from './planning.ts';
import { wordsOf, type Trouble } from './trouble.ts';

export interface Storage {
  readKept(): Promise<Kept>;
  keepShop(
    shop: string,
    plan: string | null,
    isExample: boolean,
    line: string,
    present: StateName,
  ): Promise<void>;
  readState(name: StateName): Promise<string | null>;
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
  /** This edit is likely to come next: its plan is made meanwhile. Resolves once that is done. */
  foresee(edit: Edit): Promise<void>;
  /** Whether a plan could exist after this edit, which fixes something of `piece`. */
  tryOut(edit: Edit, piece: string): Promise<Trial>;
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
  /** Whether this device keeps the shop and the plan as they are now, once that is known. */
  kept(): Promise<boolean>;
  /** Resolves once the engine answers questions about the plan that is shown. */
  readonly ready: () => Promise<void>;
  /** While something is in the hand, new plans wait; they are shown once it is let go. */
  takeInHand(): void;
  letGo(): void;
}

/** Work for one plan; see the engine's door. Enough for the six-week example to settle. */
const BUDGET = 400_000;

export const makeSession = ({ engine, storage, clockMs, budget = BUDGET }: SessionParts): Session => {
  const [history, setHistory] = createSignal<Line | null>(null);
  const [trouble, setTrouble] = createSignal<Trouble | null>(null);
  const [now, setNow] = createSignal<Minute>(Math.floor(clockMs() / 60_000));
  const [isExample, setIsExample] = createSignal(false);
  const shop = createMemo(() => history()?.present.value.shop ?? null);
  const zone = createMemo(() => shop()?.zone ?? 'UTC');
  const clock = createMemo(() => makeZoneClock(zone()));

  const ticking = setInterval(() => setNow(Math.floor(clockMs() / 60_000)), 1000);
  onCleanup(() => {
    clearInterval(ticking);
    keeping.close();
    engine.close();
  });

  /** An edit that is likely to come, and the shop it makes. */
  let likely: { readonly edit: Edit; readonly from: Shop; readonly to: Shop } | null = null;

  /** The shop as it is now, with the plan that is shown. */
  const keep = (): Promise<void> | null => {
    const line = history();
    const document = shop();
    if (!line || !document) return null;
    const plan = planning.planned()?.plan;
    return storage.keepShop(
      JSON.stringify(document),
      plan ? JSON.stringify(plan) : null,
      isExample(),
      lineText(line),
      nameOf(line.present),
    );
  };
  const keeping = makeKeeping(keep, (error) =>
    setTrouble({
      title: 'This device does not keep your changes',
      lines: [wordsOf(error), 'Export the shop file before you close this page.'],
    }),
  );

  const planning = makePlanning({ engine, budget, shop, now, clock, tell: setTrouble, shown: keeping.soon });

  const turn = (
    next: Line,
    says: string,
    except: readonly { piece: string; step: string }[] = [],
    found?: Plan,
  ): void => {
    const current = next.present.value.shop;
    if (next === history() || !current) return;
    // Asked first, so that planning goes on while the screen is drawn.
    planning.follow(current, says, except, found);
    batch(() => {
      setTrouble(null);
      setHistory(next);
      planning.bringBack(current);
    });
    keeping.now();
  };

  /** To a state of an earlier visit; where the device has lost it, or it cannot be read, `line` is what remains. */
  const wake = async (next: Line, says: string, line: Line): Promise<void> => {
    const from = history();
    const text = await storage.readState(nameOf(next.present)).catch(() => null);
    const opened = text === null ? null : await engine.ask('open', { text });
    if (history() !== from) return;
    if (opened?.ok) {
      turn(withShop(next, opened.shop), says);
      return;
    }
    setHistory(line);
    setTrouble({
      title: 'This device no longer keeps how the shop was then',
      lines: ['Your shop stays as it is now.'],
    });
    keeping.now();
  };

  const travel = (next: Line, says: string, otherwise: Line): void => {
    if (next.present.value.shop) turn(next, says);
    else wake(next, says, otherwise).catch(planning.fail);
  };

  const openShop = (document: Shop, says: string): void => {
    const known = history();
    batch(() => {
      planning.forget();
      setHistory(known ? lengthen(known, document, says) : beginLine(document));
    });
    keeping.now();
    planning.begin(document);
  };

  /** Resolves once what this device kept, or an example, is on the screen. */
  let started: Promise<void> = Promise.resolve();

  const openDocument = async (
    text: string,
    says: string,
    fromExample: boolean,
  ): Promise<readonly FileFault[]> => {
    const opened = await engine.ask('open', { text });
    if (!opened.ok) return opened.faults;
    if (planning.phase() !== 'starting') setTrouble(null);
    setIsExample(fromExample);
    openShop(opened.shop, says);
    return [];
  };

  const openExample = async (name: string): Promise<void> => {
    const text = await exampleText(name, clockMs());
    const faults = await openDocument(text, `open the example ${name}`, true);
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
    const line = readLine(kept.line, opened.shop);
    batch(() => {
      setHistory(line);
      setIsExample(kept.isExample);
      planning.stand(opened.shop, standing);
    });
    // A line that begins here has its first state nowhere yet.
    if (line.past.length === 0) keeping.now();
    planning.begin(opened.shop);
    return true;
  };

  const start = async (): Promise<void> => {
    const kept = await storage.readKept().catch((error: unknown): Kept => {
      setTrouble({ title: 'This device keeps nothing between visits', lines: [wordsOf(error)] });
      return { shop: null, plan: null, view: null, isExample: false, line: null };
    });
    try {
      if (!(await restore(kept))) await openExample(FIRST_EXAMPLE);
    } catch (error) {
      planning.fail(error);
    }
  };

  return {
    shop,
    planned: planning.planned,
    cures: planning.cures,
    phase: planning.phase,
    trouble,
    change: planning.change,
    now,
    clockMs,
    clock,
    engine,
    isExample,
    undoSays: createMemo(() => (history()?.past.length ? (history()?.present.says ?? null) : null)),
    redoSays: createMemo(() => history()?.future[0]?.says ?? null),
    start: () => (started = start()),
    edit(edit, except) {
      const known = history();
      const current = shop();
      if (!known || !current) return;
      setIsExample(false);
      const next = likely?.edit === edit && likely.from === current ? likely.to : edit.apply(current);
      turn(lengthen(known, next, edit.says), edit.says, except, edit.known);
    },
    async foresee(edit) {
      const current = shop();
      if (!current) return;
      likely = { edit, from: current, to: edit.apply(current) };
      await planning.foresee(likely.to);
    },
    async tryOut(edit, piece) {
      const current = shop();
      return current ? planning.tryOut(edit.apply(current), piece) : { kind: 'unknown' };
    },
    undo() {
      const known = history();
      if (known) travel(stepBack(known), `undone: ${known.present.says}`, { ...known, past: [] });
    },
    redo() {
      const known = history();
      if (!known) return;
      travel(stepForward(known), `done again: ${known.future[0]?.says ?? ''}`, { ...known, future: [] });
    },
    dismissTrouble() {
      setTrouble(null);
    },
    planAgain: planning.again,
    async openText(text, says) {
      // A file that is chosen this early comes after what this device kept, so that undo leads back to it.
      await started;
      return openDocument(text, says, false);
    },
    async openExample(name) {
      await started;
      await openExample(name);
    },
    exportText() {
      const document = shop();
      return document ? `${JSON.stringify(document, null, 2)}\n` : null;
    },
    kept: keeping.done,
    ready: planning.ready,
    takeInHand: planning.takeInHand,
    letGo: planning.letGo,
  };
};
