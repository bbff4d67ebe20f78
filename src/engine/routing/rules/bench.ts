/** Forms, resting pieces and setting coats each need their share of a level bench. */
import { constantLag } from '../../schedule/index.ts';
import { NEVER } from '../../schedule/model.ts';
import type { Literal, MonotoneMap } from '../../schedule/model.ts';
import type { Bench } from '../../shop/index.ts';
import { boxAfterMinutes, placedCures } from '../application-cure.ts';
import type { Ground } from '../ground.ts';
import { always } from '../capacity.ts';
import { cleanMinutes } from '../crews.ts';
import type { PieceRoute, RoutedBlock } from '../piece-route.ts';
import { fixedAt } from '../shift.ts';
import { formOutside, spaceNeeded, spaceOf, takenUpAt } from '../stays.ts';
import type { Rule } from './rule.ts';

const at = constantLag(0);
const key = (id: string): string => `bench ${id}`;

export const bench: Rule = (builder, ground, routes) => {
  for (const each of ground.shop.benches) builder.resource(key(each.id), each.name, always(spaceOf(each)));
  for (const route of routes) {
    const reason = builder.reason(
      'bench',
      route.itinerary.piece.id,
      null,
      'there is only so much level bench',
    );
    const use: Use = (on, from, to, until, amount, when) => {
      if (to.past?.state === 'done' && until.at(to.past.start) <= ground.now) return;
      builder.use(key(on.id), { from: from.start, to: to.start, until, amount, when, reason });
    };
    inForm(route, use);
    resting(route, use);
    coating(ground, route, use);
  }
};

type Use = (
  on: Bench,
  from: RoutedBlock,
  to: RoutedBlock,
  until: MonotoneMap,
  amount: number,
  when: readonly Literal[],
) => void;

/** From preparation until the form is clean, but for the time in a warm box. */
function inForm(route: PieceRoute, use: Use): void {
  const [prepare, demold, turnaround, poured] = ['prepare', 'demold', 'turnaround', 'layer-1-pour'].map(
    (id) => route.byId.get(id) as RoutedBlock,
  );
  const layer = poured.block.application;
  if (!layer) return;
  for (const form of route.forms) {
    const clean = constantLag(cleanMinutes(turnaround, form.value));
    for (const on of route.formBenches) {
      const amount = spaceNeeded(on.value, formOutside(form.value));
      for (const { value: standing, when } of route.formStandings) {
        if (standing.room.id !== on.value.room) continue;
        const all = [...on.when, ...form.when, ...when];
        if (!standing.box) {
          use(on.value, prepare, turnaround, clean, amount, all);
        } else {
          use(
            on.value,
            prepare,
            poured,
            constantLag(layer.mixMinutes + boxAfterMinutes(route, layer)),
            amount,
            all,
          );
          use(on.value, demold, turnaround, clean, amount, all);
        }
      }
    }
  }
}

/** From demolding until the piece is next worked on. */
function resting(route: PieceRoute, use: Use): void {
  const demold = route.byId.get('demold') as RoutedBlock;
  const next = route.blocks[route.blocks.indexOf(demold) + 2];
  for (const on of route.restBenches) {
    use(on.value, demold, next, at, spaceNeeded(on.value, route.itinerary.piece.size), on.when);
  }
}

/** From the first coat, or the turning over before it, until the last one can be touched; or until it was taken up all the same. */
function coating(ground: Ground, route: PieceRoute, use: Use): void {
  const coats = route.blocks.filter((b) => b.block.kind === 'coat');
  if (coats.length === 0) return;
  const last = coats[coats.length - 1];
  const takenUp = takenUpAt(route);
  for (const on of route.coatBenches) {
    const amount = spaceNeeded(on.value, route.itinerary.piece.size);
    for (const placed of placedCures(ground, route, last)) {
      if (placed.standing.room.id !== on.value.room) continue;
      const when = [...new Set([...on.when, ...placed.when])];
      const hard = placed.milestone('scuffable');
      const until =
        last.past && takenUp < NEVER ? fixedAt(Math.min(hard.at(last.past.start), takenUp)) : hard;
      use(on.value, coats[0], last, until, amount, when);
    }
  }
}
