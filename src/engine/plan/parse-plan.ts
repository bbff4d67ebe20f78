/** Reads a plan document that came from outside; says where it is at fault. */
import * as v from 'valibot';
import { planSchema } from './document.ts';
import type { Plan } from './document.ts';

export interface PlanFault {
  readonly path: string;
  /** What stands there, short. */
  readonly found: string;
  /** What would be right. */
  readonly message: string;
}

const LONGEST = 60;
const shortened = (text: string): string => (text.length > LONGEST ? `${text.slice(0, LONGEST)}...` : text);

export type ParsedPlan =
  { readonly ok: true; readonly plan: Plan } | { readonly ok: false; readonly faults: readonly PlanFault[] };

export function parsePlan(text: string): ParsedPlan {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return {
      ok: false,
      faults: [{ path: '', found: shortened(text), message: `not a JSON document: ${message}` }],
    };
  }
  const read = v.safeParse(planSchema, json);
  if (read.success) return { ok: true, plan: read.output };
  return {
    ok: false,
    faults: read.issues.map((issue) => ({
      path: v.getDotPath(issue) ?? '',
      found: shortened(issue.received),
      message: issue.message,
    })),
  };
}
