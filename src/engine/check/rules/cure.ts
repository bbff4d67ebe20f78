/** Cured enough for what is done next: demolding, machining, turning over, finishing. */
import type { Curing, Milestones } from '../cure.ts';
import { brokenAt, isPast, nameOf } from '../evidence.ts';
import type { Broken, Evidence, PieceCase } from '../evidence.ts';
import type { Application } from '../expected.ts';
import { flipsBefore } from '../expected.ts';

interface Demand {
  readonly step: string;
  readonly application: Application;
  readonly milestone: keyof Milestones;
  readonly words: string;
}

function demandsOf({ recipe, applications, byId }: PieceCase): Demand[] {
  const demands: Demand[] = [];
  const layers = applications.filter((each) => each.id.startsWith('layer-'));
  const coats = applications.filter((each) => each.where === 'coats');
  for (const application of layers)
    demands.push({
      step: 'demold',
      application,
      milestone: 'demold',
      words: 'hard enough to leave its form',
    });

  const last = layers[layers.length - 1];
  const closing = byId.has('finish') ? 'finish' : 'ready';
  const machined = recipe.flatten ? 'flatten' : recipe.sand ? 'sand' : (coats[0]?.mix ?? closing);
  demands.push({
    step: machined,
    application: last,
    milestone: 'machinable',
    words: 'hard enough to work on',
  });
  coats.forEach((_, i) => {
    if (!flipsBefore(recipe, i)) return;
    const words = 'hard enough to be turned over on';
    demands.push({ step: `flip-${i + 1}`, application: coats[i - 1], milestone: 'scuffable', words });
  });
  const lastCoat = coats.at(-1) ?? last;
  demands.push({ step: closing, application: lastCoat, milestone: 'fullCure', words: 'fully cured' });
  for (const application of [last, ...coats])
    demands.push({ step: closing, application, milestone: 'machinable', words: 'hard enough to work on' });
  return demands;
}

export function cure(evidence: Evidence, curing: Curing): Broken[] {
  const broken: Broken[] = [];
  for (const of of evidence.pieces) {
    for (const { step, application, milestone, words } of demandsOf(of)) {
      const timed = of.byId.get(step);
      const apply = of.byId.get(application.apply);
      if (!timed || !apply || isPast(timed, apply)) continue;
      if (curing.hasReached(of, application, milestone, timed.start)) continue;
      const applied = `${application.id}, applied ${evidence.say(apply.start)}, is not yet ${words}`;
      const text = `${nameOf(timed)} starts ${evidence.say(timed.start)}; ${applied}.`;
      broken.push(brokenAt('cure', timed, text));
    }
  }
  return broken;
}
