/** Every step of the recipe is there once, in the order of the bench, and lasts as long as its work. */
import { brokenAt, isPassAfterFact, isPast, nameOf } from '../evidence.ts';
import type { Broken, Evidence, PieceCase, Timed } from '../evidence.ts';
import type { ExpectedStep } from '../expected.ts';

const RULE = 'order';

/** Steps that fill the time between others; they are there only where there is time to fill. */
const isUnattended = (timed: Timed): boolean => ['set', 'cure', 'rest'].includes(timed.step.kind);

export function order(evidence: Evidence): Broken[] {
  const { shop, plan } = evidence;
  const known = new Set(shop.pieces.map((piece) => piece.id));
  const strangers = plan.steps.filter((step) => !known.has(step.piece));
  return [
    ...strangers.map(({ piece, step }) => ({
      rule: RULE,
      piece,
      step,
      text: `${piece} ${step}: the shop has no piece "${piece}".`,
    })),
    ...evidence.pieces.flatMap((of) => [
      ...everyStepOnce(of),
      ...sequence(evidence, of),
      ...lengths(evidence, of),
      ...unattended(evidence, of),
    ]),
  ];
}

function everyStepOnce(of: PieceCase): Broken[] {
  const { piece, steps, expected, byId, applications } = of;
  const broken: Broken[] = [];
  const wanted = new Set(expected.map((step) => step.id));
  for (const step of expected) {
    const { id, kind } = step;
    const found = byId.get(id);
    if (!found && isPassAfterFact(of, step)) continue;
    if (!found) {
      broken.push({ rule: RULE, piece: piece.id, step: id, text: `${piece.id}: the step ${id} is missing.` });
    } else if (found.step.kind !== kind) {
      broken.push(brokenAt(RULE, found, `${nameOf(found)} is called ${found.step.kind}; it is ${kind}.`));
    }
  }
  const waits = new Map<string, string>([
    ...applications.map((each) => [each.set, 'set'] as const),
    ['cure', 'cure'],
    ['rest', 'rest'],
    ['full-cure', 'cure'],
  ]);
  const seen = new Set<string>();
  for (const timed of steps) {
    const { step, kind } = timed.step;
    if (seen.has(step)) broken.push(brokenAt(RULE, timed, `${nameOf(timed)} is there more than once.`));
    seen.add(step);
    if (!wanted.has(step) && waits.get(step) !== kind)
      broken.push(brokenAt(RULE, timed, `${nameOf(timed)}: the recipe asks for no such step.`));
    if (timed.end < timed.start || !Number.isInteger(timed.start) || !Number.isInteger(timed.end))
      broken.push(
        brokenAt(RULE, timed, `${nameOf(timed)} does not start and end at whole minutes, in this order.`),
      );
  }
  return broken;
}

/** One after the other; the piece does not wait for its form's turnaround, and a pour follows its mix at once. */
function sequence(evidence: Evidence, { expected, byId }: PieceCase): Broken[] {
  const broken: Broken[] = [];
  let before: Timed | undefined;
  for (const { id, kind, application } of expected) {
    const here = byId.get(id);
    if (!here) continue;
    if (before && !isPast(before, here)) {
      const follows = application !== undefined && id === application.apply;
      if (here.start < before.end || (follows && here.start !== before.end)) {
        const relation = follows ? 'not at once after' : 'before the end of';
        const when = `${evidence.say(here.start)}, ${relation} ${before.step.step} at ${evidence.say(before.end)}`;
        broken.push(brokenAt(RULE, here, `${nameOf(here)} starts ${when}.`));
      }
    }
    if (kind !== 'turnaround') before = here;
  }
  // A turnaround left for ever would hold the form for ever.
  const [turnaround, ready] = [byId.get('turnaround'), byId.get('ready')];
  if (turnaround && ready && !isPast(turnaround, ready) && ready.start < turnaround.end) {
    const text = `${nameOf(ready)} is ${evidence.say(ready.start)}; its form is clean only at ${evidence.say(turnaround.end)}.`;
    broken.push(brokenAt(RULE, ready, text));
  }
  return broken;
}

/** The minutes of [from, to) in which all of these people are there. */
const sharedMinutes = (evidence: Evidence, people: readonly string[], from: number, to: number): number => {
  let count = 0;
  for (let minute = from; minute < to; minute++)
    if (people.every((person) => evidence.isThere(person, minute))) count++;
  return count;
};

