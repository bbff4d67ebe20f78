/**
 * Pours into cups. Pours of one resin that fall together in one room share a cup, up to its maker's largest batch and
 * as far as the working time of so large a batch carries; a pour that is too large for one cup is split over several,
 * mixed and poured one after the other. The plan's times stay as they are: a shared cup saves a mix, it moves nothing.
 */
import { workingMinutes } from '../cure/index.ts';
import { makeGround, planClock, type Ground } from '../routing/index.ts';
import type { Plan } from '../plan/document.ts';
import type { Resin, Shop } from '../shop/index.ts';
import { toMinute, type Clock } from '../time/index.ts';
import { instrumentsOf, measured, tintFor, type Instruments, type Measured } from './measured.ts';
import { poursOf, type Pour, type Tint } from './pours.ts';

/** Poured one after the other, without a mix standing in the cup for longer than this. Common practice, no source. */
const LONGEST_PAUSE_MINUTES = 30;
/** A cup is shared only where so much of its working time is left after the last portion. Common practice, no source. */
const SPARE_MINUTES = 5;

export interface Portion {
  readonly pour: Pour;
  /** What must get onto the piece. */
  readonly needMl: number;
  readonly ml: number;
  readonly g: number;
  /** The last portion of a cup is not measured: it is what is left. */
  readonly isWhatIsLeft: boolean;
  /** Its own tint, where the portions of a cup differ. */
  readonly tint: { readonly name: string; readonly g: number } | null;
  /** Minutes of the clock. */
  readonly from: number;
  readonly to: number;
  /** Minutes for which the mix still flows once this portion is poured; below 0 it does not last. */
  readonly workingMinutesLeft: number;
}

export interface Cup {
  readonly resin: Resin;
  readonly room: string;
  /** Minutes of the clock: A meets B, the mix is ready, the mix no longer flows. */
  readonly mixFrom: number;
  readonly mixTo: number;
  readonly worksUntil: number;
  readonly measured: Measured;
  /** Tint of the whole cup. */
  readonly tint: { readonly name: string; readonly g: number } | null;
  readonly portions: readonly Portion[];
  /** What is mixed and does not get onto a piece: the walls of the cup, and rounding up. */
  readonly wasteMl: number;
  /** Where one pour takes several cups: which of them this is. */
  readonly series: { readonly number: number; readonly of: number } | null;
  readonly state: Pour['state'];
}

export interface CupsOfPlan {
  /** Of all minutes here. */
  readonly clock: Clock;
  readonly ground: Ground;
  readonly pours: readonly Pour[];
  /** In the order in which they are mixed. */
  readonly cups: readonly Cup[];
}

/**
 * Everything that is mixed for a plan.
 * @throws RangeError when the plan names what the shop does not have
 */
export function cupsOf(shop: Shop, plan: Plan): CupsOfPlan {
  const clock = planClock(shop, plan.now);
  const now = toMinute(clock, plan.now);
  const last = plan.steps.reduce((max, step) => Math.max(max, toMinute(clock, step.end)), now);
  // Two days on, so that every working time that begins in the plan also ends in it.
  const ground = makeGround(shop, plan.now, last - now + 2 * 1440);
  const pours = poursOf(shop, plan, ground.clock);
  const instruments = instrumentsOf(shop);
  const cups = together(pours, ground, instruments).flatMap((group) => cupsFor(group, ground, instruments));
  return {
    clock: ground.clock,
    ground,
    pours,
    cups: cups.sort((a, b) => a.mixFrom - b.mixFrom),
  };
}

/** The minute at which so large a mix, begun at `mixFrom`, no longer flows. */
function worksUntil(ground: Ground, resin: Resin, roomId: string, mixFrom: number, ml: number): number {
  const room = ground.shop.rooms.find(({ id }) => id === roomId);
  const stated = { minutes: resin.workingTime.minutes, referenceBatchMl: resin.workingTime.batchMl };
  const minutes = workingMinutes(stated, ml);
  if (!room) return mixFrom + Math.floor(minutes);
  return ground.within({ room, box: null, boxAfterMinutes: 0 }, resin, minutes).at(mixFrom);
}

const mixMinutes = (pours: readonly Pour[]): number =>
  Math.max(...pours.map((p) => p.pourMinute - p.mixMinute));

/** Groups of pours that one cup can serve. */
function together(pours: readonly Pour[], ground: Ground, instruments: Instruments): Pour[][] {
  const groups: Pour[][] = [];
  const latest = new Map<string, Pour[]>();
  for (const pour of pours) {
    const key = `${pour.resin.id} ${pour.room}`;
    const group = latest.get(key);
    if (group && oneCupServes([...group, pour], ground, instruments)) {
      group.push(pour);
      continue;
    }
    groups.push([pour]);
    latest.set(key, groups[groups.length - 1]);
  }
  return groups;
}

