/** Reads a plan document that came from outside; says where it is at fault, in the words in which a shop file is told. */
import * as v from 'valibot';
import { fault, readJson, shapeFaults, type Fault } from '../shop/index.ts';
import { PLAN_FORMAT, PLAN_VERSION, planSchema } from './document.ts';
import type { Plan } from './document.ts';

export type ParsedPlan =
  { readonly ok: true; readonly plan: Plan } | { readonly ok: false; readonly faults: readonly Fault[] };

/** Never throws: the answer is a plan, or every fault that was found. Of a file of another kind only that is said. */
export function parsePlan(text: string): ParsedPlan {
  const json = readJson(text);
  if (!json.ok) return json;
  const foreign = foreignFault(json.value);
  if (foreign) return { ok: false, faults: [foreign] };
  const read = v.safeParse(planSchema, json.value);
  const faults = [...json.faults, ...shapeFaults(planSchema, json.value, read.success)];
  return read.success && faults.length === 0 ? { ok: true, plan: read.output } : { ok: false, faults };
}

/** What tells that a file is no plan of this release; the rest of it need not be looked at then. */
function foreignFault(value: unknown): Fault | undefined {
  const { format, version }: Head = typeof value === 'object' && value !== null ? value : {};
  if (format !== PLAN_FORMAT) {
    return fault(['format'], format, `must be "${PLAN_FORMAT}"; this is some other kind of file`);
  }
  if (version !== PLAN_VERSION) {
    return fault(['version'], version, `must be ${PLAN_VERSION}; this plan was written by another release`);
  }
  return undefined;
}

interface Head {
  readonly format?: unknown;
  readonly version?: unknown;
}
