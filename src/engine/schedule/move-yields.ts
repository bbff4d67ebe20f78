/** How kinds of moves share the work of a search: by how much of the value each has gained of late for its work. */

/** The least share of a kind, as a part of an equal one. */
const LEAST = 1 / 3;
/** What gains and work count for after one more gain. */
const MEMORY = 0.98;

export class MoveYields<Kind extends string> {
  private readonly yields: ReadonlyMap<Kind, { gained: number; worked: number }>;

  constructor(kinds: readonly Kind[]) {
    this.yields = new Map(kinds.map((kind) => [kind, { gained: 0, worked: 0 }]));
  }

  /** Of these kinds the one whose work is furthest behind its share. */
  next(kinds: readonly Kind[]): Kind {
    let sum = 0;
    for (const kind of kinds) sum += this.yieldOf(kind);
    let next = kinds[0];
    let least = Infinity;
    for (const kind of kinds) {
      const share = Math.max(LEAST / kinds.length, sum > 0 ? this.yieldOf(kind) / sum : 0);
      const behind = this.yields.get(kind)!.worked / share;
      if (behind >= least) continue;
      least = behind;
      next = kind;
    }
    return next;
  }

  private yieldOf(kind: Kind): number {
    const { gained, worked } = this.yields.get(kind)!;
    return worked > 0 ? gained / worked : 0;
  }

  /**
   * Notes a move of a kind.
   * @param work its counted steps
   * @param gain the share of the value that it took off; 0 when it led to nothing better
   */
  note(kind: Kind, work: number, gain: number): void {
    const noted = this.yields.get(kind)!;
    noted.worked += work;
    noted.gained += gain;
    if (gain <= 0) return;
    for (const each of this.yields.values()) {
      each.gained *= MEMORY;
      each.worked *= MEMORY;
    }
  }
}
