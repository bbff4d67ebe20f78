/** A rule of the shop: what it adds to the model for the pieces at hand. One file a rule; `check/` has its twin. */
import type { Ground } from '../ground.ts';
import type { ModelBuilder } from '../model-builder.ts';
import type { PieceRoute } from '../piece-route.ts';

export type Rule = (builder: ModelBuilder, ground: Ground, routes: readonly PieceRoute[]) => void;

/** A rule that looks at one piece at a time. */
export const eachPiece =
  (rule: (builder: ModelBuilder, ground: Ground, route: PieceRoute) => void): Rule =>
  (builder, ground, routes) =>
    routes.forEach((route) => rule(builder, ground, route));
