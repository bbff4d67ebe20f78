/** The plan that would follow if the shop became another one: made while that may still come to nothing. */
import type { Shop } from '../../engine/shop/index.ts';
import type { Engine, Planned, PlanRequest } from '../engine/index.ts';

export interface Foreseen {
  /** Has the plan made; resolves once that is done. */
  make(request: PlanRequest): Promise<void>;
  /** Resolves once the plan for this shop is made; null where none is. */
  doneFor(shop: Shop): Promise<void> | null;
  /**
   * Gives away what was made, at once or when it is done, and forgets it. It counts for the same shop, standing plan and minute only, and when
   * it keeps every rule.
   */
  take(request: PlanRequest, use: (found: Planned) => void): void;
}

export const makeForeseen = (engine: Engine): Foreseen => {
  let last: {
    readonly request: PlanRequest;
    readonly done: Promise<void>;
    planned: Planned | null;
  } | null = null;
  return {
    make(request) {
      const done = engine.foresee(request).then(
        (found) => void (mine.planned = found),
        () => undefined,
      );
      const mine: NonNullable<typeof last> = { request, done, planned: null };
      last = mine;
      return done;
    },
    doneFor: (shop) => (last?.request.shop === shop ? last.done : null),
    take({ shop, standing, now }, use) {
      const made = last;
      last = null;
      if (made?.request.shop !== shop || made.request.standing !== standing || made.request.now !== now)
        return;
      const give = (): void => {
        if (made.planned) use(made.planned);
      };
      if (made.planned) give();
      else void made.done.then(give);
    },
  };
};
