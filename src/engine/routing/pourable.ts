/**
 * When resin may be mixed and applied: inside its maker's temperatures, clear of the dew point, and in air cool enough
 * that the mix is out of the cup within its working time. Minutes at which it may not are holes, like closed hours.
 */
import {
  AGE_TOLERANCE_MINUTES,
  ageBetween,
  dewPointDegC,
  rateFactor,
  unstalled,
  withoutStall,
  workingMinutes,
} from '../cure/index.ts';
import type { EquivalentAge, TemperatureSeries } from '../cure/index.ts';
import type { Resin } from '../shop/index.ts';
import { intersect, startsThatFit } from '../time/index.ts';
import type { Intervals } from '../time/index.ts';
import { cupSpans } from './itinerary.ts';
import type { Application } from './itinerary.ts';

/** The values of a series at minutes 0 to `to`, both included; one walk along its knots. */
function everyMinute({ minutes, degC }: TemperatureSeries, to: number): Float64Array {
  const out = new Float64Array(to + 1);
  let knot = 0;
  for (let m = 0; m <= to; m++) {
    while (knot < minutes.length && minutes[knot] <= m) knot++;
    if (knot === 0) out[m] = degC[0];
    else if (knot === minutes.length) out[m] = degC[knot - 1];
    else {
      const share = (m - minutes[knot - 1]) / (minutes[knot] - minutes[knot - 1]);
      out[m] = degC[knot - 1] + share * (degC[knot] - degC[knot - 1]);
    }
  }
  return out;
}

/** The air of a room, minute by minute. */
export interface RoomAirByMinute {
  readonly degC: Float64Array;
  /** How far the air is above its dew point, K; null where its humidity is not known. */
  readonly aboveDewPointK: Float64Array | null;
}

/** @param humidityPercent relative humidity, in a series like a temperature */
export function airByMinute(
  temperature: TemperatureSeries,
  humidityPercent: TemperatureSeries | undefined,
  horizon: number,
): RoomAirByMinute {
  const degC = everyMinute(temperature, horizon);
  if (!humidityPercent) return { degC, aboveDewPointK: null };
  const percent = everyMinute(humidityPercent, horizon);
  return { degC, aboveDewPointK: degC.map((t, m) => t - dewPointDegC(t, Math.max(1, percent[m]) / 100)) };
}

/** The minutes `[0, to)` for which `holds` is true, as intervals. */
function minutesWhere(to: number, holds: (minute: number) => boolean): Intervals {
  const out: number[] = [];
  for (let m = 0; m <= to; m++) {
    if ((m < to && holds(m)) !== (out.length % 2 === 1)) out.push(m);
  }
  return Int32Array.from(out);
}

/** The minutes at which the air itself suits the resin. */
export function suitableAir({ degC, aboveDewPointK }: RoomAirByMinute, resin: Resin): Intervals {
  const { lowestDegC, highestDegC, dewPointMarginK } = resin;
  return minutesWhere(
    degC.length - 1,
    (m) =>
      degC[m] >= lowestDegC &&
      degC[m] <= highestDegC &&
      (aboveDewPointK === null || aboveDewPointK[m] >= dewPointMarginK),
  );
}

/** What the starts of an application depend on, besides room and resin. */
export const pourKey = ({ batchMl, cups, mixMinutes, applyMinutes }: Application): string =>
  `${batchMl} ${cups} ${mixMinutes} ${applyMinutes}`;

/**
 * The starts of an application's block: the air suits all of it, and every cup is poured out in time.
 * @param suitable what `suitableAir` says of the room and the resin
 * @param age the resin's age in the room
 */
export function pourableStarts(
  suitable: Intervals,
  age: EquivalentAge,
  warmestDegC: number,
  resin: Resin,
  application: Application,
): Intervals {
  const { batchMl, cups, mixMinutes, applyMinutes } = application;
  const fitting = startsThatFit(suitable, mixMinutes + applyMinutes);
  const stated = { minutes: resin.workingTime.minutes, referenceBatchMl: resin.workingTime.batchMl };
  const workable = workingMinutes(stated, Math.max(1, batchMl / cups)) + AGE_TOLERANCE_MINUTES;
  const spans = cupSpans(application);
  const fastest = rateFactor(withoutStall(age.kinetics), warmestDegC);
  if (spans.every(({ mix, out }) => fastest * (out - mix) <= workable)) return fitting;
  const steady = unstalled(age);
  return intersect(
    fitting,
    minutesWhere(age.to, (m) =>
      spans.every(({ mix, out }) => ageBetween(steady, m + mix, m + out) <= workable),
    ),
  );
}
