/** What bears on each start: items by the start that they are about, in their order. */
export function byStart<T>(count: number, items: Iterable<T>, startOf: (item: T) => number): T[][] {
  const lists = Array.from({ length: count }, (): T[] => []);
  for (const item of items) lists[startOf(item)].push(item);
  return lists;
}
