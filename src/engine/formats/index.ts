/** The plan on its way out: run sheet, form cards, cups, calendar file, tables, record of a piece. */
export { type Cell, csv } from './csv.ts';
export { materialsCsv, stepsCsv } from './csv-tables.ts';
export type { CupCard, CupLine, PortionLine } from './cup-card.ts';
export { cupsByPour, cupsText, dayOfCups, type CupOfPour, type DayOfCups } from './cup-text.ts';
export { type FormCard, formCards } from './form-cards.ts';
export { calendarEntries, type CalendarEntry, type CalendarOptions, sequenceOf, toCalendar } from './ics.ts';
export { type PieceRecord, pieceRecord, type RecordLine, recordText } from './record.ts';
export { runSheet, type RunSheet, type SheetChoice, type SheetDay, type SheetLine } from './run-sheet.ts';
export { sheetText } from './sheet-text.ts';
export { materialsText, stockReport, type StockReport } from './stock-report.ts';
