/** From the text of a shop file to the shop, or to everything that is wrong with it. */
import * as v from 'valibot';
import { draftOf } from './draft.ts';
import { fault, pathText, show, type Fault } from './faults.ts';
import { readJson } from './json-text.ts';
import { migrate } from './migrate.ts';
import { referenceFaults } from './references.ts';
import { shopSchema, type Shop } from './schema/shop.ts';
import { judge } from './sense/index.ts';
import { shapeFaults } from './shape.ts';

export type ParsedShop =
  | { readonly ok: true; readonly shop: Shop; readonly warnings: readonly Fault[] }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/**
 * Reads a shop file of this or an older version. Never throws: whatever the text, the answer is a shop with every
 * default filled in (and warnings where a value is legal but odd), or every fault that was found, each with its
 * path, what stands there and what would be right.
 */
export function parseShop(text: string): ParsedShop {
  const json = readJson(text);
  return json.ok ? readShop(json.value, json.faults) : json;
}

/** The same for a file that is a value already. */
export function readShop(value: unknown, slips: readonly Fault[] = []): ParsedShop {
  const migrated = migrate(value);
  if (!migrated.ok) return migrated;
  const draft = draftOf(migrated.value);
  const read = v.safeParse(shopSchema, migrated.value);
  const shape = shapeFaults(shopSchema, migrated.value, read.success);
  const faults: Fault[] = [...slips, ...shape, ...referenceFaults(draft)];
  const warnings: Fault[] = [];
  judge(draft, {
    wrong: (path, found, message) => void faults.push(fault(path, found, message)),
    odd: (path, found, message) => void warnings.push(fault(path, found, message)),
  });
  if (faults.length > 0) return { ok: false, faults };
  if (read.success) return { ok: true, shop: read.output, warnings };
  return { ok: false, faults: read.issues.map((issue) => schemaFault(issue)) };
}

/** The schema's own word, for a file that it refuses though nothing above has found why. */
function schemaFault(issue: v.BaseIssue<unknown>): Fault {
  const keys = (issue.path ?? []).map(({ key }) => (typeof key === 'number' ? key : String(key)));
  return { path: pathText(keys), found: show(issue.input), message: issue.message };
}
