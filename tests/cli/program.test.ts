/** The whole program from outside: words in, text and an exit code out. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as v from 'valibot';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { planSchema, type Plan } from '../../src/engine/plan/document.ts';
import type { ShopFile } from '../../src/engine/shop/index.ts';
import { pourwright, ROOT, shell, type Outcome } from './run-program.ts';

const NOW = '2026-11-25T08:00';
/** Enough for a plan of every example; what more would gain is for the benches. */
const BUDGET = '200000';
/** The moment and the budget of every plan that is made here. */
const PLANNING = ['--now', NOW, '--budget', BUDGET];
const MARKET = 'examples/market-week.shop.json';
const COLD = 'examples/cold-garage.shop.json';
const EXAMPLES = ['evening-board', 'market-week', 'cold-garage', 'six-weeks'].map(
  (name) => `examples/${name}.shop.json`,
);

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'pourwright-cli-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Writes a file for the program to read; returns its path. */
function file(name: string, content: string): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

const readPlan = (text: string): Plan => v.parse(planSchema, JSON.parse(text));
const planJson = (shop: string, ...more: string[]) =>
  pourwright(['plan', shop, '--json', ...(more.includes('--budget') ? ['--now', NOW] : PLANNING), ...more]);

const exampleOf = (shop: string): ShopFile => JSON.parse(readFileSync(join(ROOT, shop), 'utf8'));

const plans = new Map<string, Promise<Outcome>>();
/** The plan document of an example, made once for all tests. */
function examplePlan(shop: string): Promise<Outcome> {
  const made = plans.get(shop) ?? planJson(shop);
  plans.set(shop, made);
  return made;
}

describe('plan --json', () => {
  test.each(EXAMPLES)('%s: prints a plan document and nothing else, with every piece in it', async (shop) => {
    const { code, out, err } = await examplePlan(shop);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const plan = readPlan(out);
    const pieces = (exampleOf(shop).pieces ?? []).map(({ id }) => id);
    expect(plan.pieces.map(({ piece }) => piece).sort()).toEqual(pieces.sort());
    expect(plan.now.slice(0, 16)).toBe(NOW);
    expect(out.endsWith('}\n')).toBe(true);
  });

  test('the same shop, moment, seed and budget give the same bytes', async () => {
    const [first, second] = await Promise.all([examplePlan(MARKET), planJson(MARKET)]);
    expect(second.out).toBe(first.out);
  });

  test('the seed and the budget that were given stand in the plan', async () => {
    const plan = readPlan((await planJson(EXAMPLES[0], '--seed', '5', '--budget', '2000')).out);
    expect([plan.seed, plan.budget]).toEqual([5, 2000]);
  });

  test('a shop can be piped in, and its plan piped on to the checker', async () => {
    const { code, out } = await shell(
      `cat ${EXAMPLES[0]} | node src/cli/pourwright.mjs plan - --json ${PLANNING.join(' ')} | node src/cli/pourwright.mjs check ${EXAMPLES[0]} -`,
    );
    expect({ code, out }).toEqual({ code: 0, out: '' });
  });
});

