/** Lines of a resin's times against temperature, on a time axis that doubles from rung to rung. */
import type { ResinTimes } from '../../../engine/index.ts';

export interface Box {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface CurvePicture {
  readonly x: (degC: number) => number;
  readonly y: (minutes: number) => number;
  readonly opens: string;
  readonly closes: string;
  readonly demold: string;
  /** Between opening and closing. */
  readonly window: string;
  readonly rungs: readonly { readonly minutes: number; readonly text: string; readonly y: number }[];
}

const RUNGS: readonly (readonly [number, string])[] = [
  [15, '15 min'],
  [30, '30 min'],
  [60, '1 h'],
  [120, '2 h'],
  [240, '4 h'],
  [480, '8 h'],
  [960, '16 h'],
  [1920, '32 h'],
  [2880, '2 days'],
  [5760, '4 days'],
  [11_520, '8 days'],
  [23_040, '16 days'],
  [46_080, '32 days'],
  [92_160, '64 days'],
];

type Point = readonly [number, number];

const line = (points: readonly Point[]): string =>
  points.map(([x, y], at) => `${at === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');

/** The temperatures at which a curve is asked: `from` to `to` every half degree. */
export const temperaturesBetween = (from: number, to: number): readonly number[] =>
  Array.from({ length: Math.max(0, Math.round((to - from) * 2)) + 1 }, (_, at) => from + at / 2);

export const curvePicture = (times: readonly ResinTimes[], box: Box): CurvePicture => {
  const first = times[0]?.degC ?? 0;
  const last = times.at(-1)?.degC ?? 1;
  const all = times.flatMap(({ opensMinutes, closesMinutes, demoldMinutes }) =>
    [opensMinutes, closesMinutes, demoldMinutes].filter((minutes) => minutes !== null),
  );
  const low = Math.log2(Math.max(1, Math.min(...all) / 1.15));
  const high = Math.log2(Math.max(2, Math.max(...all) * 1.1));
  const x = (degC: number): number =>
    box.left + ((degC - first) / Math.max(1e-9, last - first)) * (box.width - box.left - box.right);
  const y = (minutes: number): number =>
    box.height -
    box.bottom -
    ((Math.log2(minutes) - low) / (high - low)) * (box.height - box.top - box.bottom);
  const points = (pick: (times: ResinTimes) => number | null): readonly Point[] =>
    times.flatMap((each) => {
      const minutes = pick(each);
      return minutes === null ? [] : [[x(each.degC), y(minutes)] as const];
    });
  const opens = points((each) => each.opensMinutes);
  const closes = points((each) => (each.opensMinutes === null ? null : each.closesMinutes));
  return {
    x,
    y,
    opens: line(opens),
    closes: line(closes),
    demold: line(points((each) => each.demoldMinutes)),
    window: opens.length === 0 ? '' : `${line(opens)}L${line([...closes].reverse()).slice(1)}Z`,
    rungs: RUNGS.filter(([minutes]) => Math.log2(minutes) >= low && Math.log2(minutes) <= high).map(
      ([minutes, text]) => ({
        minutes,
        text,
        y: y(minutes),
      }),
    ),
  };
};
