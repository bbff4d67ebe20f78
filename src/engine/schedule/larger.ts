/**
 * The larger of two whole numbers that differ by less than 2^31, without a branch: where one cannot foresee which it is, a processor that guesses
 * wrong loses more time than the sum takes.
 */
export function larger(a: number, b: number): number {
  const d = a - b;
  return a - (d & (d >> 31));
}
