/** Air and wood: dew point, and the moisture that wood takes on in a room. Relative humidity is a fraction, 0 to 1. */

// Alduchov and Eskridge (1996), J. Appl. Meteorol. 35:601-609: the Magnus form over water, good from -40 to 50 degC.
const MAGNUS_A = 17.625;
const MAGNUS_B_DEGC = 243.04;

function checkHumidity(humidity: number, least: number): void {
  if (!(humidity >= least && humidity <= 1)) {
    throw new RangeError(
      `relative humidity: ${humidity}; right would be a fraction up to 1, like 0.55 for 55 %`,
    );
  }
}

/**
 * The temperature at which the air's water begins to settle, degC.
 * @param humidity relative, above 0 and up to 1
 * @throws RangeError for any other humidity
 */
export function dewPointDegC(degC: number, humidity: number): number {
  checkHumidity(humidity, Number.MIN_VALUE);
  const g = Math.log(humidity) + (MAGNUS_A * degC) / (MAGNUS_B_DEGC + degC);
  return (MAGNUS_B_DEGC * g) / (MAGNUS_A - g);
}

/** How far a surface is above the dew point of the air around it, K; below 0 it is wet. */
export const dewPointMarginK = (surfaceDegC: number, airDegC: number, humidity: number): number =>
  surfaceDegC - dewPointDegC(airDegC, humidity);

/**
 * Equilibrium moisture content of wood in percent of its dry mass: USDA Forest Products Laboratory, Wood Handbook,
 * FPL-GTR-190 (2010), Eq. 4-5 (Hailwood and Horrobin's model, temperature in degF). Glass, Zelinka and Johnson,
 * FPL-GTR-229 (2014), warn that the data behind it are old: good for a shop, no more.
 * @param humidity relative, 0 to 1
 * @throws RangeError for any other humidity
 */
export function equilibriumMoisturePercent(degC: number, humidity: number): number {
  checkHumidity(humidity, 0);
  const t = degC * 1.8 + 32;
  const w = 330 + 0.452 * t + 0.00415 * t * t;
  const k = 0.791 + 4.63e-4 * t - 8.44e-7 * t * t;
  const k1 = 6.34 + 7.75e-4 * t - 9.35e-5 * t * t;
  const k2 = 1.09 + 2.84e-2 * t - 9.04e-5 * t * t;
  const kh = k * humidity;
  const bound = (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh);
  return (1800 / w) * (kh / (1 - kh) + bound);
}
