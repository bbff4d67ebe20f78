/** A card to lay at each form that is in use: do not move it, what is next, when it frees up. */
import type { Plan } from '../plan/document.ts';
import { isAttended, type Shop } from '../shop/index.ts';
import { formatMoment, makeClock, toMinute } from '../time/index.ts';
import { namesOf, stepTitle } from './words.ts';

export interface FormCard {
  readonly form: string;
  readonly piece: string;
  /** "DO NOT MOVE" while the form stands full; "KEEP FREE" while it is only promised. */
  readonly order: string;
  /** "frees up Thu 26 Nov 14:20" */
  readonly frees: string;
  /** What is done to it next, and by when: "Pour layer 2: Thu 26 Nov 09:15, window closes 18:00". */
  readonly next: readonly string[];
}

/** How many of the next things stand on a card. */
const NEXT_SHOWN = 3;

/** One card for every form that holds a piece at the plan's now, or does so next; form by form as the file has them. */
export function formCards(shop: Shop, plan: Plan): FormCard[] {
  const clock = makeClock(plan.zone, plan.now);
  const minute = (iso: string): number => toMinute(clock, iso);
  const moment = (iso: string): string => formatMoment(clock, minute(iso));
  const names = namesOf(shop);
  return shop.forms.flatMap((form) =>
    Array.from({ length: form.count }, (_, i) => i + 1).flatMap((unit): FormCard[] => {
      const [hold] = plan.holds
        .filter((h) => h.what === 'form' && h.id === form.id && (h.unit ?? 1) === unit && minute(h.to) > 0)
        .sort((a, b) => minute(a.from) - minute(b.from));
      if (!hold) return [];
      const isFull = minute(hold.from) <= 0;
      const next = plan.steps
        .filter((s) => s.piece === hold.piece && s.form?.id === form.id && s.state !== 'done')
        .filter((s) => isAttended(s.step) && s.kind !== 'mix')
        .sort((a, b) => minute(a.start) - minute(b.start))
        .slice(0, NEXT_SHOWN)
        .map((s) => {
          const closes = s.way !== 'scuff' && s.window ? `, window closes ${moment(s.window.closes)}` : '';
          return `${stepTitle(s)}: ${moment(s.start)}${closes}`;
        });
      return [
        {
          form: names.form(form.id, unit),
          piece: names.piece(hold.piece),
          order: isFull ? 'DO NOT MOVE' : `KEEP FREE from ${moment(hold.from)}`,
          frees: `frees up ${moment(hold.to)}`,
          next,
        },
      ];
    }),
  );
}