describe('plan', () => {
  test.each(EXAMPLES)('%s: the page keeps to 100 columns and uses no colour in a pipe', async (shop) => {
    const { out } = await pourwright(['plan', shop, ...PLANNING]);
    expect(out.split('\n').filter((line) => line.length > 100)).toEqual([]);
    expect(out).not.toContain('\u001B');
  });

  test('today comes first, then tomorrow, then the forms with the moment each frees up', async () => {
    const { out } = await pourwright(['plan', MARKET, ...PLANNING]);
    const places = [
      'Today, Wed 25 Nov',
      'Tomorrow, Thu 26 Nov',
      'Fri 27 Nov',
      'Forms',
      'frees up',
      'How good',
    ].map((text) => out.indexOf(text));
    expect(places.every((place) => place >= 0)).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  test('every hands-on step of the plan stands on the page at its time', async () => {
    const [{ out: page }, { out: json }] = await Promise.all([
      pourwright(['plan', EXAMPLES[0], ...PLANNING]),
      examplePlan(EXAMPLES[0]),
    ]);
    const attended = readPlan(json).steps.filter(({ handsOnMinutes }) => handsOnMinutes > 0);
    const times = [...page.matchAll(/^ {2}(\d{2}:\d{2}) {2}/gm)].map(([, time]) => time);
    const ready = readPlan(json).steps.filter(({ kind }) => kind === 'ready');
    expect(times.sort()).toEqual([...attended, ...ready].map(({ start }) => start.slice(11, 16)).sort());
    expect(attended.length).toBeGreaterThan(5);
  });

  test('a reader that stops after the first line is no fault', async () => {
    const { code, out, err } = await shell(
      `node src/cli/pourwright.mjs plan ${EXAMPLES[0]} ${PLANNING.join(' ')} | head -n 1`,
    );
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out.split('\n')).toHaveLength(2);
  });
});

describe('a shop that cannot be planned', () => {
  test('one whose only person has no hours is told so, with exit code 1 and no stack', async () => {
    const shop = exampleOf(EXAMPLES[0]);
    const closed: ShopFile = { ...shop, closures: [{ from: '2026-01-01', to: '2030-01-01' }] };
    const path = file('closed.shop.json', JSON.stringify(closed));
    const { code, out, err } = await pourwright(['plan', path, ...PLANNING]);
    expect({ code, err }).toEqual({ code: 1, err: '' });
    expect(out).toContain('No plan can exist.');
    expect(out).toContain(shop.pieces?.[0].name);
  });

  test('a budget that is too small for any plan ends with exit code 3, or with a plan', async () => {
    const { code, out } = await planJson(MARKET, '--budget', '1');
    const { status, steps } = readPlan(out);
    const isPlanned = status === 'feasible' || status === 'optimal';
    expect({ code, status: isPlanned ? 'planned' : status }).toEqual(
      code === 3 ? { code: 3, status: 'unknown' } : { code: 0, status: 'planned' },
    );
    expect(steps.length > 0).toBe(isPlanned);
  });
});

describe('check', () => {
  test.each(EXAMPLES)('%s: finds nothing wrong with the plan that was made', async (shop) => {
    const { out } = await examplePlan(shop);
    expect(await pourwright(['check', shop, '-'], out)).toEqual({ code: 0, out: '', err: '' });
  });

  test('prints a line for every broken rule and exits with 1', async () => {
    const plan = readPlan((await examplePlan(MARKET)).out);
    const steps = plan.steps.map((step) =>
      step.kind === 'pour' ? { ...step, start: '2026-11-26T03:00Z', end: '2026-11-26T03:10Z' } : step,
    );
    const path = file('broken.plan.json', JSON.stringify({ ...plan, steps }));
    const { code, out, err } = await pourwright(['check', MARKET, path]);
    expect({ code, err }).toEqual({ code: 1, err: '' });
    const lines = out.trimEnd().split('\n');
    expect(lines.length).toBeGreaterThan(1);
    for (const line of lines) expect(line).toMatch(/^[a-z-]+: .+/);
    for (const piece of plan.pieces) expect(out).toContain(piece.piece);
  });
});

describe('why and promise', () => {
  test('why tells the chain of a step, also from a saved plan', async () => {
    const path = file('market.plan.json', (await examplePlan(MARKET)).out);
    const { code, out, err } = await pourwright(['why', MARKET, 'curlew', 'ready', '--plan', path]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out.trimEnd().split('\n').length).toBeGreaterThan(1);
  });

  test('promise gives a moment after now, in words and as a document', async () => {
    const words = ['promise', EXAMPLES[0], exampleOf(EXAMPLES[0]).recipes[0].id, '300x200', ...PLANNING];
    const [page, json] = await Promise.all([pourwright(words), pourwright([...words, '--json'])]);
    expect([page.code, json.code]).toEqual([0, 0]);
    expect(page.out).toMatch(/: ready \w{3} \d{1,2} \w{3} \d{2}:\d{2}\n/);
    const { ready, piece, plan } = v.parse(
      v.strictObject({ ready: v.string(), piece: v.string(), plan: planSchema }),
      JSON.parse(json.out),
    );
    expect(Date.parse(ready)).toBeGreaterThan(Date.parse(`${NOW}Z`));
    expect(plan.pieces.find((one) => one.piece === piece)?.ready).toBe(ready);
  });
});

describe('help', () => {
  const commands = ['plan', 'check', 'why', 'promise', 'serve', 'help'];

  test('lists every command and what the exit codes mean', async () => {
    const { code, out, err } = await pourwright(['help']);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    for (const command of commands) expect(out).toMatch(new RegExp(`^  ${command} +\\w`, 'm'));
    expect(out).toContain('exit codes');
  });

  test.each(commands)('%s explains itself', async (command) => {
    const [asOption, asCommand] = await Promise.all([
      pourwright([command, '--help']),
      pourwright(['help', command]),
    ]);
    expect(asOption.code).toBe(0);
    expect(asOption.out).toContain(`usage: pourwright ${command}`);
    expect(asOption.out).toBe(asCommand.out);
  });

  test('npm scripts call the same program', async () => {
    const { code, out } = await shell('npm run --silent plan -- --help');
    expect(code).toBe(0);
    expect(out).toContain('usage: pourwright plan FILE');
  });
});

describe('what cannot be used is refused with exit code 2, on standard error, without a stack', () => {
  const cases: readonly (readonly [string, () => string[] | Promise<string[]>, string])[] = [
    ['no command', () => [], 'usage: pourwright COMMAND'],
    ['an unknown command', () => ['frob'], '"frob" is not a command'],
    ['an unknown option', () => ['plan', MARKET, '--fast'], '--fast is not an option of "plan"'],
    ['a missing operand', () => ['check', MARKET], 'PLAN is missing'],
    [
      'a file that is not there',
      () => ['plan', 'nowhere.shop.json'],
      'nowhere.shop.json: there is no such file',
    ],
    ['a folder', () => ['plan', 'examples'], 'examples: this is a folder'],
    ['a bad seed', () => ['plan', MARKET, '--seed', '-1'], '--seed: found "-1"'],
    ['a bad budget', () => ['plan', MARKET, '--budget', 'lots'], '--budget: found "lots"'],
    ['a bad moment', () => ['plan', MARKET, '--now', 'tomorrow'], '--now: found "tomorrow"'],
    [
      'text that is no JSON',
      () => ['plan', file('torn.shop.json', '{ "format": ')],
      'cannot be used as a shop file',
    ],
    [
      'a shop with a fault',
      () => ['plan', file('faulty.shop.json', '{"format":"pourwright.shop","version":1}')],
      'rooms',
    ],
    [
      'a shop file where a plan is needed',
      () => ['check', MARKET, MARKET],
      'format: found "pourwright.shop"; must be "pourwright.plan"; this is some other kind of file',
    ],
    [
      'a plan with faults',
      () => [
        'check',
        MARKET,
        file('faulty.plan.json', '{"format":"pourwright.plan","version":1,"steps":[{"kind":"pore"}]}'),
      ],
      'steps[0].kind: found "pore"; must be one of prepare, mix',
    ],
    [
      'the plan of another shop',
      async () => ['mix', COLD, '--plan', file('market.plan.json', (await examplePlan(MARKET)).out)],
      'found a plan with the piece "curlew", which the shop file does not have',
    ],
    ['two documents at once', () => ['plan', MARKET, '--json', '--ics'], '--json and --ics: one thing'],
    [
      'a day without a run sheet',
      () => ['plan', MARKET, '--day', '2026-11-26'],
      'it needs --sheet beside it',
    ],
    [
      'an unknown piece',
      () => ['why', MARKET, 'nobody', 'ready'],
      'PIECE: found "nobody", needs one of curlew',
    ],
    ['an unknown recipe', () => ['promise', MARKET, 'nothing', '300x200'], 'RECIPE: found "nothing"'],
    ['a bad size', () => ['promise', MARKET, 'river-board', 'big'], 'SIZE: found "big"'],
    ['help for nothing', () => ['help', 'frob'], '"frob" is not a command'],
    ['a bad port', () => ['serve', '--port', '99999'], '--port: found "99999"'],
  ];

  test.each(cases)('%s', async (_, words, message) => {
    const { code, out, err } = await pourwright(await words());
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(message);
    expect(err).not.toMatch(/^\s+at /m);
  });
});
