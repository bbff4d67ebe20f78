/** Plain columns of text: as wide as they need to be, and folded at words where the line would get too long. */

export interface Column {
  /** May be folded onto several lines when space is short. */
  readonly wraps?: boolean;
  readonly align?: 'left' | 'right';
}

export interface TableShape {
  readonly columns: readonly Column[];
  /** Columns of the terminal that a line may take, the indent included. */
  readonly width: number;
  readonly indent?: string;
}

const GAP = 2;
/** A name in a file may hold anything; a line break or an escape in it must not reach the terminal. */
const CONTROL = /\p{Cc}/gu;
/** A folded column is not made narrower than this, even if the line then runs over. */
const LEAST = 10;

/** Lines of a table; a row is one text per column. Columns that are empty in every row take no room. */
export const table = (rows: readonly (readonly string[])[], shape: TableShape): string[] =>
  tableRows(rows, shape).flat();

/** The same, the lines of each row apart: for rows that other lines come between. */
export function tableRows(rows: readonly (readonly string[])[], shape: TableShape): string[][] {
  const indent = shape.indent ?? '';
  const natural = shape.columns.map((_, at) => Math.max(0, ...rows.map((row) => (row[at] ?? '').length)));
  const shown = shape.columns.map((_, at) => at).filter((at) => natural[at] > 0);
  const widths = [...natural];
  let over = indent.length + sum(shown.map((at) => widths[at] + GAP)) - GAP - shape.width;
  while (over > 0) {
    const widest = shown
      .filter((at) => shape.columns[at].wraps === true && widths[at] > LEAST)
      .sort((a, b) => widths[b] - widths[a])[0];
    if (widest === undefined) break;
    widths[widest] -= 1;
    over -= 1;
  }
  return rows.map((row) => {
    const cells = shown.map((at) => fill(row[at] ?? '', shape.columns[at].wraps ? widths[at] : Infinity));
    const height = Math.max(1, ...cells.map((lines) => lines.length));
    return Array.from({ length: height }, (_, line) => {
      const texts = cells.map((lines, k) => {
        const text = lines[line] ?? '';
        const width = widths[shown[k]];
        return shape.columns[shown[k]].align === 'right' ? text.padStart(width) : text.padEnd(width);
      });
      return (indent + texts.join(' '.repeat(GAP))).trimEnd();
    });
  });
}

/**
 * Text folded at spaces into lines of at most `width`; a longer word is cut. The first line begins with `indent`, the
 * others with `hang`; both count towards the width.
 */
export function fill(text: string, width: number, indent = '', hang = indent): string[] {
  const lines: string[] = [];
  let line = indent;
  let isEmpty = true;
  for (const word of text.replaceAll(CONTROL, ' ').split(' ')) {
    if (!isEmpty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = hang;
      isEmpty = true;
    }
    line += isEmpty ? word : ` ${word}`;
    isEmpty = false;
    while (line.length > width) {
      lines.push(line.slice(0, width));
      line = hang + line.slice(width);
    }
  }
  return [...lines, line];
}

const sum = (numbers: readonly number[]) => numbers.reduce((total, number) => total + number, 0);
