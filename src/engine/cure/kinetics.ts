/**
 * How fast a resin cures at a temperature: Arrhenius, in the form of the equivalent-age function of ASTM C1074
 * (Standard Practice for Estimating Concrete Strength by the Maturity Method; the form is due to Freiesleben Hansen
 * and Pedersen 1977), with the resin's activation energy in place of the concrete's.
 */

/** J/(mol K), CODATA 2018, exact in the SI. */
export const GAS_CONSTANT = 8.314462618;
const ZERO_CELSIUS_IN_KELVIN = 273.15;

export interface Kinetics {
  /** J/mol; epoxy with amines was measured between 43,000 and 60,000. */
  readonly activationEnergyJPerMol: number;
  /** degC at which the resin's times are stated. */
  readonly referenceDegC: number;
  /** degC below which cure stalls; `-Infinity` when it never does. */
  readonly lowestDegC: number;
}

/**
 * Cure speed relative to the reference temperature: `exp(-(Ea/R) (1/T - 1/Tref))`, T in kelvin; 0 below the
 * lowest temperature.
 */
export function rateFactor(kinetics: Kinetics, degC: number): number {
  if (degC < kinetics.lowestDegC) return 0;
  const kelvin = degC + ZERO_CELSIUS_IN_KELVIN;
  const reference = kinetics.referenceDegC + ZERO_CELSIUS_IN_KELVIN;
  return Math.exp((-kinetics.activationEnergyJPerMol / GAS_CONSTANT) * (1 / kelvin - 1 / reference));
}

/**
 * The same resin taken as never stalling. Bounds that must not be overrun (working time, the end of a tack window)
 * use it: that a cold resin really stands still is hope, not safety.
 */
export const withoutStall = (kinetics: Kinetics): Kinetics => ({ ...kinetics, lowestDegC: -Infinity });

/** A time published for one temperature: a gel time, a recoat time, a pot life. */
export interface PublishedTime {
  readonly degC: number;
  readonly minutes: number;
}

/**
 * The activation energy (J/mol) at which both published times are the same cure: `R ln(t1/t2) / (1/T1 - 1/T2)`.
 * @throws RangeError when the temperatures are alike, a time is not above 0, or the colder time is not the longer
 */
export function fitActivationEnergy(one: PublishedTime, other: PublishedTime): number {
  for (const { minutes, degC } of [one, other]) {
    if (!(minutes > 0))
      throw new RangeError(`published time: ${minutes} minutes at ${degC} degC; it must be above 0`);
  }
  if (one.degC === other.degC) {
    throw new RangeError(
      `published times: both at ${one.degC} degC; an activation energy needs two temperatures`,
    );
  }
  const [colder, warmer] = one.degC < other.degC ? [one, other] : [other, one];
  if (colder.minutes <= warmer.minutes) {
    throw new RangeError(
      `published times: ${colder.minutes} minutes at ${colder.degC} degC and ${warmer.minutes} at ${warmer.degC} degC; ` +
        'the colder one must take longer',
    );
  }
  const inverse = (degC: number): number => 1 / (degC + ZERO_CELSIUS_IN_KELVIN);
  return (
    (GAS_CONSTANT * Math.log(colder.minutes / warmer.minutes)) / (inverse(colder.degC) - inverse(warmer.degC))
  );
}
