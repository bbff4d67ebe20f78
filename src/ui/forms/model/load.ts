/** How much of a bench or warm box is taken over time. */
import type { Minute } from '../../clock/index.ts';

export interface Use {
  readonly from: Minute;
  readonly to: Minute;
  readonly amount: number;
}

/** From `at` on, `amount` is taken. */
export interface LoadStep {
  readonly at: Minute;
  readonly amount: number;
}

/** The sum of all uses as a step function, without steps that change nothing. Uses are half-open. */
export const loadOf = (uses: readonly Use[]): readonly LoadStep[] => {
  const changes = new Map<Minute, number>();
  for (const { from, to, amount } of uses) {
    if (to <= from) continue;
    changes.set(from, (changes.get(from) ?? 0) + amount);
    changes.set(to, (changes.get(to) ?? 0) - amount);
  }
  let amount = 0;
  const steps: LoadStep[] = [];
  for (const at of [...changes.keys()].sort((a, b) => a - b)) {
    const change = changes.get(at) ?? 0;
    if (Math.abs(change) < 1e-9) continue;
    amount += change;
    steps.push({ at, amount: Math.abs(amount) < 1e-6 ? 0 : amount });
  }
  return steps;
};

/** Puts each stretch into the first row where it does not meet another; returns a row per stretch, in order given. */
export const rowsOf = (
  stretches: readonly { readonly from: Minute; readonly to: Minute }[],
): readonly number[] => {
  const order = stretches.map((_, index) => index).sort((a, b) => stretches[a].from - stretches[b].from);
  const rowEnds: Minute[] = [];
  const rows = stretches.map(() => 0);
  for (const index of order) {
    const { from, to } = stretches[index];
    const free = rowEnds.findIndex((end) => end <= from);
    const row = free < 0 ? rowEnds.length : free;
    rowEnds[row] = to;
    rows[index] = row;
  }
  return rows;
};
