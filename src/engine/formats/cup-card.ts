/** One cup as the person at the bench needs it: A, then B, then tint, and the portions in the order of pouring. */
import {
  airMargin,
  heatRemark,
  mixedMl,
  type Cup,
  type CupsOfPlan,
  type Measured,
  type Portion,
} from '../mix/index.ts';
import { massText, temperatureText, volumeText, type Shop, type Units } from '../shop/index.ts';
import { formatDuration, formatTime } from '../time/index.ts';
import { namesOf, surfaceName } from './words.ts';

/** One thing that goes into the cup. */
export interface CupLine {
  readonly what: string;
  /** By the cup's marks; empty for tint, which is weighed only. */
  readonly volume: string;
  readonly mass: string;
  /** What the scale shows when it is in, the empty cup tared once. */
  readonly scaleShows: string;
}

export interface PortionLine {
  readonly piece: string;
  readonly surface: string;
  /** "what is left (about 675 mL, 705 g)" for the last of several. */
  readonly amount: string;
  readonly tint: string;
  readonly from: string;
  readonly by: string;
  readonly workingTimeLeft: string;
  readonly air: string;
}

export interface CupCard {
  /** Counted through the day, from 1. */
  readonly number: number;
  /** "cup 1 of 2 of this pour"; empty where the pour has one. */
  readonly series: string;
  readonly resin: string;
  readonly room: string;
  readonly mixFrom: string;
  readonly mixTo: string;
  readonly worksUntil: string;
  readonly lines: readonly CupLine[];
  /** How far the rounding is off the ratio, above 0 too much A: "+0.2 %". */
  readonly ratioOff: { readonly byCup: string; readonly byScale: string };
  readonly portions: readonly PortionLine[];
  /** The same amounts as numbers, mL and g. */
  readonly measured: Measured;
  /** Things to see to before mixing, most pressing first. */
  readonly warnings: readonly string[];
}

export function cupCard(cup: Cup, number: number, all: CupsOfPlan, shop: Shop): CupCard {
  const { clock } = all;
  const { byVolume, byMass } = cup.measured;
  const names = namesOf(shop);
  const volume = (ml: number): string => volumeText(ml, shop.units);
  const scaleDecimals = decimalsOf(shop.mixing.scaleReadsG);
  const grams = (g: number): string => massText(g, scaleDecimals);
  const fine = (g: number): string =>
    massText(g, Math.max(scaleDecimals, decimalsOf(shop.mixing.tintScaleReadsG)));
  const { a, b, tint } = byMass.showsG;
  return {
    number,
    series: cup.series ? `cup ${cup.series.number} of ${cup.series.of} of this pour` : '',
    resin: cup.resin.name,
    room: names.room(cup.room),
    mixFrom: formatTime(clock, cup.mixFrom),
    mixTo: formatTime(clock, cup.mixTo),
    worksUntil: formatTime(clock, cup.worksUntil),
    lines: [
      { what: 'A', volume: volume(byVolume.aMl), mass: grams(byMass.aG), scaleShows: grams(a) },
      { what: 'B', volume: volume(byVolume.bMl), mass: grams(byMass.bG), scaleShows: grams(b) },
      ...(cup.tint
        ? [{ what: cup.tint.name, volume: '', mass: fine(cup.tint.g), scaleShows: fine(tint) }]
        : []),
    ],
    ratioOff: { byCup: signed(byVolume.errorPercent), byScale: signed(byMass.errorPercent) },
    portions: cup.portions.map((portion) => ({
      piece: names.piece(portion.pour.piece),
      surface: surfaceName(portion.pour.step),
      amount: amountOf(portion, cup.portions.length, volume, grams),
      tint: portion.tint ? `${massText(portion.tint.g, 3)} ${portion.tint.name}` : '',
      from: formatTime(clock, portion.from),
      by: formatTime(clock, portion.to),
      workingTimeLeft:
        portion.workingMinutesLeft >= 0
          ? formatDuration(portion.workingMinutesLeft)
          : `${formatDuration(-portion.workingMinutesLeft)} TOO LATE`,
      air: airText(portion, all, shop.units),
    })),
    measured: cup.measured,
    warnings: warningsOf(cup, all, shop.units),
  };
}

