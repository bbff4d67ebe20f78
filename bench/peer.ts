/**
 * `npm run bench:peer -- DIR... --ms N [--json] [--every K]`: Pourwright's scheduler and a lazy-clause solver (Chuffed, in the WebAssembly build of the
 * `minizinc` package) on the same instances (`.sch` with minimum and maximum lags, `.txt` job shops), in the same Chromium, with the same wall
 * time, taking turns. Every schedule of either is verified. A proof that the other's schedule contradicts ends in exit code 1.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { createServer, type ViteDevServer } from 'vite';
import { evaluate, readJobShop, readSch, verify, type Model } from '../src/engine/schedule/index.ts';
import { openBrowser } from '../tests/browser/browser.ts';
import type { Request, Run } from './peer/runs.ts';

type Status = 'optimal' | 'feasible' | 'infeasible' | 'unknown';

interface Side {
  readonly status: Status;
  readonly makespan: number | null;
  readonly msFirst: number | null;
  readonly msBest: number | null;
  readonly msTotal: number;
}

interface Line {
  readonly instance: string;
  readonly ours: Side;
  readonly peer: Side;
}

interface Instance {
  readonly name: string;
  readonly model: Model;
  readonly request: Request;
}

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const round = (ms: number): number => Math.round(ms * 10) / 10;

/** Everything the run says, each schedule verified. */
function sideOf(who: string, { name, model }: Instance, run: Run): Side {
  let best = Infinity;
  let msBest: number | null = null;
  for (const { ms, starts } of run.found) {
    const assignment = { starts, choices: [] };
    const [fault] = verify(model, assignment);
    if (fault !== undefined) throw new Error(`${name}: a schedule of ${who} breaks a rule: ${fault}`);
    const value = evaluate(model.levels[0], assignment);
    if (value >= best) continue;
    best = value;
    msBest = ms;
  }
  const has = msBest !== null;
  const status =
    run.verdict === 'infeasible'
      ? 'infeasible'
      : !has
        ? 'unknown'
        : run.verdict === 'optimal'
          ? 'optimal'
          : 'feasible';
  return {
    status,
    makespan: has ? best : null,
    msFirst: has ? round(run.found[0].ms) : null,
    msBest: msBest === null ? null : round(msBest),
    msTotal: round(run.msTotal),
  };
}

/** What the two say of one instance must fit together. */
function contradiction({ ours, peer }: Line): string | null {
  for (const [a, b] of [
    [ours, peer],
    [peer, ours],
  ]) {
    if (a.status === 'infeasible' && b.makespan !== null)
      return 'one proves what the other schedules to be infeasible';
    if (a.status === 'optimal' && b.makespan !== null && b.makespan < a.makespan!)
      return `one proves ${a.makespan} best, the other has ${b.makespan}`;
  }
  return null;
}

function argument(args: readonly string[], name: string): string | undefined {
  const at = args.indexOf(name);
  return at < 0 ? undefined : args[at + 1];
}

function instancesIn(folder: string, limitMs: number, every: number): Instance[] {
  return readdirSync(folder)
    .filter((name) => ['.sch', '.txt'].includes(extname(name)))
    .sort((a, b) => a.localeCompare(b, 'en', { numeric: true }))
    .filter((_, k) => k % every === 0)
    .map((name) => {
      const text = readFileSync(join(folder, name), 'utf8');
      const format = extname(name) === '.sch' ? 'sch' : 'job-shop';
      const model = format === 'sch' ? readSch(text) : readJobShop(text);
      return { name: `${basename(folder)}/${name.slice(0, -4)}`, model, request: { text, format, limitMs } };
    });
}

async function serve(): Promise<{ readonly server: ViteDevServer; readonly url: string }> {
  const server = await createServer({
    configFile: false,
    root: ROOT,
    logLevel: 'error',
    publicDir: join(ROOT, 'node_modules', 'minizinc', 'dist'),
    optimizeDeps: { noDiscovery: true, include: [] },
    server: { host: '127.0.0.1', port: 0, hmr: false, watch: null },
  });
  await server.listen();
  const address = server.httpServer?.address();
  if (typeof address !== 'object' || address === null) throw new Error('the server has no port');
  return { server, url: `http://127.0.0.1:${address.port}/bench/peer/page.html` };
}

const ask = (page: Page, who: 'ours' | 'peer', request: Request): Promise<Run> =>
  page.evaluate(([name, given]) => window.bench[name](given), [who, request] as const);

function median(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1];
}

