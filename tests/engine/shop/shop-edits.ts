/** Shops for the tests: the market example, with single values of the file replaced. */
import { readFileSync } from 'node:fs';
import { readShop, type Fault } from '../../../src/engine/shop/index.ts';

export const exampleText = (name: string): string =>
  readFileSync(new URL(`../../../examples/${name}.shop.json`, import.meta.url), 'utf8');

const MARKET: unknown = JSON.parse(exampleText('market-week'));

type Container = Record<string, unknown>;

/** The market shop's file with each `path` (as in `resins[0].mix.a`) set to its value; `undefined` takes it out. */
export function edited(edits: Readonly<Record<string, unknown>>): unknown {
  const file = structuredClone(MARKET);
  for (const [path, value] of Object.entries(edits)) {
    const keys = path.replaceAll(/\[(\d+)\]/g, '.$1').split('.');
    const last = keys.pop() ?? '';
    const owner = keys.reduce((at, key) => at[key] as Container, file as Container);
    if (value !== undefined) owner[last] = value;
    else if (Array.isArray(owner)) owner.splice(Number(last), 1);
    else delete owner[last];
  }
  // A file holds no holes and no NaN.
  return JSON.parse(JSON.stringify(file));
}

/** The faults of the edited market shop; none when it is sound. */
export function faultsOf(edits: Readonly<Record<string, unknown>>): readonly Fault[] {
  const read = readShop(edited(edits));
  return read.ok ? [] : read.faults;
}

/** The warnings of the edited market shop, which must be sound. */
export function warningsOf(edits: Readonly<Record<string, unknown>>): readonly Fault[] {
  const read = readShop(edited(edits));
  if (!read.ok) throw new Error(`not sound: ${JSON.stringify(read.faults)}`);
  return read.warnings;
}
