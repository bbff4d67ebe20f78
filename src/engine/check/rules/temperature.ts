/** Resin is mixed and applied only between its maker's temperatures and clear of the dew point. */
import { brokenAt, nameOf, stillToPour } from '../evidence.ts';
import type { Broken, Evidence } from '../evidence.ts';
import { readMoment } from '../minutes.ts';
import { degCAt } from '../temperature.ts';

/** Dew point in degC: Magnus form, Alduchov and Eskridge (1996), J. Appl. Meteorol. 35:601-609. */
function dewPoint(degC: number, percent: number): number {
  const [a, b] = [17.625, 243.04];
  const gamma = Math.log(percent / 100) + (a * degC) / (b + degC);
  return (b * gamma) / (a - gamma);
}

/** Relative humidity of a room's air in percent, never quite 0; nothing where it is not known. */
function humidityAt(evidence: Evidence, room: string, at: number): number | undefined {
  const known = evidence.rooms.get(room)?.humidityPercent;
  if (known === undefined) return undefined;
  if (typeof known === 'number') return Math.max(1, known);
  if (known.length === 0) return undefined;
  const readings = known.map((each) => ({ minute: readMoment(each.at, evidence.zone), degC: each.percent }));
  return Math.max(
    1,
    degCAt(
      [...readings].sort((p, q) => p.minute - q.minute),
      at,
    ),
  );
}

export function temperature(evidence: Evidence): Broken[] {
  const broken: Broken[] = [];
  for (const piece of evidence.pieces) {
    for (const { application, mix, apply } of stillToPour(piece)) {
      const { lowestDegC, highestDegC, dewPointMarginK, name } = application.resin;
      const { room } = apply.step;
      for (let at = mix.start; at < apply.end; at++) {
        const degC = evidence.degC(room, at);
        const humidity = humidityAt(evidence, room, at);
        const dew = humidity === undefined ? Number.NEGATIVE_INFINITY : dewPoint(degC, humidity);
        const air = (): string =>
          `${nameOf(apply)}: ${room} has ${degC.toFixed(2)} degC at ${evidence.say(at)}`;
        if (degC < lowestDegC - 1e-9 || degC > highestDegC + 1e-9) {
          const text = `${air()}; ${name} is mixed and applied from ${lowestDegC} to ${highestDegC} degC.`;
          broken.push(brokenAt('temperature', apply, text));
        } else if (degC < dew + dewPointMarginK - 1e-9) {
          const text = `${air()} and its dew point is ${dew.toFixed(2)}; ${name} needs ${dewPointMarginK} K between them.`;
          broken.push(brokenAt('temperature', apply, text));
        } else continue;
        break;
      }
    }
  }
  return broken;
}
