/**
 * Which of the better plans that are found on the way are shown: no more of them than anyone can look at, and none that turns the shop over while
 * a calmer one may still come.
 */
import { movedSteps, type Plan } from '../../engine/plan/index.ts';

/** Between two that are shown lie this many milliseconds. */
const BETWEEN_MS = 120;
/** So long one that turns the shop over is held back: the search goes on from it, and most of what it moved comes back. */
const CALM_MS = 250;
/** Such a plan moves more than this share of the attended steps that stood. */
const MOST = 1 / 2;

/**
 * @param standing the plan that stood
 * @param begunMs when the search for a new one began
 * @returns whether a plan found at `nowMs` is shown
 */
export const makeShown = (
  standing: Plan | undefined,
  begunMs: number,
): ((found: Plan, nowMs: number) => boolean) => {
  let lastMs = Number.NEGATIVE_INFINITY;
  return (found, nowMs) => {
    if (nowMs - lastMs < BETWEEN_MS) return false;
    if (standing && nowMs - begunMs < CALM_MS && turnsOver(standing, found)) return false;
    lastMs = nowMs;
    return true;
  };
};

const turnsOver = (standing: Plan, found: Plan): boolean => {
  const stood = standing.steps.filter(
    ({ handsOnMinutes, state }) => handsOnMinutes > 0 && state === 'planned',
  );
  return movedSteps(standing, found).length > MOST * stood.length;
};
