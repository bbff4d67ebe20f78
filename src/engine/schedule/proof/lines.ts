/** The text of a proof: one step a line. `docs/proofs.md` tells what each means. */
import type { Atom } from './bounds.ts';
import type { Span } from './cliques.ts';

/** The first line of every proof. */
export const HEADING = 'pourwright proof 1';

/** Two tasks of one resource, by their places in the model. */
export interface Pair {
  readonly resource: number;
  readonly one: number;
  readonly other: number;
}

export type Step =
  | ({ readonly kind: 'order'; readonly name: string } & Pair)
  | ({ readonly kind: 'after' } & Pair)
  | { readonly kind: 'clique'; readonly spans: readonly Span[] }
  | { readonly kind: 'window'; readonly a: number; readonly b: number; readonly clause: readonly Atom[] }
  | { readonly kind: 'clause'; readonly clause: readonly Atom[] }
  | { readonly kind: 'best'; readonly starts: readonly number[]; readonly choices: readonly boolean[] }
  | { readonly kind: 'empty'; readonly assumed: readonly Atom[] };

/** A line that cannot be read: what was found, what was expected. */
export class UnreadableLine extends Error {}

export const writeAtom = (name: string, isLeast: boolean, value: number): string =>
  `${name}${isLeast ? '>=' : '<='}${value}`;

/**
 * Reads one line.
 * @param variableOf the variable of a name; undefined when it is not known
 * @throws UnreadableLine
 */
export function readLine(line: string, variableOf: (name: string) => number | undefined): Step {
  const [word, ...rest] = line.trim().split(/\s+/);
  const whole = (text: string | undefined): number => {
    if (text === undefined || !/^-?\d+$/.test(text))
      throw new UnreadableLine(`'${text ?? 'nothing'}' found, a whole number expected`);
    return Number(text);
  };
  const atom = (text: string): Atom => {
    const parts = /^([a-z][\d.]+)([<>])=(-?\d+)$/.exec(text);
    const variable = parts === null ? undefined : variableOf(parts[1]);
    if (parts === null || variable === undefined)
      throw new UnreadableLine(`'${text}' found, a bound of a known variable such as s0>=3 expected`);
    return { variable, isLeast: parts[2] === '>', value: Number(parts[3]) };
  };
  const pair = (words: readonly string[]): Pair => ({
    resource: whole(words[0]),
    one: whole(words[1]),
    other: whole(words[2]),
  });
  switch (word) {
    case 'order':
      if (!/^o\d+$/.test(rest[0] ?? ''))
        throw new UnreadableLine(`'${rest[0] ?? 'nothing'}' found, a name such as o3 expected`);
      return { kind: 'order', name: rest[0], ...pair(rest.slice(1)) };
    case 'after':
      return { kind: 'after', ...pair(rest) };
    case 'clique':
      if (rest.length % 2 === 1)
        throw new UnreadableLine(`${rest.length} numbers found, pairs of a start and a length expected`);
      return {
        kind: 'clique',
        spans: rest.flatMap((text, k) =>
          k % 2 === 0 ? [{ start: whole(text), length: whole(rest[k + 1]) }] : [],
        ),
      };
    case 'window':
      return { kind: 'window', a: whole(rest[0]), b: whole(rest[1]), clause: rest.slice(2).map(atom) };
    case 'clause':
      return { kind: 'clause', clause: rest.map(atom) };
    case 'best': {
      const bar = rest.indexOf('|');
      if (bar < 0) throw new UnreadableLine(`a '|' between starts and choices expected`);
      return {
        kind: 'best',
        starts: rest.slice(0, bar).map(whole),
        choices: rest.slice(bar + 1).map((text) => whole(text) === 1),
      };
    }
    case 'empty':
      return { kind: 'empty', assumed: rest.map(atom) };
    default:
      throw new UnreadableLine(
        `'${word}' found, one of order, after, clique, window, clause, best, empty expected`,
      );
  }
}
