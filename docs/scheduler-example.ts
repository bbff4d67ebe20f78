/** Two boards of two layers, one form, one pair of hands: `npx tsx docs/scheduler-example.ts`. Times are minutes. */
import { pathToFileURL } from 'node:url';
import { constantLag, solve, tableMap, verify, type Model } from 'pourwright/schedule';

const DAY = 1440;
const DAYS = 4;
const WORK = 15;

/** A quarter of an hour's work may begin from 8:00 to 11:45 and from 13:00 to 16:45. */
const hours = Int32Array.from(
  Array.from({ length: DAYS }, (_, day) =>
    [480, 720 - WORK + 1, 780, 1020 - WORK + 1].map((t) => day * DAY + t),
  ).flat(),
);

/** When a layer poured at s is tacky: after 4 h by day, but it cures a fifth slower from 18:00 to 6:00. */
const speed = (t: number): number => (t % DAY < 360 || t % DAY >= 1080 ? 0.8 : 1);
const cured = [0];
for (let t = 0; t < (DAYS + 1) * DAY; t++) cured.push(cured[t] + speed(t));
const tacky = tableMap(
  Int32Array.from({ length: DAYS * DAY }, (_, s) => cured.findIndex((age) => age >= cured[s] + 240)),
);

const steps = (board: number): readonly number[] => [0, 1, 2].map((step) => 3 * board + step);
const boards = ['oak', 'ash'].map((name, b) => {
  const [first, second, demold] = steps(b);
  return { name, first, second, demold };
});

export const model: Model = {
  starts: boards.flatMap(({ name }) =>
    ['first layer', 'second layer', 'demold'].map((step) => ({
      name: `${name}, ${step}`,
      earliest: 0,
      latest: DAYS * DAY,
    })),
  ),
  choices: [],
  lags: boards.flatMap(({ first, second, demold }) => [
    { from: first, to: second, kind: 'least' as const, map: tacky },
    { from: first, to: second, kind: 'most' as const, map: constantLag(480) },
    { from: second, to: demold, kind: 'least' as const, map: constantLag(720) },
  ]),
  openings: [...steps(0), ...steps(1)].map((start) => ({ start, allowed: hours })),
  clauses: [],
  resources: [
    {
      name: 'form',
      capacity: Int32Array.of(0, 1),
      tasks: boards.map(({ first, demold }) => ({
        from: first,
        to: demold,
        until: constantLag(WORK),
        amount: 1,
      })),
    },
    {
      name: 'hands',
      capacity: Int32Array.of(0, 1),
      tasks: [...steps(0), ...steps(1)].map((s) => ({ from: s, to: s, until: constantLag(WORK), amount: 1 })),
    },
  ],
  exclusions: [],
  levels: [
    {
      name: 'lateness',
      costs: boards.map(({ demold }, b) => ({
        kind: 'late' as const,
        start: demold,
        after: DAY + 600,
        weight: 1 + b,
      })),
    },
  ],
  reasons: 0,
};

/** The outcome in words. */
export function report(): string[] {
  const outcome = solve(model, { seed: 1, budget: 1_000_000 });
  if (!('best' in outcome)) return [outcome.status];
  const { best, status, levels } = outcome;
  if (verify(model, best).length > 0) throw new Error('the schedule breaks a rule');
  const lines = model.starts.map(({ name }, s) => {
    const at = best.starts[s];
    const clock = [Math.floor((at % DAY) / 60), at % 60].map((n) => String(n).padStart(2, '0')).join(':');
    return `day ${Math.floor(at / DAY) + 1} ${clock}  ${name}`;
  });
  return [...lines, `${status}: ${levels[0].value} weighted minutes late`];
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href)
  console.log(report().join('\n'));
