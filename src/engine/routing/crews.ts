/** Who may do a block, alone or together, and how long it then takes. */
import { constantLag } from '../schedule/index.ts';
import type { Literal, MonotoneMap } from '../schedule/model.ts';
import type { Form, Person } from '../shop/index.ts';
import { workEnd } from '../time/index.ts';
import type { Intervals } from '../time/index.ts';
import type { Ground } from './ground.ts';
import type { Block } from './itinerary.ts';
import type { ModelBuilder } from './model-builder.ts';
import type { Crew, Option, Past, RoutedBlock } from './piece-route.ts';

/** Every way to pick `size` of them, in order. */
function combinations<T>(things: readonly T[], size: number): T[][] {
  if (size === 0) return [[]];
  return things.flatMap((first, i) =>
    combinations(things.slice(i + 1), size - 1).map((rest) => [first, ...rest]),
  );
}

/**
 * The crews that can do a block, one of which will if it is done at all; a recorded person settles it.
 * @param present literals under which it is done
 */
export function chooseCrews(
  builder: ModelBuilder,
  ground: Ground,
  pieceId: string,
  block: Block,
  recordedPerson: string | undefined,
  isPast: boolean,
  present: readonly Literal[],
): Option<Crew>[] {
  if (block.hands === 0) return [];
  const able = ground.shop.people.filter((p) => p.can.includes(block.skill));
  const recorded = ground.shop.people.filter((p) => p.id === recordedPerson);
  let crews = recorded.length > 0 && block.hands === 1 ? [recorded] : combinations<Person>(able, block.hands);
  if (isPast) crews = crews.slice(0, 1);
  const reason = builder.reason(
    'hands',
    pieceId,
    block.id,
    block.hands === 1 ? `someone who can ${block.skill}` : `${block.hands} people who can ${block.skill}`,
  );
  if (crews.length === 0 && !isPast)
    builder.clause(
      present.map((literal) => literal ^ 1),
      reason,
    );
  const when = builder.oneOf(
    crews.map((c) => `${pieceId} ${block.id} by ${c.map((p) => p.id).join('+')}`),
    reason,
  );
  return crews.map((people, i) => ({
    value: {
      people,
      open: people.map((p) => ground.open.get(p.id) as Intervals).reduce(ground.both),
    },
    when: when[i],
  }));
}

/** Minutes from the start of a turnaround until the form is clean: those of the form, or what the record says. */
export const cleanMinutes = (turnaround: Pick<RoutedBlock, 'past'>, form: Form): number =>
  turnaround.past ? turnaround.past.end - turnaround.past.start : form.turnaroundMinutes;

/** The end of a block as a map of its start: known, fixed, by the form, or by the hours of whoever does it. */
export function endsOf(
  block: Block,
  past: Past | null,
  crews: readonly Option<Crew>[],
  forms: readonly Option<Form>[],
): Option<MonotoneMap>[] {
  if (past) return [{ value: constantLag(past.end - past.start), when: [] }];
  if (block.kind === 'turnaround') {
    const lengths = new Set(forms.map((f) => f.value.turnaroundMinutes));
    if (lengths.size === 1) return [{ value: constantLag(forms[0].value.turnaroundMinutes), when: [] }];
    return forms.map((f) => ({ value: constantLag(f.value.turnaroundMinutes), when: f.when }));
  }
  if (!block.split) return [{ value: constantLag(block.minutes), when: [] }];
  return crews.map((c) => ({ value: workEnd(c.value.open, block.minutes), when: c.when }));
}
