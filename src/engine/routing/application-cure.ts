/** The milestones of an application as lags from its block's start, for every place where it may stand. */
import { rateFactor, unstalled, withoutStall } from '../cure/index.ts';
import type { Kinetics } from '../cure/index.ts';
import type { Literal, MonotoneMap } from '../schedule/model.ts';
import type { Resin } from '../shop/index.ts';
import { equivalentMinutes } from './ground.ts';
import type { Ground, MilestoneName, Standing } from './ground.ts';
import type { Application } from './itinerary.ts';
import type { PieceRoute, RoutedBlock } from './piece-route.ts';
import { shifted } from './shift.ts';
import { standingAge } from './standing-age.ts';
import { touched, UNTOUCHED } from './touch.ts';
import type { Touched } from './touch.ts';

export interface PlacedCure {
  readonly when: readonly Literal[];
  readonly standing: Standing;
  readonly resin: Resin;
  /** A finger found it hard, which has shut its window. */
  readonly isFoundHard: boolean;
  /** The milestone's age in equivalent minutes, after what touch tests have found. */
  ageOf(name: MilestoneName): number;
  /** Block start -> minute of the milestone, plus `after`. */
  milestone(name: MilestoneName, after?: number): MonotoneMap;
  /** Block start -> the minute from which the surface has set, plus `after`: tacky by its sheet, or found hard before. */
  set(after?: number): MonotoneMap;
  /** Block start -> first minute at which the share `0..1` of the window's equivalent width has passed, plus `after`. */
  intoWindow(share: number, bound: 'reached' | 'within', after?: number): MonotoneMap;
  /**
   * Block start -> the last minute at which the piece may come out of its box so that the window is still open after
   * so many minutes in the room, plus `after`. When that will be is not known yet, so the room counts as warm as it
   * ever gets: in one warmer than the box the surface cures faster outside than inside.
   */
  outOfBoxUntil(minutesOutside: number, after?: number): MonotoneMap;
  /** Block start -> the minute from which the surface, left alone, is no longer open: dust cannot stick to it any more. */
  surfaceShut(): MonotoneMap;
  /** The equivalent minutes after which that is so outside of a box. */
  readonly shutAge: number;
}

/** Minutes from the start of an application until its piece is in the box: poured, and the last bubble pass made. */
export function boxAfterMinutes(route: Pick<PieceRoute, 'itinerary'>, application: Application): number {
  const passes = route.itinerary.blocks.filter((b) => b.pass?.after === `${application.id}-pour`);
  const last = Math.max(0, ...passes.map((b) => (b.pass?.to ?? 0) + b.minutes));
  return application.applyMinutes + last;
}

/** Where this application may stand while it cures. A seal sets before the form goes into any box. */
export function standingsOf(
  route: PieceRoute,
  application: Application,
): readonly { value: Standing; when: readonly Literal[] }[] {
  if (application.stay === 'coats') return route.coatStandings;
  return route.formStandings.map(({ value, when }) => ({
    when,
    value:
      application.id === 'seal'
        ? { ...value, box: null }
        : value.box
          ? { ...value, boxAfterMinutes: boxAfterMinutes(route, application) }
          : value,
  }));
}

export function placedCures(
  ground: Ground,
  route: PieceRoute,
  { block, past }: RoutedBlock,
): readonly PlacedCure[] {
  const application = block.application as Application;
  const resin = ground.resin(application.resin);
  const { mixMinutes } = application;
  const tests = route.itinerary.piece.touchTests.filter(
    (t) => t.step === application.id || t.step === block.id,
  );
  const demolded = application.stay === 'form' ? route.byId.get('demold')?.past?.start : undefined;
  return standingsOf(route, application).map(({ value: standing, when }) => {
    const touch: Touched =
      past && tests.length > 0
        ? touched(ground, standing, resin, past.start + mixMinutes, tests, demolded)
        : UNTOUCHED;
    const ageOf = (name: MilestoneName): number => {
      const age = equivalentMinutes(resin, name) * touch.factor;
      return name === 'closes' ? Math.min(age, touch.closesAtMost) : age;
    };
    const map = (age: number, bound: 'reached' | 'within', after: number): MonotoneMap =>
      shifted((bound === 'reached' ? ground.reach : ground.within)(standing, resin, age), mixMinutes, after);
    const shutAge = equivalentMinutes(resin, 'closes') * touch.factor;
    return {
      when,
      standing,
      resin,
      shutAge,
      isFoundHard: touch.closesAtMost < shutAge,
      ageOf,
      milestone: (name, after = 0) => map(ageOf(name), name === 'closes' ? 'within' : 'reached', after),
      set: (after = 0) => map(Math.min(ageOf('opens'), ageOf('closes')), 'reached', after),
      intoWindow: (share, bound, after = 0) =>
        map(ageOf('opens') + share * Math.max(0, ageOf('closes') - ageOf('opens')), bound, after),
      outOfBoxUntil: (minutesOutside, after = 0) => {
        const { kinetics, series } = unstalled(ground.age(standing.room, resin));
        const warmestDegC = series.degC.reduce((a, b) => Math.max(a, b));
        const gainedOutside = minutesOutside * rateFactor(kinetics, warmestDegC);
        return map(Math.max(0, ageOf('closes') - gainedOutside), 'within', after);
      },
      surfaceShut: () =>
        standing.box
          ? {
              at: (s) => s + mixMinutes + standing.boxAfterMinutes,
              leastReaching: (v) => v - mixMinutes - standing.boxAfterMinutes,
            }
          : map(shutAge, 'reached', 0),
    };
  });
}

/**
 * Of the equivalent minutes `needed`, those still missing when the piece comes out of its box. What it had gathered by then is at least its
 * demold age: taking no more than that keeps the bound a map of one start, on the safe side.
 */
export function missingAfterDemold(
  ground: Ground,
  { standing, resin, ageOf }: PlacedCure,
  of: RoutedBlock,
  demold: RoutedBlock,
  needed: number,
): number {
  let gathered = ageOf('demold');
  if (of.past && demold.past && standing.box) {
    const poured = of.past.start + (of.block.application?.mixMinutes ?? 0);
    gathered = standingAge(ground, standing, resin, poured, demold.past.start);
  }
  return Math.max(0, needed - gathered);
}

/**
 * Whether an application poured over another surely stays open for longer than that one would have, whatever the
 * minute. It does where it comes no nearer to its own end at any temperature of the room; the logarithms of both
 * speeds are linear in 1/T, so the coldest and the warmest tell for all between.
 */
export function outlasts(ground: Ground, over: PlacedCure, under: PlacedCure): boolean {
  if (over.standing.box || under.standing.box) return false;
  const { kinetics: above, series } = ground.age(over.standing.room, over.resin);
  const { kinetics: below } = ground.age(under.standing.room, under.resin);
  if (above.lowestDegC < below.lowestDegC) return false;
  const [coldest, warmest] = series.degC.reduce(
    ([low, high], degC) => [Math.min(low, degC), Math.max(high, degC)],
    [Infinity, -Infinity],
  );
  return [coldest, warmest].every((degC) => {
    const share = (kinetics: Kinetics, age: number): number => rateFactor(withoutStall(kinetics), degC) / age;
    return share(above, over.shutAge) <= share(below, under.shutAge);
  });
}
