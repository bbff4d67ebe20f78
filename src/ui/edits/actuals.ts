/** What really happened, written into the shop: a step begun, a step done, a finger on the surface. */
import type { WrittenAhead } from '../../engine/plan/index.ts';
import type { Actual, Shop, TouchTest } from '../../engine/shop/index.ts';
import { changePiece, type Edit } from './edit.ts';

/** The places a step was done in, as the plan had them. */
export interface Places {
  readonly form?: string;
  readonly bench?: string;
  readonly warmBox?: string;
  readonly person?: string;
}

const withActual = (shop: Shop, piece: string, actual: Actual): Shop =>
  changePiece(shop, piece, (old) => ({
    ...old,
    // A pin has done its work once the step has begun.
    pins: old.pins.filter((pin) => pin.step !== actual.step || pin.way !== undefined),
    actuals: [...old.actuals.filter((known) => known.step !== actual.step), actual],
  }));

const knownActual = (shop: Shop, piece: string, step: string): Actual | undefined =>
  shop.pieces.find((one) => one.id === piece)?.actuals.find((actual) => actual.step === step);

/** The step is under way since `at`. */
export const beginStep = (piece: string, step: string, at: string, places: Places, says: string): Edit => ({
  says,
  apply: (shop) => withActual(shop, piece, { step, started: at, ...places }),
});

/**
 * The step ended at `at`; one that was never begun is taken to have begun at `startedAtTheLatest`. With `next`, the
 * following step begins in the same minute: a mix goes straight into its pour.
 */
export const endStep = (
  piece: string,
  step: string,
  at: string,
  startedAtTheLatest: string,
  places: Places,
  says: string,
  next?: string,
): Edit => ({
  says,
  apply: (shop) => {
    const known = knownActual(shop, piece, step);
    const ended = withActual(shop, piece, {
      started: startedAtTheLatest,
      step,
      ...places,
      ...known,
      ended: at,
    });
    return next === undefined ? ended : withActual(ended, piece, { step: next, started: at, ...places });
  },
});

/** Takes back that the step was begun or done. */
export const forgetActual = (piece: string, step: string, says: string): Edit => ({
  says,
  apply: (shop) =>
    changePiece(shop, piece, (old) => ({
      ...old,
      actuals: old.actuals.filter((actual) => actual.step !== step),
    })),
});

/** Takes back what is written down of these steps for a time that has not come; what had begun by then stays begun. */
export const forgetAhead = (
  steps: readonly WrittenAhead[],
  isAhead: (moment: string) => boolean,
  says: string,
): Edit => ({
  says,
  apply: (shop) =>
    steps.reduce(
      (changed, { piece, step }) =>
        changePiece(changed, piece, (old) => ({
          ...old,
          actuals: old.actuals.flatMap((actual) => {
            if (actual.step !== step) return actual;
            if (isAhead(actual.started)) return [];
            const { ended, ...begun } = actual;
            return ended !== undefined && isAhead(ended) ? begun : actual;
          }),
          touchTests: old.touchTests.filter((test) => test.step !== step || !isAhead(test.at)),
        })),
      shop,
    ),
});

/** A finger on the surface of a seal, layer or coat. */
export const touchSurface = (
  piece: string,
  step: string,
  at: string,
  found: TouchTest['found'],
  says: string,
): Edit => ({
  says,
  apply: (shop) =>
    changePiece(shop, piece, (old) => ({
      ...old,
      touchTests: [
        ...old.touchTests.filter((test) => test.step !== step || test.at !== at),
        { step, at, found },
      ],
    })),
});
