/** Values on the command line: whole numbers, moments, sizes. Each refuses with what was found and what would be right. */
import { MM_PER_INCH, type PieceSize } from '../engine/shop/index.ts';
import { Refusal } from './exit.ts';

const MINUTE_MS = 60_000;

/** A whole number from `least` to `most`; `fallback` when the option was not given. */
export function readWhole(
  option: string,
  text: string | undefined,
  range: { readonly least: number; readonly most: number; readonly fallback: number },
): number {
  if (text === undefined) return range.fallback;
  const number = Number(text);
  if (!/^\d+$/.test(text) || number < range.least || number > range.most) {
    throw new Refusal(
      `--${option}: found "${text}", needs a whole number from ${range.least} to ${range.most}`,
    );
  }
  return number;
}

/** An ISO moment; without an offset it is meant in the shop's zone. The real clock's whole minute when not given. */
export function readNow(text: string | undefined): string {
  if (text === undefined) {
    const whole = Math.floor(Date.now() / MINUTE_MS) * MINUTE_MS;
    return new Date(whole).toISOString().replace(':00.000Z', 'Z');
  }
  const shape =
    /^(\d{4}-\d{2}-\d{2})T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d+)?)?(Z|[+-]([01]\d|2[0-3]):[0-5]\d)?$/.exec(
      text,
    );
  if (shape === null || !isDay(shape[1])) {
    throw new Refusal(
      `--now: found "${text}", needs a day and a time such as 2026-11-25T14:30 (the shop's clock) or 2026-11-25T14:30Z`,
    );
  }
  return text;
}

/** A day of the calendar, `YYYY-MM-DD`; undefined when not given. */
export function readDay(text: string | undefined): string | undefined {
  if (text !== undefined && !(/^\d{4}-\d{2}-\d{2}$/.test(text) && isDay(text))) {
    throw new Refusal(`--day: found "${text}", needs a day of the calendar such as 2026-11-26`);
  }
  return text;
}

function isDay(day: string): boolean {
  const ms = Date.parse(`${day}T00:00Z`);
  return !Number.isNaN(ms) && new Date(ms).toISOString().startsWith(day);
}

/**
 * `600x300` (mm), `600x300mm`, `60x30cm` or `24x12in`; a comma or a point for decimals, `x` or `×` between.
 * Inches are exact (25.4 mm).
 */
export function readSize(text: string): PieceSize {
  const parts = /^(\d+(?:[.,]\d+)?)(mm|cm|in)?\s*[x×]\s*(\d+(?:[.,]\d+)?)(mm|cm|in)?$/i.exec(text.trim());
  if (parts === null) {
    throw new Refusal(`SIZE: found "${text}", needs length x width such as 600x300 (mm), 60x30cm or 24x12in`);
  }
  const unit = (parts[4] ?? parts[2] ?? 'mm').toLowerCase();
  if (parts[2] !== undefined && parts[2].toLowerCase() !== unit) {
    throw new Refusal(`SIZE: found "${text}", needs the same unit for length and width`);
  }
  const toMm = unit === 'in' ? MM_PER_INCH : unit === 'cm' ? 10 : 1;
  const [lengthMm, widthMm] = [parts[1], parts[3]].map(
    (number) => Math.round(Number(number.replace(',', '.')) * toMm * 100) / 100,
  );
  if (lengthMm < 1 || widthMm < 1 || lengthMm > 20_000 || widthMm > 20_000) {
    throw new Refusal(`SIZE: found "${text}", needs each side from 1 to 20000 mm`);
  }
  return { lengthMm, widthMm };
}
