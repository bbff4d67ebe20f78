/** Temperature into cure: equivalent age, milestones and working time as monotone maps; air and wood. */
export { dewPointDegC, dewPointMarginK, equilibriumMoisturePercent } from './air.ts';
export type { EquivalentAge } from './equivalent-age.ts';
export {
  AGE_TOLERANCE_MINUTES,
  ageBetween,
  ageOnPart,
  equivalentAge,
  stalls,
  unstalled,
} from './equivalent-age.ts';
export type { Kinetics, PublishedTime } from './kinetics.ts';
export { fitActivationEnergy, GAS_CONSTANT, rateFactor, withoutStall } from './kinetics.ts';
export type { WorkingTime } from './milestones.ts';
export { lastWithinMap, reachMap, workingMinutes, workingTimeMap } from './milestones.ts';
export type { Heating, TemperaturePattern } from './pattern.ts';
export { patternKnots } from './pattern.ts';
export type { RoomReadings, TemperatureReading, TemperatureSeries } from './temperature.ts';
export {
  constantTemperature,
  LONGEST_GAP_MINUTES,
  roomTemperature,
  temperatureAt,
  temperatureSeries,
} from './temperature.ts';
export type { WarmBoxClimate } from './warm-box.ts';
export { warmBoxLastWithinMap, warmBoxReachMap } from './warm-box.ts';
