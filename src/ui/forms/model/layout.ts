/** Where each lane lies in the picture, from top to bottom, in CSS pixels. */
import type { Lane } from './lanes.ts';

export interface Sizes {
  readonly heading: number;
  /** Room above a form's strip for its name and window times. */
  readonly label: number;
  readonly body: number;
  /** The rail of attended steps beneath a form's strip. */
  readonly rail: number;
  /** One row of a bench or warm box, its rail included. */
  readonly row: number;
  readonly load: number;
  readonly gap: number;
}

export const DESK_SIZES: Sizes = { heading: 30, label: 20, body: 56, rail: 12, row: 50, load: 30, gap: 12 };
/** On a phone the lane's own name stands above its strip. */
export const PHONE_SIZES: Sizes = { heading: 28, label: 40, body: 54, rail: 12, row: 54, load: 28, gap: 12 };

export interface LaneBox {
  readonly lane: Lane;
  readonly top: number;
  readonly height: number;
  /** Top and height of the body of a strip in a row. */
  readonly bodyTop: number;
  readonly bodyHeight: number;
  readonly rowHeight: number;
  readonly loadTop: number;
  readonly loadHeight: number;
}

export interface Heading {
  readonly text: string;
  readonly top: number;
}

export interface Layout {
  readonly boxes: readonly LaneBox[];
  readonly headings: readonly Heading[];
  readonly height: number;
  readonly sizes: Sizes;
}

const HEADINGS = {
  form: 'Forms',
  'warm-box': 'Warm boxes',
  bench: 'Benches, out of the form',
  work: 'Tools and work by hand',
} as const;

export const layoutOf = (lanes: readonly Lane[], sizes: Sizes): Layout => {
  const boxes: LaneBox[] = [];
  const headings: Heading[] = [];
  let y = 0;
  let last: Lane['what'] | null = null;
  for (const lane of lanes) {
    if (lane.what !== last) {
      headings.push({ text: HEADINGS[lane.what], top: y });
      y += sizes.heading;
      last = lane.what;
    }
    const isForm = lane.what === 'form';
    const label = isForm ? sizes.label : sizes.label;
    const bodyHeight = isForm ? sizes.body : sizes.row - sizes.rail - 18;
    const rowHeight = isForm ? sizes.body + sizes.rail : sizes.row;
    const loadHeight = lane.capacity === null ? 0 : sizes.load;
    const height = label + rowHeight * lane.rows + loadHeight;
    boxes.push({
      lane,
      top: y,
      height,
      bodyTop: y + label,
      bodyHeight,
      rowHeight,
      loadTop: y + label + rowHeight * lane.rows,
      loadHeight,
    });
    y += height + sizes.gap;
  }
  return { boxes, headings, height: y, sizes };
};

/** Top of the strip's body in its row. */
export const rowTop = (box: LaneBox, row: number): number => box.bodyTop + row * box.rowHeight;

/** Lanes that meet the stretch [top, bottom) of the picture. */
export const boxesIn = (layout: Layout, top: number, bottom: number): readonly LaneBox[] =>
  layout.boxes.filter((box) => box.top < bottom && box.top + box.height > top);
