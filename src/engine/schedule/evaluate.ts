/** The value of an objective level, plainly. */
import type { Assignment, Cost, Level, Literal } from './model.ts';

const holds = (literal: Literal, choices: readonly boolean[]): boolean =>
  choices[literal >> 1] === ((literal & 1) === 0);

function costOf(cost: Cost, { starts, choices }: Assignment): number {
  switch (cost.kind) {
    case 'late':
      return cost.weight * Math.max(0, starts[cost.start] - cost.after);
    case 'early':
      return cost.weight * Math.max(0, cost.before - starts[cost.start]);
    case 'choice':
      return holds(cost.when, choices) ? cost.weight : 0;
    case 'buckets': {
      const used = new Set<number>();
      cost.starts.forEach((start, i) => {
        if (!(cost.when?.[i] ?? []).every((literal) => holds(literal, choices))) return;
        const at = starts[start];
        for (let k = 0; k + 1 < cost.edges.length; k++)
          if (cost.edges[k] <= at && at < cost.edges[k + 1]) used.add(k);
      });
      return cost.weight * used.size;
    }
  }
}

/** The sum of a level's costs under an assignment. */
export function evaluate(level: Level, assignment: Assignment): number {
  return level.costs.reduce((sum, cost) => sum + costOf(cost, assignment), 0);
}
