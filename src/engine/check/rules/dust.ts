/**
 * Nothing is planed or sanded in a room while a surface in it is still open, and the air settles first. Once poured
 * over, a seal, layer or coat has no surface.
 */
import { AGE_TOLERANCE } from '../age.ts';
import type { Curing } from '../cure.ts';
import { brokenAt, isPast, moveMinutes, nameOf } from '../evidence.ts';
import type { Broken, Evidence, PieceCase, Timed } from '../evidence.ts';
import type { Application } from '../expected.ts';

interface Surface {
  readonly of: PieceCase;
  readonly application: Application;
  readonly apply: Timed;
}

/** A stretch in which dust could settle on a surface: from the beginning of a step until it is shut. */
interface Exposure {
  readonly since: Timed;
  isShut(at: number): boolean;
}

export function dust(evidence: Evidence, curing: Curing): Broken[] {
  const broken: Broken[] = [];
  const surfaces: Surface[] = evidence.pieces.flatMap((of) =>
    of.applications.flatMap((application) => {
      const apply = of.byId.get(application.apply);
      return apply ? [{ of, application, apply }] : [];
    }),
  );
  const isCovered = ({ of, application }: Surface, at: number): boolean => {
    const cover = of.applications.find(({ over }) => over === application.id);
    if (!cover) return false;
    const apply = of.byId.get(cover.apply);
    return apply ? apply.start <= at : of.past.has(cover.apply);
  };
  const hasCured = ({ of, application, apply }: Surface, at: number): boolean =>
    at > apply.start &&
    curing.age(of, application, at, { stalls: true }) >=
      curing.milestones(of, application).tackCloses - AGE_TOLERANCE;
  // A box is shut: what stands in one takes no dust until it comes out of it with its form.
  const exposuresOf = (surface: Surface): Exposure[] => {
    const { of, application, apply } = surface;
    const isShut = (at: number): boolean => isCovered(surface, at) || hasCured(surface, at);
    if (of.boxStays.length === 0 || !application.id.startsWith('layer-')) return [{ since: apply, isShut }];
    const moved = apply.start + moveMinutes(application);
    const demold = of.byId.get('demold');
    return [
      { since: apply, isShut: (at) => isCovered(surface, at) || at >= moved },
      ...(demold ? [{ since: demold, isShut }] : []),
    ];
  };
  const exposures = surfaces.flatMap((surface) =>
    exposuresOf(surface).map((exposure) => ({ ...exposure, surface })),
  );

  for (const { recipe, byId } of evidence.pieces) {
    for (const kind of ['flatten', 'sand'] as const) {
      const dusty = byId.get(kind);
      if (!recipe[kind]?.dust || !dusty) continue;
      const { room } = dusty.step;
      const settled = dusty.end + (evidence.rooms.get(room)?.dustSettleMinutes ?? 0);
      for (const { since, isShut, surface } of exposures) {
        const { apply } = surface;
        if (apply.step.room !== room || isPast(since, dusty)) continue;
        if (since.start >= settled || isShut(Math.max(since.start, dusty.start))) continue;
        const air = `makes dust in ${room} from ${evidence.say(dusty.start)}, settled ${evidence.say(settled)}`;
        const text = `${nameOf(dusty)} ${air}; ${nameOf(apply)}, from ${evidence.say(apply.start)}, is open then.`;
        broken.push(brokenAt('dust', dusty, text));
      }
    }
  }
  return broken;
}