/** The last portion of several is poured out, not measured. */
function amountOf(
  { ml, g, isWhatIsLeft }: Portion,
  of: number,
  volume: (ml: number) => string,
  grams: (g: number) => string,
): string {
  if (of === 1) return 'all of it';
  return isWhatIsLeft ? `what is left (about ${volume(ml)}, ${grams(g)})` : `${volume(ml)} or ${grams(g)}`;
}

function airText({ pour }: Portion, { ground }: CupsOfPlan, units: Units): string {
  const air = airMargin(pour, ground);
  const degC = Number.isNaN(air.degC) ? '' : temperatureText(air.degC, units);
  return air.marginK === null
    ? `${degC}, humidity not measured`
    : `${degC}, ${kelvins(air.marginK, units)} above the dew point`;
}

/** A difference of temperature, not a temperature. */
const kelvins = (k: number, units: Units): string =>
  units === 'us' ? `${(k * 1.8).toFixed(0)} °F` : `${k.toFixed(1)} °C`;

function warningsOf(cup: Cup, { ground }: CupsOfPlan, units: Units): string[] {
  const { resin, measured, series } = cup;
  const tolerance = ground.shop.mixing.ratioTolerancePercent;
  const allowed = resin.mix.tolerancePercent ?? tolerance;
  const off = (how: string, percent: number): string =>
    `${how} the ratio is off by ${signed(percent)}, more than the ${allowed} % that ${resin.name} allows`;
  const tight = cup.portions
    .map(({ pour }) => airMargin(pour, ground))
    .find(({ marginK, neededK }) => marginK !== null && marginK < neededK);
  const deepest = Math.max(...cup.portions.map(({ pour }) => pour.depthMm));
  const heat = heatRemark(resin, { depthMm: deepest, batchMl: mixedMl(resin, measured) });
  const late = cup.portions.some(({ workingMinutesLeft }) => workingMinutesLeft < 0);
  return [
    ...(measured.byVolume.isWithinTolerance || measured.byMass.isWithinTolerance
      ? []
      : ['ERROR: neither cup nor scale can measure so little rightly; mix more, or weigh on a finer scale']),
    ...(measured.byVolume.isWithinTolerance
      ? []
      : [`ERROR: do not measure this by the cup: ${off('there', measured.byVolume.errorPercent)}`]),
    ...(measured.byMass.isWithinTolerance
      ? []
      : [
          `ERROR: do not weigh this on the ${massText(ground.shop.mixing.scaleReadsG, 3)} scale: ${off('there', measured.byMass.errorPercent)}`,
        ]),
    ...(late
      ? ['The working time ends before this cup is poured out: mix less at a time or pour faster.']
      : []),
    ...(mixedMl(resin, measured) > resin.largestBatchMl + 1e-6
      ? [
          `This is more than the ${volumeText(resin.largestBatchMl, units)} that the maker of ${resin.name} allows in one cup.`,
        ]
      : []),
    ...(tight
      ? [
          `The air is only ${kelvins(tight.marginK ?? 0, units)} above its dew point, ${kelvins(tight.neededK, units)} are needed: the surface may blush.`,
        ]
      : []),
    ...(heat === null ? [] : [`Heat: ${heat}.`]),
    ...(series && series.number === 1
      ? [
          `This pour takes ${series.of} cups, mixed one after the other: it takes ${formatDuration((series.of - 1) * (cup.mixTo - cup.mixFrom))} longer than the plan says, unless a second person mixes.`,
        ]
      : []),
  ];
}

const decimalsOf = (mark: number): number => Math.max(0, Math.min(3, -Math.floor(Math.log10(mark) + 1e-9)));
const signed = (percent: number): string => {
  const text = Math.abs(percent).toFixed(1);
  return text === '0.0' ? '0 %' : `${percent > 0 ? '+' : '-'}${text} %`;
};