function oneCupServes(pours: readonly Pour[], ground: Ground, instruments: Instruments): boolean {
  if (pours.some(({ state }) => state !== 'planned')) return false;
  const [first] = pours;
  const { resin } = first;
  const readyAt = first.mixMinute + mixMinutes(pours);
  const inOrder = [...pours].sort((a, b) => a.pourMinute - b.pourMinute);
  let free = readyAt;
  for (const pour of inOrder) {
    if (pour.pourMinute < readyAt || pour.pourMinute - free > LONGEST_PAUSE_MINUTES) return false;
    free = Math.max(free, pour.endMinute);
  }
  const cup = measured(
    resin,
    inOrder.map(({ ml }) => ml),
    commonTint(inOrder),
    instruments,
  );
  if (mixedMl(resin, cup) > resin.largestBatchMl + 1e-9) return false;
  return free + SPARE_MINUTES <= worksUntil(ground, resin, first.room, first.mixMinute, mixedMl(resin, cup));
}

/** The larger of what is mixed by the cup and by the scale: either may be used. */
export const mixedMl = (resin: Resin, { byVolume, byMass }: Measured): number =>
  Math.max(byVolume.mixedMl, byMass.aG / resin.mix.densityAGPerMl + byMass.bG / resin.mix.densityBGPerMl);

function commonTint(pours: readonly Pour[]): Tint | null {
  const [{ tint }] = pours;
  return pours.every((p) => p.tint?.name === tint?.name && p.tint?.gPerL === tint?.gPerL) ? tint : null;
}

function cupsFor(group: readonly Pour[], ground: Ground, instruments: Instruments): Cup[] {
  const pours = [...group].sort((a, b) => a.pourMinute - b.pourMinute);
  const { resin } = pours[0];
  const shared = measured(
    resin,
    pours.map(({ ml }) => ml),
    commonTint(pours),
    instruments,
  );
  if (pours.length > 1 || mixedMl(resin, shared) <= resin.largestBatchMl + 1e-9) {
    const mixFrom = Math.min(...pours.map(({ mixMinute }) => mixMinute));
    return [
      cupOf(
        { pours, shared, mixFrom, mixTo: mixFrom + mixMinutes(pours), series: null },
        ground,
        instruments,
      ),
    ];
  }
  return seriesFor(pours[0], mixedMl(resin, shared), ground, instruments);
}

/** A pour that no single cup can hold: equal cups, each mixed while nothing of it stands waiting. */
function seriesFor(pour: Pour, wholeMl: number, ground: Ground, instruments: Instruments): Cup[] {
  const { resin, tint } = pour;
  let of = Math.ceil(wholeMl / resin.largestBatchMl - 1e-9);
  const measureOne = (): Measured => measured(resin, [pour.ml / of], tint, instruments);
  let one = measureOne();
  // Rounding up to the marks may take one more.
  for (let tries = 0; tries < 3 && mixedMl(resin, one) > resin.largestBatchMl + 1e-9; tries++) {
    of += 1;
    one = measureOne();
  }
  const mix = pour.pourMinute - pour.mixMinute;
  // The plan counts the mixing of every further cup into the pour.
  const each = Math.max(0, pour.endMinute - pour.pourMinute - (of - 1) * mix) / of;
  return Array.from({ length: of }, (_, k) => {
    const mixFrom = pour.mixMinute + Math.round(k * (mix + each));
    const part: Pour = {
      ...pour,
      ml: pour.ml / of,
      mixMinute: mixFrom,
      pourMinute: mixFrom + mix,
      endMinute: mixFrom + mix + Math.ceil(each),
    };
    return cupOf(
      { pours: [part], shared: one, mixFrom, mixTo: mixFrom + mix, series: { number: k + 1, of } },
      ground,
      instruments,
    );
  });
}

function cupOf(
  parts: {
    readonly pours: readonly Pour[];
    readonly shared: Measured;
    readonly mixFrom: number;
    readonly mixTo: number;
    readonly series: Cup['series'];
  },
  ground: Ground,
  instruments: Instruments,
): Cup {
  const { pours, shared, mixFrom, mixTo, series } = parts;
  const { resin, room, state } = pours[0];
  const tint = commonTint(pours);
  const until = worksUntil(ground, resin, room, mixFrom, mixedMl(resin, shared));
  const portions = pours.map((pour, i): Portion => {
    const own = tint ? null : pour.tint;
    const ml = shared.byVolume.portionsMl[i];
    return {
      pour,
      needMl: pour.ml,
      ml,
      g: shared.byMass.portionsG[i],
      isWhatIsLeft: i === pours.length - 1,
      tint: own && { name: own.name, g: tintFor(ml, own, instruments.tintScaleReadsG) },
      from: pour.pourMinute,
      to: pour.endMinute,
      workingMinutesLeft: until - pour.endMinute,
    };
  });
  return {
    resin,
    room,
    mixFrom,
    mixTo,
    worksUntil: until,
    measured: shared,
    tint: tint && { name: tint.name, g: shared.byMass.tintG },
    portions,
    wasteMl: mixedMl(resin, shared) - pours.reduce((sum, { ml }) => sum + ml, 0),
    series,
    state,
  };
}
