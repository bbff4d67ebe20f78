/** Measures as they are typed: stored metric, shown in the shop's units, and read back without drifting. */
import {
  degCOfDegF,
  degFOfDegC,
  MM_PER_INCH,
  ML_PER_US_FLUID_OUNCE,
  type Units,
} from '../../engine/shop/index.ts';

/** `length` of things in mm; `depth` of a pour in mm; `warmth` in degC; `warmer` as a difference in K; `volume` in mL; `area` in cm2. */
export type Measure = 'length' | 'depth' | 'warmth' | 'warmer' | 'volume' | 'area';

interface Way {
  readonly unit: string;
  readonly decimals: number;
  readonly show: (stored: number) => number;
  readonly store: (shown: number) => number;
}

const same = (unit: string, decimals: number): Way => ({ unit, decimals, show: (x) => x, store: (x) => x });
const scaled = (unit: string, decimals: number, per: number): Way => ({
  unit,
  decimals,
  show: (x) => x / per,
  store: (x) => x * per,
});

const WAYS: Readonly<Record<Units, Readonly<Record<Measure, Way>>>> = {
  metric: {
    length: same('mm', 1),
    depth: same('mm', 1),
    warmth: same('°C', 1),
    warmer: same('K', 1),
    volume: same('mL', 1),
    area: same('cm²', 0),
  },
  us: {
    length: scaled('in', 2, MM_PER_INCH),
    depth: scaled('in', 3, MM_PER_INCH),
    warmth: { unit: '°F', decimals: 1, show: degFOfDegC, store: degCOfDegF },
    warmer: scaled('°F', 1, 1 / 1.8),
    volume: scaled('US fl oz', 2, ML_PER_US_FLUID_OUNCE),
    area: scaled('sq in', 1, (MM_PER_INCH * MM_PER_INCH) / 100),
  },
};

export const unitOf = (measure: Measure, units: Units): string => WAYS[units][measure].unit;

/** A stored number as it stands in its field, without idle zeros; empty for none. */
export const shownNumber = (stored: number | undefined, measure: Measure, units: Units): string => {
  if (stored === undefined || !Number.isFinite(stored)) return '';
  const { show, decimals } = WAYS[units][measure];
  return String(Number(show(stored).toFixed(decimals)));
};

/** A typed number as it is stored, to a thousandth; NaN for what is no number. A comma is taken as the decimal point. */
export const storedNumber = (typed: string, measure: Measure, units: Units): number => {
  const text = typed.trim().replace(',', '.');
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(text)) return Number.NaN;
  return Math.round(WAYS[units][measure].store(Number(text)) * 1000) / 1000;
};

/** `520 mm`, `20.47 in`, `18.5 °C`. */
export const measureText = (stored: number, measure: Measure, units: Units): string =>
  `${shownNumber(stored, measure, units)} ${unitOf(measure, units)}`;

/** `520 × 320 mm`. */
export const sizeText = (
  size: { readonly lengthMm: number; readonly widthMm: number },
  units: Units,
): string =>
  `${shownNumber(size.lengthMm, 'length', units)} × ${shownNumber(size.widthMm, 'length', units)} ${unitOf('length', units)}`;
