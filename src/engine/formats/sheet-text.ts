/** The run sheet and the form cards as text, for a terminal or a printer that knows no more. */
import { cupLines } from './cup-text.ts';
import type { FormCard } from './form-cards.ts';
import type { RunSheet, SheetDay } from './run-sheet.ts';
import { columns, folded } from './text-page.ts';

/** Ends in a newline. */
export function sheetText(sheet: RunSheet, cards: readonly FormCard[], width: number): string {
  const parts = [
    [`${sheet.shop}: ${sheet.title}`, `plan of ${sheet.asOf}`],
    ...sheet.days.flatMap((day) => dayParts(day, width, sheet.days.length > 1)),
    titled(
      'Forms',
      cards.flatMap(({ form, piece, order, frees, next }) => [
        ...folded(`${form}, ${piece}: ${order}; ${frees}`, width, '  ', '    '),
        ...next.flatMap((line) => folded(line, width, '      ', '        ')),
      ]),
    ),
    titled(
      'See to',
      sheet.remarks.flatMap((text) => folded(text, width, '  - ', '    ')),
    ),
    titled(
      'Take care',
      sheet.cautions.flatMap(({ title, text }) => folded(`${title}. ${text}`, width, '  - ', '    ')),
    ),
  ];
  return `${parts
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
}

function dayParts(day: SheetDay, width: number, isOneOfSeveral: boolean): string[][] {
  const lines =
    day.lines.length === 0
      ? ['  nothing to do']
      : columns(
          day.lines.map(({ time, piece, what, where, hands, who, window }) => [
            '[ ]',
            time,
            piece,
            what,
            where,
            hands,
            who,
            window,
          ]),
          width,
          [2, 3, 4, 6, 7],
          '  ',
        );
  return [
    isOneOfSeveral ? [day.heading, ...lines] : lines,
    ...day.cups.map((card) => cupLines(card, width)),
    day.frees.map((text) => `  ${text}`),
  ];
}

const titled = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : [title, ...lines];
