/** How clear of the dew point each pour and coat is, from the air of its room. */
import { dewPointDegC, temperatureAt } from '../cure/index.ts';
import type { Ground } from '../routing/index.ts';
import type { Pour } from './pours.ts';

export interface AirMargin {
  /** Air at the minute of the least margin, from the start of mixing to the end of pouring. */
  readonly degC: number;
  /** Relative, percent; null where nobody measures it, and then nothing is known of the margin either. */
  readonly humidityPercent: number | null;
  readonly dewPointDegC: number | null;
  readonly marginK: number | null;
  readonly neededK: number;
}

/** The tightest moment of a pour. The surface is taken to be as warm as the air of its room. */
export function airMargin(pour: Pour, ground: Ground): AirMargin {
  const neededK = pour.resin.dewPointMarginK;
  const air = ground.temperature.get(pour.room);
  const humidity = ground.humidityPercent.get(pour.room);
  if (!air || !humidity) {
    const degC = air ? temperatureAt(air, pour.pourMinute) : Number.NaN;
    return { degC, humidityPercent: null, dewPointDegC: null, marginK: null, neededK };
  }
  let tightest: AirMargin | null = null;
  for (let minute = pour.mixMinute; minute <= pour.endMinute; minute++) {
    const degC = temperatureAt(air, minute);
    const humidityPercent = Math.min(100, Math.max(1, temperatureAt(humidity, minute)));
    const dew = dewPointDegC(degC, humidityPercent / 100);
    if (tightest === null || degC - dew < (tightest.marginK ?? Infinity)) {
      tightest = { degC, humidityPercent, dewPointDegC: dew, marginK: degC - dew, neededK };
    }
  }
  return tightest as AirMargin;
}
