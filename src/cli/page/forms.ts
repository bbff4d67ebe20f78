/** Which form holds what, and when it frees up. */
import type { Plan, Shop } from '../../engine/index.ts';
import type { Moments } from './moments.ts';
import { namesOf } from './names.ts';
import { table } from '../table.ts';

const COLUMNS = [{ wraps: true }, { wraps: true }, {}, {}];

/** One row for every piece in a form, form by form and in order of time; forms without a piece are free now. */
export function formTable(shop: Shop, plan: Plan, moments: Moments, width: number): string[] {
  const names = namesOf(shop);
  const now = moments.minute(plan.now);
  const rows = shop.forms.flatMap((form) =>
    Array.from({ length: form.count }, (_, at) => at + 1).flatMap((unit) => {
      const name = names.form(form.id, unit);
      const holds = plan.holds
        .filter((hold) => hold.what === 'form' && hold.id === form.id && (hold.unit ?? 1) === unit)
        .filter((hold) => moments.minute(hold.to) > now)
        .sort((a, b) => moments.minute(a.from) - moments.minute(b.from));
      if (holds.length === 0) return [[name, '-', '', 'free now']];
      return holds.map((hold, row) => [
        row === 0 ? name : '',
        names.piece(hold.piece),
        moments.minute(hold.from) < now ? 'in it now' : moments.full(hold.from),
        moments.full(hold.to),
      ]);
    }),
  );
  return table([['form', 'piece', 'from', 'frees up'], ...rows], { columns: COLUMNS, width, indent: '  ' });
}
