/** Enough people who can do it, the same ones from mix to pour, and nobody at two things at once. */
import { brokenAt, isPast, nameOf } from '../evidence.ts';
import type { Broken, Evidence, PieceCase, Timed } from '../evidence.ts';

const RULE = 'hands';

export function hands(evidence: Evidence): Broken[] {
  return [...evidence.pieces.flatMap((of) => crews(evidence, of)), ...twoThingsAtOnce(evidence)];
}

function crews(evidence: Evidence, { expected, byId }: PieceCase): Broken[] {
  const broken: Broken[] = [];
  for (const { id, hands: needed, skill, application } of expected) {
    const timed = byId.get(id);
    if (!timed || timed.started) continue;
    const { people } = timed.step;
    const wrong = (text: string): void => void broken.push(brokenAt(RULE, timed, `${nameOf(timed)} ${text}`));
    if (new Set(people).size !== needed || people.length !== needed)
      wrong(`is done by ${people.join(', ') || 'nobody'}; it needs ${needed} people.`);
    for (const name of people) {
      const person = evidence.shop.people.find((each) => each.id === name);
      if (!person) wrong(`is done by ${name}, whom the shop does not know.`);
      else if (skill && !person.can.includes(skill)) wrong(`is done by ${name}, who cannot ${skill}.`);
    }
    const mix = application && id === application.apply ? byId.get(application.mix) : undefined;
    if (mix && [...mix.step.people].sort().join() !== [...people].sort().join())
      wrong(`is done by ${people.join(', ')}, but ${mix.step.people.join(', ')} did the mixing.`);
  }
  return broken;
}

function twoThingsAtOnce(evidence: Evidence): Broken[] {
  const broken: Broken[] = [];
  const steps = evidence.pieces.flatMap((of) => of.steps);
  for (const { id } of evidence.shop.people) {
    const theirs = steps
      .filter((timed) => timed.step.people.includes(id) && timed.end > timed.start)
      .sort((a, b) => a.start - b.start);
    let running: readonly Timed[] = [];
    for (const later of theirs) {
      const still = running.filter((each) => each.end > later.start);
      running = [...still, later];
      const earlier = still.find((each) => !isPast(each, later));
      if (!earlier) continue;
      const when = `${evidence.say(later.start)}, while ${id} is at ${nameOf(earlier)} until ${evidence.say(earlier.end)}`;
      broken.push(brokenAt(RULE, later, `${nameOf(later)} starts ${when}.`));
    }
  }
  return broken;
}
