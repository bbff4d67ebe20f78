/** Objective values in the order of their levels. */

/** Less than 0 when `a` is better: the first difference decides. */
export function compare(a: ArrayLike<number>, b: ArrayLike<number>): number {
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return a[k] - b[k];
  return 0;
}
