/** Orders that are sorted again and again, each time from where they were. */

/** 0, 1, ..., n - 1: an order to begin with. */
export function upTo(n: number): Int32Array {
  const order = new Int32Array(n);
  for (let k = 1; k < n; k++) order[k] = k;
  return order;
}

/** Insertion sort of a permutation that was sorted a short while ago. */
export function sortBy(order: Int32Array, key: Int32Array): void {
  for (let k = 1; k < order.length; k++) {
    const item = order[k];
    const value = key[item];
    let j = k - 1;
    while (j >= 0 && key[order[j]] > value) {
      order[j + 1] = order[j];
      j--;
    }
    order[j + 1] = item;
  }
}
