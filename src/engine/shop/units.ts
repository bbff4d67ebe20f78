/**
 * Units of the shop and their exact factors: NIST Handbook 44, Appendix C, and NIST SP 811, Appendix B. Everything is
 * stored metric; these turn an amount into what is shown. There are two ounces that are not the same, one of volume and
 * one of mass, so "oz" never stands alone in any text made here.
 */

/** Inch, exact since 1959. */
export const MM_PER_INCH = 25.4;
/** US fluid ounce: 1/128 US gallon of 231 cubic inches, exactly. */
export const ML_PER_US_FLUID_OUNCE = 29.5735295625;

export type Units = 'metric' | 'us';

export const usFluidOuncesOfMl = (ml: number): number => ml / ML_PER_US_FLUID_OUNCE;
export const degFOfDegC = (degC: number): number => degC * 1.8 + 32;
export const degCOfDegF = (degF: number): number => (degF - 32) / 1.8;

/** `420 mL`, `14.25 US fl oz`: to the hundredth of a fluid ounce, the tenth of a millilitre, without idle zeros. */
export const volumeText = (ml: number, units: Units): string =>
  units === 'us' ? `${shortest(usFluidOuncesOfMl(ml), 2)} US fl oz` : `${shortest(ml, 1)} mL`;

/** `462 g`; scales of a shop show grams whatever its units. */
export const massText = (g: number, decimals = 1): string => `${shortest(g, decimals)} g`;

/** `18.5 °C`, `65 °F`. */
export const temperatureText = (degC: number, units: Units): string =>
  units === 'us' ? `${shortest(degFOfDegC(degC), 0)} °F` : `${shortest(degC, 1)} °C`;

const shortest = (value: number, decimals: number): string => {
  const text = value.toFixed(decimals);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
};
