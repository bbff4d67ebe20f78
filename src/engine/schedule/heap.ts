/** A binary heap of the numbers 0 to n - 1, the one with the greatest key on top; each is in it once at most. */
export class Heap {
  private readonly items: Int32Array;
  private readonly place: Int32Array;
  private size = 0;

  constructor(
    private readonly key: Float64Array,
    n: number,
  ) {
    this.items = new Int32Array(n);
    this.place = new Int32Array(n).fill(-1);
  }

  get isEmpty(): boolean {
    return this.size === 0;
  }

  clear(): void {
    this.place.fill(-1);
    this.size = 0;
  }

  /** Puts x in unless it is there. */
  insert(x: number): void {
    if (this.place[x] >= 0) return;
    this.items[this.size] = x;
    this.place[x] = this.size;
    this.up(this.size++);
  }

  /** Its key has grown. */
  raised(x: number): void {
    if (this.place[x] >= 0) this.up(this.place[x]);
  }

  /** Takes the top out; -1 when the heap is empty. */
  pop(): number {
    if (this.size === 0) return -1;
    const x = this.items[0];
    this.place[x] = -1;
    const last = this.items[--this.size];
    if (this.size > 0) {
      this.items[0] = last;
      this.place[last] = 0;
      this.down(0);
    }
    return x;
  }

  private up(from: number): void {
    const { items, place, key } = this;
    let k = from;
    const x = items[k];
    while (k > 0) {
      const parent = (k - 1) >> 1;
      if (key[items[parent]] >= key[x]) break;
      items[k] = items[parent];
      place[items[k]] = k;
      k = parent;
    }
    items[k] = x;
    place[x] = k;
  }

  private down(from: number): void {
    const { items, place, key } = this;
    let k = from;
    const x = items[k];
    for (;;) {
      let child = 2 * k + 1;
      if (child >= this.size) break;
      if (child + 1 < this.size && key[items[child + 1]] > key[items[child]]) child++;
      if (key[items[child]] <= key[x]) break;
      items[k] = items[child];
      place[items[k]] = k;
      k = child;
    }
    items[k] = x;
    place[x] = k;
  }
}
