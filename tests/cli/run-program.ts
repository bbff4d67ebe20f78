/** Runs the real program in a process of its own, as `npm run plan` and the others do. */
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export interface Outcome {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** `words` follow the program's name; `input` goes to its standard input. */
export const pourwright = (words: readonly string[], input = ''): Promise<Outcome> =>
  run(process.execPath, ['src/cli/pourwright.mjs', ...words], input);

/** A line of the shell, in the package's folder. */
export const shell = (line: string): Promise<Outcome> => run('bash', ['-o', 'pipefail', '-c', line], '');

function run(program: string, words: readonly string[], input: string): Promise<Outcome> {
  return new Promise((resolve, reject) => {
    const child = spawn(program, words, { cwd: ROOT });
    let out = '';
    let err = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text));
    child.stderr.setEncoding('utf8').on('data', (text: string) => (err += text));
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
    child.stdin.on('error', () => {});
    child.stdin.end(input);
  });
}
