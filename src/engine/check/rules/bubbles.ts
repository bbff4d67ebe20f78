/**
 * Every bubble pass begins so long after the end of its pour as the recipe says. One that is overdue at a pour of the
 * past is still made while the layer is wet; once the layer has set, it is not.
 */
import { AGE_TOLERANCE } from '../age.ts';
import type { Curing } from '../cure.ts';
import { brokenAt, isPassAfterFact, isPast, nameOf } from '../evidence.ts';
import type { Broken, Evidence, PieceCase, Timed } from '../evidence.ts';
import type { Application, ExpectedStep } from '../expected.ts';
import type { Minute } from '../minutes.ts';

const RULE = 'bubbles';

/** Ages this close, in minutes, differ by rounding alone. */
const SAME_AGE = 1e-7;

export function bubbles(evidence: Evidence, curing: Curing): Broken[] {
  return evidence.pieces.flatMap((of) =>
    of.expected.flatMap((step): Broken[] => {
      const { application, id, kind } = step;
      const pour = application && of.byId.get(application.apply);
      if (kind !== 'bubbles' || !application || !pour) return [];
      const pass = of.byId.get(id);
      if (!pass)
        return isPassAfterFact(of, step) ? leftOut(evidence, curing, of, step, application, pour) : [];
      return isPast(pour, pass) ? [] : planned(evidence, curing, of, pass, application, pour);
    }),
  );
}

const boundsOf = ({ passes }: Application, pass: string) => passes[Number(pass.split('-').at(-1)) - 1];

/** Minutes of cure that are missing until the layer has set: tacky, or found hard before that. */
function untilSet(curing: Curing, of: PieceCase, application: Application, at: Minute): number {
  const { tackOpens, tackCloses } = curing.milestones(of, application);
  return Math.min(tackOpens, tackCloses) - curing.age(of, application, at, { stalls: true });
}

function planned(
  evidence: Evidence,
  curing: Curing,
  of: PieceCase,
  pass: Timed,
  application: Application,
  pour: Timed,
): Broken[] {
  const { fromMinutes, toMinutes } = boundsOf(application, pass.step.step);
  const wrong = (text: string): Broken[] => [
    brokenAt(RULE, pass, `${nameOf(pass)} starts ${evidence.say(pass.start)}; ${text}.`),
  ];
  const least = pour.end + fromMinutes;
  const most = pour.end + toMinutes;
  if (!pour.started)
    return pass.start < least || pass.start > most
      ? wrong(`it has to start between ${evidence.say(least)} and ${evidence.say(most)}`)
      : [];
  if (pass.start < least) return wrong(`it has to start ${evidence.say(least)} at the soonest`);
  return untilSet(curing, of, application, pass.end - 1) <= SAME_AGE
    ? wrong(`${application.id} has set by its end ${evidence.say(pass.end)}`)
    : [];
}

/** A pass may be left out when nobody who can make it is there with free hands before the layer sets. */
function leftOut(
  evidence: Evidence,
  curing: Curing,
  of: PieceCase,
  { id, skill, minutes }: ExpectedStep,
  application: Application,
  pour: Timed,
): Broken[] {
  const { piece, expected, byId } = of;
  // A pin may keep it from the only time there was.
  if (piece.pins.some((pin) => pin.step === id && pin.at !== undefined)) return [];
  const here = expected.findIndex((step) => step.id === id);
  const listed = (steps: readonly ExpectedStep[]): Timed[] =>
    steps.flatMap((step) => byId.get(step.id) ?? []);
  const soonest = Math.max(
    evidence.now,
    pour.end + boundsOf(application, id).fromMinutes,
    ...listed(expected.slice(0, here)).map((step) => step.end),
  );
  const latest = Math.min(...listed(expected.slice(here)).map((step) => step.start)) - minutes;
  const able = evidence.shop.people.filter((person) => skill && person.can.includes(skill));
  const isFree = busyness(evidence, soonest, latest + minutes);
  for (let start = soonest; start <= latest; start++) {
    if (untilSet(curing, of, application, start + minutes - 1) <= AGE_TOLERANCE) break;
    const stretch = Array.from({ length: minutes }, (_, k) => start + k);
    const who = able.find((person) => stretch.every((at) => isFree(person.id, at)));
    if (!who) continue;
    const text = `${piece.id}: the step ${id} is missing, though ${who.name} could make it ${evidence.say(start)}.`;
    return [{ rule: RULE, piece: piece.id, step: id, text }];
  }
  return [];
}

/** Whether a person is there at a minute of the stretch and at nothing else. */
function busyness({ pieces, isThere }: Evidence, from: Minute, to: Minute) {
  const work = pieces.flatMap(({ steps }) => steps.filter(({ start, end }) => start < to && end > from));
  return (person: string, at: Minute): boolean =>
    isThere(person, at) &&
    !work.some(({ step, start, end }) => start <= at && at < end && step.people.includes(person));
}
