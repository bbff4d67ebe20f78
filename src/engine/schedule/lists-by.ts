/** The indices `0..key.length` grouped by their key in `0..count`, in one flat list: one group after the other, and where each begins. */
export function listsBy(
  key: ArrayLike<number>,
  count: number,
): [Int32Array<ArrayBuffer>, Int32Array<ArrayBuffer>] {
  const start = new Int32Array(count + 1);
  for (let k = 0; k < key.length; k++) start[key[k] + 1]++;
  for (let k = 0; k < count; k++) start[k + 1] += start[k];
  const at = start.slice();
  const list = new Int32Array(key.length);
  for (let k = 0; k < key.length; k++) list[at[key[k]]++] = k;
  return [list, start];
}

/**
 * Numbers grouped by their key in `0..count`, as `listsBy` lays out indices, in the order in which they are noted.
 * @param each notes all of them; it is called twice
 */
export function valuesBy(
  count: number,
  each: (note: (key: number, value: number) => void) => void,
): [Int32Array<ArrayBuffer>, Int32Array<ArrayBuffer>] {
  const start = new Int32Array(count + 1);
  each((key) => start[key + 1]++);
  for (let k = 0; k < count; k++) start[k + 1] += start[k];
  const at = start.slice();
  const list = new Int32Array(start[count]);
  each((key, value) => (list[at[key]++] = value));
  return [list, start];
}
