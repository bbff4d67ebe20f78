/** What is wrong in a shop file, told so that its maker can mend it: where, what stands there, what would be right. */

export interface Fault {
  /** Where in the file, such as `resins[2].tackOpensMinutes`; for text that is no JSON, `line 3, column 7`. */
  readonly path: string;
  /** What stands there, shortened. */
  readonly found: string;
  /** What would be right. */
  readonly message: string;
}

export type PathKey = string | number;

/** `['resins', 2, 'mix']` as `resins[2].mix`; the file as a whole is `shop file`. */
export function pathText(keys: readonly PathKey[]): string {
  const text = keys
    .map((key) => {
      if (typeof key === 'number') return `[${key}]`;
      return /^[A-Za-z_$][\w$]*$/.test(key) ? `.${key}` : `[${JSON.stringify(shorten(key))}]`;
    })
    .join('');
  return text === '' ? 'shop file' : text.replace(/^\./, '');
}

const LONGEST = 60;
const shorten = (text: string): string => (text.length > LONGEST ? `${text.slice(0, LONGEST - 1)}…` : text);

/** A value as it stands in the file, short enough for one line. */
export function show(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (Array.isArray(value))
    return value.length === 1 ? 'a list of 1 entry' : `a list of ${value.length} entries`;
  if (typeof value === 'object' && value !== null) return 'an object { … }';
  return typeof value === 'string' ? JSON.stringify(shorten(value)) : String(value);
}

export const fault = (keys: readonly PathKey[], found: unknown, message: string): Fault => ({
  path: pathText(keys),
  found: show(found),
  message,
});

/** `"a", "b" and "c"`; long lists are cut. */
export function listOf(words: readonly string[]): string {
  if (words.length === 0) return 'none';
  const quoted = words.slice(0, 12).map((word) => JSON.stringify(word));
  if (words.length > 12) return `${quoted.join(', ')} and ${words.length - 12} more`;
  return quoted.length === 1
    ? quoted[0]
    : `${quoted.slice(0, -1).join(', ')} and ${quoted[quoted.length - 1]}`;
}

/** The word most like the given one, if any is near enough to be a slip of the pen. */
export function nearest(word: string, words: readonly string[]): string | undefined {
  const wanted = word.slice(0, LONGEST).toLowerCase();
  let best: string | undefined;
  let least = Math.max(2, Math.floor(wanted.length / 3)) + 1;
  for (const each of words) {
    const distance = editDistance(wanted, each.toLowerCase());
    if (distance < least) {
      least = distance;
      best = each;
    }
  }
  return best;
}

/** Levenshtein (1965): the least number of letters put in, taken out or exchanged. */
function editDistance(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, i) => i);
  for (let i = 1; i <= from.length; i++) {
    const next = [i];
    for (let j = 1; j <= to.length; j++) {
      const exchanged = row[j - 1] + (from[i - 1] === to[j - 1] ? 0 : 1);
      next.push(Math.min(exchanged, row[j] + 1, next[j - 1] + 1));
    }
    row = next;
  }
  return row[to.length];
}