function lengths(evidence: Evidence, { piece, expected, byId }: PieceCase): Broken[] {
  const broken: Broken[] = [];
  const wrong = (timed: Timed, text: string): void =>
    void broken.push(brokenAt(RULE, timed, `${nameOf(timed)} ${text}`));
  // Which form is being cleaned nobody may have written down: then the slowest counts.
  const isFormKnown = piece.actuals.some(({ form }) => form !== undefined);
  const minutesUnderWay = ({ kind, minutes }: ExpectedStep): number =>
    kind === 'turnaround' && !isFormKnown
      ? Math.max(...evidence.shop.forms.map((form) => form.turnaroundMinutes))
      : minutes;
  for (const step of expected) {
    const here = byId.get(step.id);
    if (!here || here.ended) continue;
    const handsOn = here.step.handsOnMinutes;
    if (handsOn !== step.minutes && !here.started)
      wrong(here, `is said to take ${handsOn} minutes of work; it takes ${step.minutes}.`);
    const { start, end } = here;
    const from = (): string => `runs ${evidence.say(start)} to ${evidence.say(end)}`;
    if (here.started) {
      // Under way: it ends when its work is done, or now at the soonest.
      const due = Math.max(start + minutesUnderWay(step), evidence.now);
      if (end !== due) wrong(here, `${from()}; begun then it ends ${evidence.say(due)}.`);
    } else if (step.split) {
      const done = sharedMinutes(evidence, here.step.people, start, end);
      if (done !== step.minutes || sharedMinutes(evidence, here.step.people, end - 1, end) === 0)
        wrong(here, `${from()}, with ${done} minutes of working hours in it; it takes ${step.minutes}.`);
    } else if (end - start !== step.minutes) {
      wrong(here, `${from()}, ${end - start} minutes; it takes ${step.minutes}.`);
    }
  }
  return broken;
}

interface Wait {
  readonly id: string;
  readonly after: Timed | undefined;
  readonly until: Timed | undefined;
}

/** The stretches in which a piece only stands: from one attended step to the next. */
function waitsOf({ expected, byId, applications, steps }: PieceCase): Wait[] {
  const ids = expected.map((step) => step.id).filter((id) => id !== 'turnaround');
  const next = (after: string): ExpectedStep | undefined => {
    const id = ids[ids.indexOf(after) + 1];
    return expected.find((step) => step.id === id);
  };
  const waits: Wait[] = [];
  for (const each of applications) {
    const sameStay = applications.filter((other) => other.where === each.where);
    const isLast = sameStay.at(-1) === each;
    // A set lasts to the next application, whatever is done to the surface in between; so does the last one's cure.
    const following = applications[applications.indexOf(each) + 1];
    const until = isLast ? undefined : byId.get(following.mix);
    if (until) waits.push({ id: each.set, after: byId.get(each.apply), until });
  }
  const lastLayer = applications.filter((each) => each.where === 'form').at(-1);
  if (lastLayer) waits.push({ id: 'cure', after: byId.get(lastLayer.apply), until: byId.get('demold') });
  waits.push({ id: 'rest', after: byId.get('demold'), until: byId.get(next('demold')?.id ?? 'ready') });
  const lastCoat = applications.filter((each) => each.where === 'coats').at(-1);
  const finishing = byId.get('finish') ?? byId.get('ready');
  if (lastCoat) waits.push({ id: 'full-cure', after: byId.get(lastCoat.apply), until: finishing });
  return waits.filter((wait) => steps.length > 0 && wait.after && wait.until);
}

function unattended(evidence: Evidence, of: PieceCase): Broken[] {
  const broken: Broken[] = [];
  const waits = new Map(waitsOf(of).map((wait) => [wait.id, wait]));
  for (const timed of of.steps.filter(isUnattended)) {
    const { step, handsOnMinutes, people } = timed.step;
    if (handsOnMinutes !== 0 || people.length > 0)
      broken.push(brokenAt(RULE, timed, `${nameOf(timed)} needs nobody, yet someone is put to it.`));
    const wait = waits.get(step);
    if (!wait?.after || !wait.until) continue;
    if (timed.start !== wait.after.end || timed.end !== wait.until.start) {
      const said = `${evidence.say(timed.start)} to ${evidence.say(timed.end)}`;
      const right = `${evidence.say(wait.after.end)} to ${evidence.say(wait.until.start)}`;
      broken.push(brokenAt(RULE, timed, `${nameOf(timed)} is said to last ${said}; it lasts ${right}.`));
    }
  }
  return broken;
}
