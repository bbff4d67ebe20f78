/** Stretches of time as people type them: `24 h`, `1 h 30`, `90`, `3 days`; stored in whole minutes. */

const PART = /(\d+(?:[.,]\d+)?)\s*(days?|d|hours?|hrs?|h|minutes?|mins?|min|m)?/gy;

const MINUTES: Readonly<Record<string, number>> = { d: 1440, h: 60, m: 1 };

/**
 * Minutes of a typed stretch; NaN for what is none. A bare number counts minutes, after `h` too (`1 h 30`), and after
 * days it counts hours.
 */
export const minutesTyped = (typed: string): number => {
  const text = typed.trim().toLowerCase();
  if (text === '') return Number.NaN;
  const clock = /^(\d+):([0-5]\d)$/.exec(text);
  if (clock) return Number(clock[1]) * 60 + Number(clock[2]);
  let total = 0;
  let unit = '';
  PART.lastIndex = 0;
  while (PART.lastIndex < text.length) {
    const found = PART.exec(text);
    if (!found) return Number.NaN;
    unit = found[2]?.charAt(0) ?? (unit === 'd' ? 'h' : 'm');
    total += Number(found[1].replace(',', '.')) * MINUTES[unit];
    while (text.charAt(PART.lastIndex) === ' ') PART.lastIndex++;
  }
  return Math.round(total);
};

/** Minutes exactly as `minutesTyped` reads them back: `45 min`, `1 h 30 min`, `40 h`, `3 days`, `3 days 4 h`. */
export const typedMinutes = (minutes: number): string => {
  if (!Number.isFinite(minutes)) return '';
  const days = minutes >= 2880 ? Math.floor(minutes / 1440) : 0;
  const hours = Math.floor((minutes - days * 1440) / 60);
  const rest = Math.round(minutes - days * 1440 - hours * 60);
  const parts = [
    ...(days > 0 ? [`${days} days`] : []),
    ...(hours > 0 ? [`${hours} h`] : []),
    ...(rest > 0 || minutes === 0 ? [`${rest} min`] : []),
  ];
  return parts.join(' ');
};
