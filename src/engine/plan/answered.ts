/** A plan together with the model it answers, kept as long as the plan lives: what questions about it start from. */
import type { Ground, ModelBuilder, PieceRoute, Reason } from '../routing/index.ts';
import { makeOracle } from '../schedule/index.ts';
import type { Assignment, Model, Oracle, Start } from '../schedule/index.ts';
import type { Shop } from '../shop/index.ts';
import type { Plan } from './document.ts';

/** A routed shop with its model. */
export interface Routed {
  readonly ground: Ground;
  readonly pieces: readonly PieceRoute[];
  readonly builder: ModelBuilder;
  readonly model: Model;
}

export interface Answered {
  readonly ground: Ground;
  readonly pieces: readonly PieceRoute[];
  readonly model: Model;
  readonly reasons: readonly Reason[];
  readonly answer: Assignment;
  /** The same with every wish let go: what only the rules forbid. */
  readonly unwishing: Assignment;
  readonly oracle: () => Oracle;
  /** The starts of pinned blocks as they are without their pins. */
  readonly unpinned: ReadonlyMap<number, Start>;
}

const known = new WeakMap<Plan, { readonly shop: Shop; readonly answered: Answered }>();

export function recall(shop: Shop, plan: Plan): Answered | undefined {
  const found = known.get(plan);
  return found?.shop === shop ? found.answered : undefined;
}

export function remember(shop: Shop, plan: Plan, routed: Routed, answer: Assignment): Answered {
  const { ground, pieces, model, builder } = routed;
  let oracle: Oracle | null = null;
  const answered: Answered = {
    ground,
    pieces,
    model,
    reasons: builder.reasons,
    answer,
    unwishing: {
      starts: answer.starts,
      choices: answer.choices.map((value, choice) => value && !builder.wishes.has(choice)),
    },
    oracle: () => (oracle ??= makeOracle(model, answer)),
    unpinned: builder.unfixed,
  };
  known.set(plan, { shop, answered });
  return answered;
}
