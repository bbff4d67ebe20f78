/**
 * The page in which both schedulers run, each in a worker of its own and one at a time. All times are taken here, from the moment the request is sent
 * to the moment the answer arrives, the same for both.
 *
 * The peer's worker is spoken to directly, in the package's own messages: the package's door would load a second worker while the first is measured.
 * Before each measured run the worker has loaded, and has solved a small problem, untimed.
 */
import { readJobShop, readSch } from '../../src/engine/schedule/index.ts';
import { peerText } from './peer-model.ts';
import type { Found, Request, Run, Word } from './runs.ts';

/** A verdict or schedule that comes later than this share of the limit does not count. */
const GRACE = 1.02;
/** A worker that has not answered this long after the limit is ended. */
const PATIENCE_MS = 250;

/** Collects what arrives, up to the limit. */
class Record {
  private readonly begun = performance.now();
  private readonly found: Found[] = [];
  private verdict: Run['verdict'] = 'open';

  constructor(private readonly limitMs: number) {}

  private get ms(): number {
    return performance.now() - this.begun;
  }

  get isEmpty(): boolean {
    return this.found.length === 0;
  }

  schedule(starts: readonly number[]): void {
    const { ms } = this;
    if (ms <= GRACE * this.limitMs) this.found.push({ ms, starts });
  }

  proved(verdict: 'optimal' | 'infeasible'): void {
    if (this.ms <= GRACE * this.limitMs) this.verdict = verdict;
  }

  end(): Run {
    return { found: this.found, verdict: this.verdict, msTotal: this.ms };
  }
}

/** Hears a worker until the returned function is called; an error of the worker is handed to `fail`. */
function hear<T>(worker: Worker, fail: (error: Error) => void, each: (word: T) => void): () => void {
  const ear = new AbortController();
  const { signal } = ear;
  worker.addEventListener('error', (event) => fail(new Error(event.message)), { signal });
  worker.addEventListener('message', ({ data }: MessageEvent<T>) => each(data), { signal });
  return () => ear.abort();
}

let ours: Worker | null = null;

function runOurs(request: Request): Promise<Run> {
  const worker = (ours ??= new Worker(new URL('./our-worker.ts', import.meta.url), { type: 'module' }));
  return new Promise((done, fail) => {
    const record = new Record(request.limitMs);
    const stop = hear<Word>(worker, fail, (word) => {
      if (word.kind === 'found') {
        record.schedule(word.starts);
        return;
      }
      if (word.verdict !== 'open') record.proved(word.verdict);
      stop();
      done(record.end());
    });
    worker.postMessage(request, []);
  });
}

/** The messages of the package's worker that matter here. */
interface PeerWord {
  readonly type: string;
  readonly status?: string;
  readonly code?: number | null;
  readonly message?: string;
  readonly output?: { readonly json?: { readonly starts: readonly number[] } };
}

const PEER = new URL('/minizinc-worker.js', location.href).href;

/** A worker of the package, loaded and ready. */
function loadPeer(): Promise<Worker> {
  const worker = new Worker(PEER);
  return new Promise((done, fail) => {
    const stop = hear<PeerWord>(worker, fail, ({ type }) => {
      if (type !== 'ready') return;
      stop();
      done(worker);
    });
    const place = (name: string): string => new URL(name, location.href).href;
    worker.postMessage({ wasmURL: place('/minizinc.wasm'), dataURL: place('/minizinc.data') }, []);
  });
}

function askPeer(worker: Worker, text: string, limitMs: number): Promise<Run> {
  return new Promise((done, fail) => {
    const record = new Record(limitMs);
    const stop = hear<PeerWord>(worker, fail, ({ type, status, message, output }) => {
      if (type === 'solution' && output?.json !== undefined) record.schedule(output.json.starts);
      // A search that ended without any schedule is reported as this, too.
      else if (type === 'status' && status === 'OPTIMAL_SOLUTION')
        record.proved(record.isEmpty ? 'infeasible' : 'optimal');
      else if (type === 'status' && status === 'UNSATISFIABLE') record.proved('infeasible');
      else if (type === 'error') fail(new Error(`the peer: ${message ?? 'an error without words'}`));
      else if (type === 'exit') end();
    });
    const end = (): void => {
      clearTimeout(cancel);
      stop();
      done(record.end());
    };
    const cancel = setTimeout(end, limitMs + PATIENCE_MS);
    const args = `--solver chuffed -f -i --output-mode json --time-limit ${limitMs} model.mzn`.split(' ');
    worker.postMessage({ jsonStream: true, files: { 'model.mzn': text }, args }, []);
  });
}

const SMALL = readSch('1 1 0 0\n0 1 1 1 [0]\n1 1 1 2 [2]\n2 1 0\n0 1 0 0\n1 1 2 1\n2 1 0 0\n1');

async function runPeer(request: Request): Promise<Run> {
  const model = request.format === 'sch' ? readSch(request.text) : readJobShop(request.text);
  const text = peerText(model);
  const worker = await loadPeer();
  try {
    await askPeer(worker, peerText(SMALL), 10_000);
    return await askPeer(worker, text, request.limitMs);
  } finally {
    worker.terminate();
  }
}

/** Called from outside the page. */
export interface Bench {
  ours(request: Request): Promise<Run>;
  peer(request: Request): Promise<Run>;
}

declare global {
  interface Window {
    bench: Bench;
  }
}

window.bench = { ours: runOurs, peer: runPeer };