const shown = (side: Side): string =>
  `${side.status.padEnd(10)} ${String(side.makespan ?? '-').padStart(6)} ` +
  `${String(side.msFirst ?? '-').padStart(8)} ${String(side.msBest ?? '-').padStart(8)}`;

function totals(lines: readonly Line[], limitMs: number): string {
  const count = (test: (line: Line) => boolean): number => lines.filter(test).length;
  const isProved = ({ status }: Side): boolean => status === 'optimal' || status === 'infeasible';
  /** How much longer ours is: below 0 is better; a schedule against none is as much better as can be. */
  const worse = ({ ours, peer }: Line): number => {
    if (ours.makespan === null) return peer.makespan === null ? 0 : Infinity;
    return peer.makespan === null ? -Infinity : (ours.makespan - peer.makespan) / Math.max(1, peer.makespan);
  };
  const both = lines.filter(({ ours, peer }) => ours.msFirst !== null && peer.msFirst !== null);
  const first = (who: 'ours' | 'peer'): number | null => median(both.map((line) => line[who].msFirst!));
  const [a, b] = [first('ours'), first('peer')];
  return [
    '',
    `${lines.length} instances, ${limitMs} ms each, in turns in one Chromium; every schedule verified`,
    `                        Pourwright      peer`,
    ...(
      [
        ['decided', (side: Side) => side.status !== 'unknown'],
        ['proved', isProved],
      ] as const
    ).map(
      ([word, test]) =>
        `${word.padEnd(22)} ${String(count(({ ours }) => test(ours))).padStart(11)} ${String(count(({ peer }) => test(peer))).padStart(9)}`,
    ),
    `median first, ms       ${String(a ?? '-').padStart(11)} ${String(b ?? '-').padStart(9)}   ratio ${a === null || b === null ? '-' : (a / b).toFixed(4)} (${both.length} with a schedule of both)`,
    `Pourwright better ${count((line) => worse(line) < 0)}, same ${count((line) => worse(line) === 0)}, worse ${count((line) => worse(line) > 0)}; worse by more than 1 %: ${count((line) => worse(line) > 0.01)}`,
    `proved by Pourwright alone ${count(({ ours, peer }) => isProved(ours) && !isProved(peer))}, by the peer alone ${count(({ ours, peer }) => isProved(peer) && !isProved(ours))}`,
    '',
  ].join('\n');
}

async function main(args: readonly string[]): Promise<number> {
  const folders = args.filter(
    (arg, k) => !arg.startsWith('--') && !['--ms', '--every'].includes(args[k - 1]),
  );
  const limitMs = Number(argument(args, '--ms') ?? '1000');
  const every = Number(argument(args, '--every') ?? '1');
  const isJson = args.includes('--json');
  if (folders.length === 0 || !folders.every(existsSync) || !(limitMs > 0) || !(every >= 1)) {
    process.stderr.write(
      'usage: DIR... --ms N [--json] [--every K]; DIR holds .sch or job-shop .txt files; K: every K-th file of each\n',
    );
    return 2;
  }
  const instances = folders.flatMap((folder) => instancesIn(folder, limitMs, every));
  const { server, url } = await serve();
  const browser = await openBrowser();
  const lines: Line[] = [];
  let wrong = 0;
  try {
    const page = await browser.newPage();
    await page.goto(url);
    await page.waitForFunction(() => 'bench' in window);
    // Both warm.
    for (const { request } of instances.slice(0, 6))
      await ask(page, 'ours', { ...request, limitMs: Math.min(300, limitMs) });
    for (const [k, instance] of instances.entries()) {
      const runs: Partial<{ ours: Side; peer: Side }> = {};
      for (const who of k % 2 === 0 ? (['ours', 'peer'] as const) : (['peer', 'ours'] as const))
        runs[who] = sideOf(
          who === 'ours' ? 'Pourwright' : 'the peer',
          instance,
          await ask(page, who, instance.request),
        );
      const line = { instance: instance.name, ours: runs.ours!, peer: runs.peer! };
      lines.push(line);
      const fault = contradiction(line);
      if (fault !== null) {
        wrong++;
        process.stderr.write(`${line.instance}: wrong: ${fault}\n`);
      }
      process.stdout.write(
        isJson
          ? `${JSON.stringify(line)}\n`
          : `${line.instance.padEnd(16)} Pourwright ${shown(line.ours)}   peer ${shown(line.peer)}\n`,
      );
    }
  } finally {
    await browser.close();
    await server.close();
  }
  if (!isJson) process.stdout.write(totals(lines, limitMs));
  return wrong === 0 ? 0 : 1;
}

process.exitCode = await main(process.argv.slice(2));
