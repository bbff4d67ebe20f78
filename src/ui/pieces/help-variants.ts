/**
 * What might bring a late piece forward, each as an edit of the shop. Whether it helps is not guessed here: the engine
 * plans every one of them.
 */
import type { Person, Piece, Plan, Shop } from '../../engine/index.ts';
import { changePiece, unpinWhole, wishForms, type Edit } from '../edits/index.ts';

export interface Variant {
  readonly key: string;
  /** What would be done, such as "Maeve also works on Sundays, 09:00 to 15:00". */
  readonly title: string;
  readonly edit: Edit;
}

const WEEKEND = [
  { code: 'SA', name: 'Saturdays' },
  { code: 'SU', name: 'Sundays' },
] as const;

const worksOn = (person: Person, code: string): boolean =>
  person.hours.some(
    ({ rule }) => rule.includes('FREQ=DAILY') || (rule.split('BYDAY=')[1] ?? '').split(';')[0].includes(code),
  );

const changePerson = (shop: Shop, id: string, change: (person: Person) => Person): Shop => ({
  ...shop,
  people: shop.people.map((person) => (person.id === id ? change(person) : person)),
});

/** The form the plan has the piece in. */
const formOf = (plan: Plan, piece: string): string | undefined =>
  plan.holds.find((hold) => hold.piece === piece && hold.what === 'form')?.id;

export const helpVariants = (shop: Shop, plan: Plan, piece: Piece): readonly Variant[] => {
  const variants: Variant[] = [];
  const add = (key: string, title: string, apply: (shop: Shop) => Shop): void => {
    variants.push({ key, title, edit: { says: `${title.charAt(0).toLowerCase()}${title.slice(1)}`, apply } });
  };
  if (piece.forms !== undefined) {
    const edit = wishForms(piece.id, undefined, '');
    add('any-form', `“${piece.name}” may be cast in any form that fits`, edit.apply);
  }
  if (piece.pins.some((pin) => pin.at !== undefined)) {
    add('unpin', `unpin “${piece.name}”`, unpinWhole(piece.id, '').apply);
  }
  const others = shop.pieces.filter(
    (one) => one.id !== piece.id && one.pins.some((pin) => pin.at !== undefined),
  );
  if (others.length > 0) {
    add('unpin-others', 'unpin every other piece', (so) =>
      others.reduce((next, other) => unpinWhole(other.id, '').apply(next), so),
    );
  }
  if (shop.pieces.length > 1) {
    const most = Math.min(100, Math.max(10, ...shop.pieces.map(({ weight }) => weight * 10)));
    if (piece.weight < most) {
      add('first', `“${piece.name}” goes before the others`, (so) =>
        changePiece(so, piece.id, (old) => ({ ...old, weight: most })),
      );
    }
  }
  for (const person of shop.people.filter(({ can }) => can.includes('pour')).slice(0, 2)) {
    const free = WEEKEND.filter(({ code }) => !worksOn(person, code));
    if (free.length === 0) continue;
    const rule = `FREQ=WEEKLY;BYDAY=${free.map(({ code }) => code).join(',')}`;
    add(
      `weekend-${person.id}`,
      `${person.name} also works on ${free.map(({ name }) => name).join(' and ')}, 09:00 to 15:00`,
      (so) =>
        changePerson(so, person.id, (old) => ({
          ...old,
          hours: [...old.hours, { rule, from: '09:00', to: '15:00', start: '2026-01-05' }],
        })),
    );
  }
  const rooms = shop.rooms.filter(({ id }) => shop.benches.some((bench) => bench.room === id));
  for (const room of rooms.slice(0, 2)) {
    const { nightLowDegC, dayHighDegC, heating } = room.temperature.pattern;
    const warm = Math.max(dayHighDegC, ...heating.map(({ degC }) => degC), 22);
    if (nightLowDegC >= warm - 0.5) continue;
    add(`warm-${room.id}`, `keep ${room.name} at ${warm} °C day and night`, (so) => ({
      ...so,
      rooms: so.rooms.map((one) =>
        one.id === room.id
          ? {
              ...one,
              temperature: {
                ...one.temperature,
                pattern: {
                  ...one.temperature.pattern,
                  heating: [
                    ...one.temperature.pattern.heating,
                    {
                      hours: { rule: 'FREQ=DAILY', from: '00:00', to: '24:00', start: '2026-01-05' },
                      degC: warm,
                      warmUpMinutes: 60,
                    },
                  ],
                },
              },
            }
          : one,
      ),
    }));
  }
  const held = formOf(plan, piece.id);
  const form = shop.forms.find(({ id }) => id === held);
  if (form) {
    add('one-more-form', `one more “${form.name}”`, (so) => ({
      ...so,
      forms: so.forms.map((one) => (one.id === form.id ? { ...one, count: one.count + 1 } : one)),
    }));
  }
  return variants;
};

export interface Outcome {
  /** 0: in time. */
  readonly lateMinutes: number;
  readonly ready: string;
  /** Other pieces that this makes later than they are now, with by how much. */
  readonly hurt: readonly { readonly piece: string; readonly minutes: number }[];
}

/** What the plan of a variant means for the piece and the others; null when it has no such piece. */
export const outcomeOf = (piece: string, before: Plan, after: Plan): Outcome | null => {
  const mine = after.pieces.find((one) => one.piece === piece);
  if (!mine) return null;
  const was = new Map(before.pieces.map((one) => [one.piece, one.lateMinutes]));
  return {
    lateMinutes: mine.lateMinutes,
    ready: mine.ready,
    hurt: after.pieces.flatMap((one) => {
      const more = one.lateMinutes - (was.get(one.piece) ?? 0);
      return one.piece !== piece && more > 0 ? [{ piece: one.piece, minutes: more }] : [];
    }),
  };
};

/** Helpful ones first: the least late, then those that hurt nobody. */
export const byHelp = <T extends { readonly outcome: Outcome }>(found: readonly T[]): readonly T[] =>
  [...found].sort(
    (a, b) =>
      a.outcome.lateMinutes - b.outcome.lateMinutes ||
      a.outcome.hurt.length - b.outcome.hurt.length ||
      a.outcome.ready.localeCompare(b.outcome.ready),
  );
