/** The worker's side of the door: takes a question, asks the engine, answers. It keeps only what it is told to hold. */
import {
  air,
  checkPlan,
  legalPlaces,
  milestones,
  openHours,
  parsePlan,
  parseShop,
  planShop,
  promise,
  readShop,
  tryPlan,
  resinCurve,
  whyStep,
  type ParsedShop,
  type Plan,
  type Shop,
} from '../../engine/index.ts';
import {
  cupsByPour,
  formCards,
  materialsCsv,
  pieceRecord,
  recordText,
  runSheet,
  stepsCsv,
  stockReport,
  toCalendar,
} from '../../engine/formats/index.ts';
import type { Ask, Asks, Planned, Reply, Request } from './protocol.ts';
import { makeShown } from './shown.ts';

type Answers = {
  readonly [K in Ask]: (
    question: Asks[K]['question'],
    better: (planned: Planned) => void,
  ) => Asks[K]['answer'];
};

/** Columns of a record saved as text. */
const RECORD_WIDTH = 96;

/** So long a plan is looked for that may never be wanted. */
const SOON_MS = 250;

/**
 * An edit on the screen is read as strictly as a file, without the search of its text for slips. By way of the text all the same: an edit leaves
 * keys without a value, which no file has.
 */
const readEdited = (shop: Shop): ParsedShop => readShop(JSON.parse(JSON.stringify(shop)));

const checked = (shop: Shop, plan: Plan): Planned => ({
  plan,
  broken: plan.steps.length === 0 ? [] : checkPlan(shop, plan).map((broken) => broken.text),
});

/** One worker's answers; `post` sends its replies. */
export const makeAnswers = (post: (reply: Reply) => void): ((request: Request) => void) => {
  let held: { readonly shop: Shop; readonly plan: Plan | null } | null = null;

  const heldPlan = (): { readonly shop: Shop; readonly plan: Plan } => {
    if (!held?.plan) throw new Error('there is no plan yet');
    return { shop: held.shop, plan: held.plan };
  };

  const answers: Answers = {
    open({ text }) {
      const read = parseShop(text);
      return read.ok
        ? { ok: true, shop: read.shop, warnings: read.warnings }
        : { ok: false, faults: read.faults };
    },
    readPlan({ text, shop }) {
      const read = parsePlan(text);
      if (!read.ok) return null;
      try {
        return checked(shop, read.plan);
      } catch {
        // A plan for another state of the shop is no plan.
        return null;
      }
    },
    plan({ shop, ...options }, better) {
      const read = readEdited(shop);
      if (!read.ok) return { ok: false, faults: read.faults };
      const isShown = makeShown(options.standing, performance.now());
      const plan = planShop(read.shop, {
        ...options,
        progress(found) {
          if (isShown(found, performance.now())) better(checked(read.shop, found));
        },
      });
      return { ok: true, planned: checked(read.shop, plan) };
    },
    tryPlan({ shop, piece, ...options }) {
      const read = readEdited(shop);
      if (!read.ok) return { ok: false, faults: read.faults };
      return { ok: true, planned: checked(read.shop, tryPlan(read.shop, piece, options)) };
    },
    rehearse({ shop, ...options }) {
      const read = readEdited(shop);
      if (read.ok) checked(read.shop, planShop(read.shop, { ...options, budget: 0 }));
      return null;
    },
    foresee({ shop, ...options }) {
      const read = readEdited(shop);
      if (!read.ok) return null;
      const begunMs = performance.now();
      const isShown = makeShown(options.standing, begunMs);
      const shown: Plan[] = [];
      planShop(read.shop, {
        ...options,
        progress(found) {
          if (isShown(found, performance.now())) shown.push(found);
        },
        stop: () => shown.length > 0 || performance.now() - begunMs > SOON_MS,
      });
      if (shown.length === 0) return null;
      const planned = checked(read.shop, shown[0]);
      // What is wrong with a plan is told when it is meant.
      return planned.broken.length === 0 ? planned : null;
    },
    hold(question) {
      held = question;
      return question.plan ? milestones(question.shop, question.plan) : [];
    },
    surroundings({ range }) {
      if (!held) throw new Error('there is no shop yet');
      return { range, air: air(held.shop, range), hours: openHours(held.shop, range) };
    },
    places({ piece, step, range, form }) {
      const { shop, plan } = heldPlan();
      return legalPlaces(shop, plan, piece, step, range, form);
    },
    airOf({ shop, range }) {
      return air(shop, range);
    },
    curve({ resin, temperaturesDegC }) {
      return resinCurve(resin, temperaturesDegC);
    },
    paper({ shop, plan, choice }) {
      return { sheet: runSheet(shop, plan, choice), cards: formCards(shop, plan) };
    },
    cups({ shop, plan }) {
      return cupsByPour(shop, plan);
    },
    stock({ shop, plan }) {
      return stockReport(shop, plan);
    },
    file({ shop, plan, kind, piece = '' }) {
      if (kind === 'calendar') return toCalendar(shop, plan);
      if (kind === 'steps') return stepsCsv(shop, plan);
      if (kind === 'materials') return materialsCsv(shop, plan);
      return recordText(pieceRecord(shop, plan, piece), RECORD_WIDTH);
    },
    why({ piece, step }) {
      const { shop, plan } = heldPlan();
      return whyStep(shop, plan, piece, step);
    },
    promise({ shop, ...options }) {
      const read = readEdited(shop);
      if (!read.ok)
        return { ok: false, clash: read.faults.map((fault) => `${fault.path}: ${fault.message}`) };
      return promise(read.shop, options);
    },
  };

  const answer = <K extends Ask>(id: number, ask: K, question: Asks[K]['question']): void => {
    try {
      const better = (planned: Planned): void => post({ id, kind: 'better', planned });
      post({ id, kind: 'answer', answer: answers[ask](question, better) });
    } catch (error) {
      post({ id, kind: 'fault', text: error instanceof Error ? error.message : String(error) });
    }
  };
  return ({ id, ask, question }) => answer(id, ask, question);
};
