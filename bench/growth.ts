/**
 * How time and memory grow with the size of the shop: 10 to 320 pieces from `make-shop.ts`, each in a process of its own so that nothing
 * is warm and memory is its own. Writes the table and its picture into `docs/growth.md` and `docs/growth.svg`.
 *
 * `npm run bench:growth`; `--ms N` is the wall time of solving a shop (4,000), `--sizes 10,20` chooses sizes.
 */
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { makeShop, SHOP_STARTS, shopText, type ShopMeasure } from './make-shop.ts';
import { readShop, runShop, type ShopRun } from './shop-run.ts';

const { values } = parseArgs({
  options: {
    ms: { type: 'string', default: '4000' },
    sizes: { type: 'string', default: '10,20,40,80,160,320' },
    only: { type: 'string' },
  },
});

/** Forms and people in the proportion of the six-week example. */
const measureOf = (pieces: number): ShopMeasure => ({
  pieces,
  forms: Math.max(4, Math.round(pieces * 0.3)),
  people: Math.max(2, Math.round((pieces * 3) / 40)),
  seed: 7,
});

function rowOf(run: ShopRun): string {
  const { forms, people } = makeShop(measureOf(run.pieces));
  const cells = [
    run.pieces,
    forms.reduce((sum, { count = 1 }) => sum + count, 0),
    people.length,
    run.steps,
    run.choices,
    run.msModel.toFixed(0),
    run.msFirst?.toFixed(0) ?? '-',
    run.msBest?.toFixed(0) ?? '-',
    run.first[0] ?? '-',
    run.levels[0]?.value ?? '-',
    run.msProved[0]?.toFixed(0) ?? '-',
    run.heapMB.toFixed(0),
  ];
  return `| ${cells.join(' | ')} |`;
}

function page(runs: readonly ShopRun[]): string {
  return `# How time and memory grow

Made by \`npm run bench:growth\` on ${cpus()[0].model.trim()}, Node ${process.versions.node}, one thread, each shop in a fresh
process (nothing is warm), ${values.ms} ms of solving a shop. Shops come from \`bench/make-shop.ts\`, seed 7, with forms and
people in the proportion of the six-week example. Every plan was held against all rules of its model.

| pieces | forms | people | steps | choices | model ms | first plan ms | last improvement ms | tardiness first | tardiness best | proved ms | memory MB |
|---|---|---|---|---|---|---|---|---|---|---|---|
${runs.map(rowOf).join('\n')}

"First plan" counts from the finished model on; "model" is from the read shop to it. Tardiness is weighted minutes, "proved" when
it is proved that there can be no less of it. Steps grow with the pieces, choices with pieces times people, since whoever can do a step is
an option: that is why the larger shops grow faster than a straight line of slope one. Memory is the
heap and the typed arrays at the end, without a forced collection, so an upper bound.

![First plan, model and memory over the number of pieces, both axes logarithmic](growth.svg)
`;
}

interface Curve {
  readonly name: string;
  readonly colour: string;
  readonly of: (run: ShopRun) => number | null;
}

const CURVES: readonly Curve[] = [
  { name: 'model, ms', colour: '#6b7a8f', of: (run) => run.msModel },
  { name: 'first plan, ms', colour: '#b4531f', of: (run) => run.msFirst },
  { name: 'memory, MB', colour: '#2f7f79', of: (run) => run.heapMB },
];

/** Both axes logarithmic: a straight line of slope one grows as the shop does. */
function picture(runs: readonly ShopRun[]): string {
  const [width, height, left, right, top, bottom] = [640, 400, 64, 140, 20, 48];
  const sizes = runs.map(({ pieces }) => pieces);
  const all = CURVES.flatMap(({ of }) => runs.map(of)).filter((v) => v !== null && v > 0) as number[];
  const [x0, x1] = [Math.log(Math.min(...sizes)), Math.log(Math.max(...sizes))];
  const [y0, y1] = [Math.floor(Math.log10(Math.min(...all))), Math.ceil(Math.log10(Math.max(...all)))];
  const x = (v: number): number =>
    left + ((Math.log(v) - x0) / Math.max(1e-9, x1 - x0)) * (width - left - right);
  const y = (v: number): number =>
    height - bottom - ((Math.log10(v) - y0) / Math.max(1, y1 - y0)) * (height - top - bottom);
  const text = (at: [number, number], what: string, more = ''): string =>
    `<text x="${at[0].toFixed(1)}" y="${at[1].toFixed(1)}" ${more}>${what}</text>`;
  const line = (a: [number, number], b: [number, number]): string =>
    `<line x1="${a[0].toFixed(1)}" y1="${a[1].toFixed(1)}" x2="${b[0].toFixed(1)}" y2="${b[1].toFixed(1)}" stroke="#d8d4cb"/>`;
  const parts: string[] = [];
  for (let power = y0; power <= y1; power++) {
    parts.push(line([left, y(10 ** power)], [width - right, y(10 ** power)]));
    parts.push(text([left - 8, y(10 ** power) + 4], `${10 ** power}`, 'text-anchor="end"'));
  }
  for (const size of sizes) {
    parts.push(line([x(size), top], [x(size), height - bottom]));
    parts.push(text([x(size), height - bottom + 18], `${size}`, 'text-anchor="middle"'));
  }
  parts.push(text([(left + width - right) / 2, height - 10], 'pieces', 'text-anchor="middle"'));
  for (const { name, colour, of } of CURVES) {
    const points = runs.flatMap((run): [number, number][] => {
      const value = of(run);
      return value === null || value <= 0 ? [] : [[x(run.pieces), y(value)]];
    });
    const path = points.map(([px, py]) => `${px.toFixed(1)},${py.toFixed(1)}`).join(' ');
    parts.push(`<polyline points="${path}" fill="none" stroke="${colour}" stroke-width="2.5"/>`);
    for (const [px, py] of points)
      parts.push(`<circle cx="${px.toFixed(1)}" cy="${py.toFixed(1)}" r="3.5" fill="${colour}"/>`);
    const last = points.at(-1);
    if (last) parts.push(text([last[0] + 10, last[1] + 4], name, `fill="${colour}"`));
  }
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" font-family="sans-serif" font-size="12" fill="#44403a">\n` +
    `<title>How a shop's planning grows with its pieces</title>\n<rect width="${width}" height="${height}" fill="#fffdf8"/>\n` +
    `${parts.join('\n')}\n</svg>\n`
  );
}

if (values.only !== undefined) {
  const measure = measureOf(Number(values.only));
  const run = runShop(`${measure.pieces}`, readShop(shopText(measure)), {
    now: SHOP_STARTS,
    seed: 1,
    budget: 1e12,
    ms: Number(values.ms),
    isChecked: false,
  });
  console.log(JSON.stringify(run));
} else {
  const runs = values.sizes.split(',').map((size): ShopRun => {
    const args = ['--import', 'tsx', fileURLToPath(import.meta.url), '--only', size, '--ms', values.ms];
    const run: ShopRun = JSON.parse(execFileSync(process.execPath, args, { encoding: 'utf8' }));
    console.log(rowOf(run));
    if (run.brokenModel > 0) throw new Error(`${size} pieces: ${run.brokenModel} rules broken`);
    return run;
  });
  writeFileSync(new URL('../docs/growth.md', import.meta.url), page(runs));
  writeFileSync(new URL('../docs/growth.svg', import.meta.url), picture(runs));
}
