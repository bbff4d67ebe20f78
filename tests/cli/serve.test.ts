/** `npm start`: the demo's plan, an address that answers, and a clean end. */
import { spawn } from 'node:child_process';
import { expect, test } from 'vitest';
import { pourwright, ROOT } from './run-program.ts';

interface Serving {
  readonly text: string;
  readonly address: string;
  /** Ctrl-C; resolves to the exit code. */
  stop(): Promise<number | null>;
}

/** Starts the program and waits until it says where it is. */
function serve(port: number): Promise<Serving> {
  const words = ['src/cli/pourwright.mjs', 'serve', '--port', String(port), '--budget', '20000'];
  const child = spawn(process.execPath, words, { cwd: ROOT });
  const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
  return new Promise((resolve, reject) => {
    let text = '';
    const hear = (more: string) => {
      text += more;
      const address = /Pourwright is at (http\S+)/.exec(text)?.[1];
      if (address === undefined) return;
      resolve({
        text,
        address,
        stop: () => {
          child.kill('SIGINT');
          return ended;
        },
      });
    };
    child.stdout.setEncoding('utf8').on('data', hear);
    child.stderr.setEncoding('utf8').on('data', hear);
    void ended.then((code) => reject(new Error(`ended with ${code} before it served:\n${text}`)));
  });
}

test('the demo is planned and the app served; a second one takes the next port; Ctrl-C ends both with 0', async () => {
  const first = await serve(46_211);
  expect(first.text).toMatch(/^Larkmoor Boards, as of /);
  expect(await (await fetch(first.address)).text()).toContain('<div id="app">');
  const second = await serve(46_211);
  expect(second.address).not.toBe(first.address);
  expect((await fetch(second.address)).status).toBe(200);
  expect(await Promise.all([first.stop(), second.stop()])).toEqual([0, 0]);
}, 120_000);

test('a host that is not this machine is refused and said', async () => {
  // RFC 5737: 192.0.2.0/24 is kept for examples, so no machine has a number in it.
  const { code, err } = await pourwright(['serve', '--host', '192.0.2.1', '--budget', '20000']);
  expect(code).toBe(2);
  expect(err).toContain('--host: found "192.0.2.1", needs a name or number of this machine');
}, 120_000);
