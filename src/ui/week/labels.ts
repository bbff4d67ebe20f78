/**
 * Where the words of a day's visits stand. A visit's rod is true to its time, however short that is; its words need a
 * height to be read. They stand beside the rod, and where visits follow each other faster than words can, each gives
 * way downwards to the ones before it, as little as it must. All lengths are pixels from the top left of the day.
 */

export interface Block {
  /** True to the visit's time; `bottom` is after `top`. */
  readonly top: number;
  readonly bottom: number;
  /** Visits at the same time lie beside each other. */
  readonly left: number;
  readonly right: number;
  /** Its words may have all of its height, for nothing else lies in it. */
  readonly isAlone: boolean;
}

export interface Label {
  readonly top: number;
  readonly height: number;
  /** Lines of text that are shown of those that there are. */
  readonly lines: number;
}

export interface Type {
  readonly lineHeight: number;
  /** What a label needs besides its lines: padding and edges, above and below. */
  readonly around: number;
  /** The least height of a label. */
  readonly least: number;
}

/** Lines that may reach beyond the visit's end: a label should not look like a longer visit. */
const LINES_OUTSIDE = 2;

const shareWidth = (a: Block, b: Block): boolean => a.left < b.right && b.left < a.right;

/**
 * One label a block, in their order; `lines` says how many lines each block's words take. No two labels that share
 * width overlap, their order is that of their blocks, each is at least `type.least` high, and none reaches below
 * `height` unless all of them together do.
 */
export const placeLabels = (
  blocks: readonly Block[],
  lines: readonly number[],
  type: Type,
  height: number,
): readonly Label[] => {
  const order = blocks.map((_, at) => at).sort((a, b) => blocks[a].top - blocks[b].top || a - b);
  const labels = new Map<number, Label>();
  order.forEach((at, rank) => {
    const block = blocks[at];
    const beside = (others: readonly number[]): readonly number[] =>
      others.filter((other) => shareWidth(blocks[other], block));
    const top = beside(order.slice(0, rank)).reduce((so, other) => {
      const before = labels.get(other);
      return before ? Math.max(so, before.top + before.height) : so;
    }, block.top);
    const next = Math.min(height, ...beside(order.slice(rank + 1)).map((other) => blocks[other].top));
    const own = block.isAlone ? block.bottom - top : 0;
    const linesIn = (space: number): number => Math.floor((space - type.around) / type.lineHeight);
    const outside = Math.min(LINES_OUTSIDE, linesIn(Math.max(type.least, next - top)));
    const shown = Math.max(1, Math.min(lines[at], Math.max(linesIn(own), outside)));
    const words = Math.max(type.least, shown * type.lineHeight + type.around);
    labels.set(at, { top, lines: shown, height: Math.max(words, own) });
  });
  // Pushed over the end of the day, they move up together.
  for (const [rank, at] of [...order.entries()].reverse()) {
    const label = labels.get(at);
    if (!label) continue;
    const floor = order
      .slice(rank + 1)
      .filter((other) => shareWidth(blocks[other], blocks[at]))
      .reduce((so, other) => Math.min(so, labels.get(other)?.top ?? so), height);
    if (label.top + label.height > floor) labels.set(at, { ...label, top: floor - label.height });
  }
  return blocks.map((_, at) => labels.get(at) ?? { top: 0, height: 0, lines: 0 });
};

/**
 * The blocks that had better have the whole width, their words below each other. Visits at the same time get a part of
 * it each: needless where all of them are shorter than `short`, useless where a part is narrower than `narrow`.
 */
export const wideBlocks = <B extends Block>(
  blocks: readonly B[],
  { short, narrow }: { readonly short: number; readonly narrow: number },
): ReadonlySet<B> => {
  const wide = new Set<B>();
  const take = (group: readonly B[]): void => {
    const isShort = group.every(({ top, bottom }) => bottom - top < short);
    const isNarrow = group.some(({ left, right }) => right - left < narrow);
    if (group.length > 1 && (isShort || isNarrow)) for (const block of group) wide.add(block);
  };
  let group: B[] = [];
  let until = -Infinity;
  for (const block of [...blocks].sort((a, b) => a.top - b.top)) {
    if (block.top >= until) {
      take(group);
      group = [];
    }
    group.push(block);
    until = Math.max(until, block.bottom);
  }
  take(group);
  return wide;
};
