/**
 * Tables as CSV: RFC 4180, lines ended by CRLF. A text that a spreadsheet would take for a formula gets an apostrophe
 * in front (OWASP, "CSV Injection"); numbers are written as they are, with a decimal point.
 */

export type Cell = string | number | boolean | null | undefined;

const FORMULA = /^[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/;

/** The header and the rows; ends in CRLF. A cell that is null or undefined stays empty. */
export const csv = (header: readonly string[], rows: readonly (readonly Cell[])[]): string =>
  [header, ...rows].map((row) => `${row.map(field).join(',')}\r\n`).join('');

function field(cell: Cell): string {
  if (cell === null || cell === undefined) return '';
  if (typeof cell !== 'string') return String(cell);
  const text = FORMULA.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
