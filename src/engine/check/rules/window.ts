/** An application over another goes on inside the tack window of the one below, or after a scuff. */
import { AGE_TOLERANCE } from '../age.ts';
import type { Curing } from '../cure.ts';
import { brokenAt, isPast, nameOf } from '../evidence.ts';
import type { Broken, Evidence, PieceCase, Timed } from '../evidence.ts';
import type { Application } from '../expected.ts';
import { readPlanTime } from '../minutes.ts';

const RULE = 'window';

/** Ages this close, in minutes, differ by rounding alone. */
const SAME_AGE = 1e-7;

export function window(evidence: Evidence, curing: Curing): Broken[] {
  const broken: Broken[] = [];
  for (const of of evidence.pieces) {
    for (const application of of.applications) {
      const apply = of.byId.get(application.apply);
      if (!apply) continue;
      const below = of.applications.find((each) => each.id === application.over);
      const under = below && of.byId.get(below.apply);
      const wrong = (text: string): void =>
        void broken.push(brokenAt(RULE, apply, `${nameOf(apply)} ${text}`));
      const { way } = apply.step;
      if (!below || !under) {
        if (way === 'scuff')
          wrong('is said to go over a scuffed surface, but nothing it must bond to is below.');
        continue;
      }
      if (way === 'scuff') broken.push(...scuffed(evidence, curing, of, application, below));
      else if (!isPast(under, apply)) {
        if (way === undefined)
          wrong('does not say how it meets the one below: inside its window, or scuffed.');
        broken.push(...recoated(evidence, curing, of, apply, below, under));
      }
      broken.push(...statedWindow(evidence, curing, of, apply, below));
    }
  }
  return broken;
}

function recoated(
  evidence: Evidence,
  curing: Curing,
  of: PieceCase,
  apply: Timed,
  below: Application,
  under: Timed,
): Broken[] {
  const broken: Broken[] = [];
  const { tackOpens, tackCloses } = curing.milestones(of, below);
  const opened = curing.age(of, below, apply.start, { stalls: true });
  const closing = curing.age(of, below, apply.end, { stalls: false });
  const since = (): string => `${below.id}, applied ${evidence.say(under.start)},`;
  if (opened < tackOpens - AGE_TOLERANCE) {
    const state = `has cured ${opened.toFixed(1)} of the ${tackOpens.toFixed(1)} minutes until it is tacky`;
    broken.push(
      brokenAt(RULE, apply, `${nameOf(apply)} starts ${evidence.say(apply.start)}: ${since()} ${state}.`),
    );
  }
  if (closing > tackCloses + AGE_TOLERANCE) {
    const state = `has cured ${closing.toFixed(1)} minutes and was tacky for ${tackCloses.toFixed(1)}`;
    broken.push(
      brokenAt(RULE, apply, `${nameOf(apply)} ends ${evidence.say(apply.end)}: ${since()} ${state}.`),
    );
  }
  return broken;
}

function scuffed(
  evidence: Evidence,
  curing: Curing,
  of: PieceCase,
  application: Application,
  below: Application,
): Broken[] {
  const scuff = of.byId.get(application.scuff);
  const under = of.byId.get(below.apply);
  if (!scuff || !under || isPast(scuff, under)) return [];
  if (curing.hasReached(of, below, 'scuffable', scuff.start)) return [];
  const text = `${nameOf(scuff)} starts ${evidence.say(scuff.start)}; ${below.id} is not hard enough to scuff yet.`;
  return [brokenAt(RULE, scuff, text)];
}

/** The window that the plan prints is the window there is. */
function statedWindow(
  evidence: Evidence,
  curing: Curing,
  of: PieceCase,
  apply: Timed,
  below: Application,
): Broken[] {
  const { window: stated } = apply.step;
  if (!stated || isPast(apply)) return [];
  const { tackOpens, tackCloses } = curing.milestones(of, below);
  const opens = readPlanTime(stated.opens);
  const closes = readPlanTime(stated.closes);
  const openAge = (at: number): number => curing.age(of, below, at, { stalls: true });
  const closeAge = (at: number): number => curing.age(of, below, at, { stalls: false });
  // The window is told as if the piece went on standing where it stands.
  const isBoxed = of.boxStays.length > 0 && below.where === 'form';
  const isTrue =
    isBoxed ||
    (openAge(opens) >= tackOpens - AGE_TOLERANCE &&
      openAge(opens - 1) < tackOpens - SAME_AGE &&
      closeAge(closes) <= tackCloses + AGE_TOLERANCE &&
      (closes + 1 > evidence.span.to || closeAge(closes + 1) > tackCloses + SAME_AGE));
  if (isTrue) return [];
  const text = `${nameOf(apply)} is said to have its window ${evidence.say(opens)} to ${evidence.say(closes)}; that is not the window of ${below.id}.`;
  return [brokenAt(RULE, apply, text)];
}
