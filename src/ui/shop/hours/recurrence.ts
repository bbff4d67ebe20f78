/**
 * Days that come again (RFC 5545 recurrence rules) as the editor turns them: every so many weeks on certain days, every
 * so many days, or certain days of every month. A rule that says more than that is kept as it is, and read out where
 * it can be.
 */

export const DAYS = ['MO', 'TU', 'WE', 'TH', 'FR', 'SA', 'SU'] as const;
export type DayCode = (typeof DAYS)[number];

export type Days =
  | { readonly kind: 'weeks'; readonly every: number; readonly days: readonly DayCode[] }
  | { readonly kind: 'days'; readonly every: number }
  /** The first (1) to fourth, or last (-1), of a weekday in every month. */
  | { readonly kind: 'month'; readonly nth: number; readonly day: DayCode }
  | { readonly kind: 'other'; readonly rule: string };

const isDay = (text: string): text is DayCode => DAYS.some((day) => day === text);

/** The parts of a rule; null when one comes twice or is no part at all. */
const partsOf = (rule: string): Map<string, string> | null => {
  const parts = new Map<string, string>();
  for (const part of rule.toUpperCase().split(';')) {
    const [name, value, ...more] = part.split('=');
    if (value === undefined || more.length > 0 || parts.has(name)) return null;
    parts.set(name, value);
  }
  return parts;
};

const EVERY_DAY: readonly DayCode[] = DAYS;

/** Reads a rule; what the editor cannot turn comes back as `other`, unharmed. */
export const readDays = (rule: string): Days => {
  const other: Days = { kind: 'other', rule };
  const parts = partsOf(rule);
  if (!parts) return other;
  const every = Number(parts.get('INTERVAL') ?? 1);
  if (!Number.isInteger(every) || every < 1) return other;
  const has = (...names: string[]): boolean =>
    [...parts.keys()].every((name) => name === 'FREQ' || name === 'INTERVAL' || names.includes(name));
  const frequency = parts.get('FREQ');
  const byDay = parts.get('BYDAY');
  if (
    frequency === 'WEEKLY' &&
    byDay !== undefined &&
    (has('BYDAY') || (has('BYDAY', 'WKST') && parts.get('WKST') === 'MO'))
  ) {
    // No day at all is no rule; the editor keeps it to show that one is missing.
    const days = byDay === '' ? [] : byDay.split(',');
    return days.every(isDay)
      ? { kind: 'weeks', every, days: DAYS.filter((day) => days.includes(day)) }
      : other;
  }
  if (frequency === 'DAILY' && has())
    return every === 1 ? { kind: 'weeks', every: 1, days: EVERY_DAY } : { kind: 'days', every };
  if (frequency === 'MONTHLY' && every === 1 && byDay !== undefined && has('BYDAY')) {
    const found = /^\+?(-1|[1-4])(MO|TU|WE|TH|FR|SA|SU)$/.exec(byDay);
    if (found && isDay(found[2])) return { kind: 'month', nth: Number(found[1]), day: found[2] };
  }
  return other;
};

/** The rule for these days, as short as it can be. */
export const writeDays = (days: Days): string => {
  const interval = 'every' in days && days.every !== 1 ? `;INTERVAL=${days.every}` : '';
  switch (days.kind) {
    case 'weeks':
      return `FREQ=WEEKLY${interval};BYDAY=${DAYS.filter((day) => days.days.includes(day)).join(',')}`;
    case 'days':
      return `FREQ=DAILY${interval}`;
    case 'month':
      return `FREQ=MONTHLY;BYDAY=${days.nth}${days.day}`;
    case 'other':
      return days.rule;
  }
};

/** Whether the rule counts from a first day, which then has to be said. */
export const countsFromStart = (days: Days): boolean =>
  (days.kind !== 'other' && 'every' in days && days.every > 1) ||
  (days.kind === 'other' && /INTERVAL|COUNT/.test(days.rule));
