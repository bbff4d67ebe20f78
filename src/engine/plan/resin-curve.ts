/** A resin's times against temperature, as they would be in air that never changes. */
import { rateFactor, withoutStall } from '../cure/index.ts';
import { kineticsOf } from '../routing/index.ts';
import type { Resin } from '../shop/index.ts';

/** Minutes from the application at one even temperature. */
export interface ResinTimes {
  readonly degC: number;
  /** Working time of the sheet's own cup. */
  readonly pourByMinutes: number;
  /** Null where the resin stands still: below its lowest temperature. */
  readonly opensMinutes: number | null;
  readonly closesMinutes: number;
  readonly demoldMinutes: number | null;
  readonly fullCureMinutes: number | null;
}

/**
 * The times of the sheet divided by the cure speed at each temperature (equivalent age as in ASTM C1074). What must not
 * be overrun, working time and the window's end, is told as if the resin never stalled.
 * @throws RangeError when the resin's two published times fit no activation energy
 */
export function resinCurve(resin: Resin, temperaturesDegC: readonly number[]): readonly ResinTimes[] {
  const kinetics = kineticsOf(resin);
  return temperaturesDegC.map((degC) => {
    const speed = rateFactor(kinetics, degC);
    const never = rateFactor(withoutStall(kinetics), degC);
    const reached = (minutes: number): number | null => (speed === 0 ? null : minutes / speed);
    return {
      degC,
      pourByMinutes: resin.workingTime.minutes / never,
      opensMinutes: reached(resin.tackOpensMinutes),
      closesMinutes: resin.tackClosesMinutes / never,
      demoldMinutes: reached(resin.demoldMinutes),
      fullCureMinutes: reached(resin.fullCureMinutes),
    };
  });
}
