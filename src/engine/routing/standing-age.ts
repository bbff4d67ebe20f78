/** How much a surface has cured between its application and a later moment, where it stands. */
import { ageBetween, ageOnPart, rateFactor, temperatureAt } from '../cure/index.ts';
import type { TemperatureSeries } from '../cure/index.ts';
import type { Resin } from '../shop/index.ts';
import type { Ground, Standing } from './ground.ts';

/**
 * Equivalent minutes at the resin's reference temperature from `applied` to `at` (minutes of the clock): in the room
 * until it is moved, then up the box's ramp, a minute at a time, then at the box's set temperature.
 */
export function standingAge(
  ground: Ground,
  standing: Standing,
  resin: Resin,
  applied: number,
  at: number,
): number {
  const inRoom = ground.age(standing.room, resin);
  const { box } = standing;
  const moved = applied + standing.boxAfterMinutes;
  if (!box || at <= moved) return ageBetween(inRoom, applied, at);
  const { kinetics } = inRoom;
  const roomDegC = temperatureAt(ground.temperature.get(standing.room.id) as TemperatureSeries, moved);
  let age = ageBetween(inRoom, applied, moved);
  const ramp = Math.min(at - moved, box.heatUpMinutes);
  const degCAt = (minute: number): number =>
    roomDegC + (minute / box.heatUpMinutes) * (box.setDegC - roomDegC);
  for (let minute = 0; minute < ramp; minute++)
    age += ageOnPart(kinetics, degCAt(minute), degCAt(minute + 1), 1);
  return age + (at - moved - ramp) * rateFactor(kinetics, box.setDegC);
}
