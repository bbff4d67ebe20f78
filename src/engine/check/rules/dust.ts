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
  // A box is shut: what stands in one takes no dust.
  const isStillOpen = (surface: Surface, at: number): boolean => {
    const { of, application, apply } = surface;
    if (isCovered(surface, at)) return false;
    const goesIntoBox = of.boxStays.length > 0 && application.id.startsWith('layer-');
    if (goesIntoBox) return at < apply.start + moveMinutes(application);
    const { tackCloses } = curing.milestones(of, application);
    return (
      at <= apply.start || curing.age(of, application, at, { stalls: true }) < tackCloses - AGE_TOLERANCE
    );
  };

  for (const { recipe, byId } of evidence.pieces) {
    for (const kind of ['flatten', 'sand'] as const) {
      const dusty = byId.get(kind);
      if (!recipe[kind]?.dust || !dusty) continue;
      const { room } = dusty.step;
      const settled = dusty.end + (evidence.rooms.get(room)?.dustSettleMinutes ?? 0);
      for (const surface of surfaces) {
        const { apply } = surface;
        if (apply.step.room !== room || isPast(apply, dusty)) continue;
        if (apply.start >= settled || !isStillOpen(surface, dusty.start)) continue;
        const air = `makes dust in ${room} from ${evidence.say(dusty.start)}, settled ${evidence.say(settled)}`;
        const text = `${nameOf(dusty)} ${air}; ${nameOf(apply)}, from ${evidence.say(apply.start)}, is open then.`;
        broken.push(brokenAt('dust', dusty, text));
      }
    }
  }
  return broken;
}
