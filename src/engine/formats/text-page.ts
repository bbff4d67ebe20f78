/** Text in columns and folded lines, for paper and terminals without colour. */

/** Text folded at spaces into lines of at most `width`; the first begins with `indent`, the others with `hang`. */
export function folded(text: string, width: number, indent = '', hang = indent): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    const lead = lines.length === 0 ? indent : hang;
    if (line !== '' && lead.length + line.length + 1 + word.length > width) {
      lines.push(lead + line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, (lines.length === 0 ? indent : hang) + line];
}

/**
 * Rows as columns two spaces apart, each as wide as its widest text; the columns named in `folds` are folded so that a
 * line stays within `width` where that is possible. A column that is empty in every row takes no room.
 */
export function columns(
  rows: readonly (readonly string[])[],
  width: number,
  folds: readonly number[],
  indent = '',
): string[] {
  const count = Math.max(0, ...rows.map((row) => row.length));
  const natural = Array.from({ length: count }, (_, c) =>
    Math.max(...rows.map((row) => (row[c] ?? '').length)),
  );
  const shown = natural.flatMap((w, c) => (w > 0 ? [c] : []));
  const widths = [...natural];
  const total = (): number =>
    indent.length + shown.reduce((sum, c) => sum + widths[c], 0) + 2 * Math.max(0, shown.length - 1);
  while (total() > width) {
    const widest = [...folds].filter((c) => shown.includes(c)).sort((a, b) => widths[b] - widths[a])[0];
    if (widest === undefined || widths[widest] <= 12) break;
    widths[widest] -= 1;
  }
  return rows.flatMap((row) => {
    const cells = shown.map((c) => folded(row[c] ?? '', widths[c]));
    const height = Math.max(1, ...cells.map((lines) => lines.length));
    return Array.from({ length: height }, (_, line) =>
      (indent + cells.map((lines, i) => (lines[line] ?? '').padEnd(widths[shown[i]])).join('  ')).trimEnd(),
    );
  });
}
