/** Where a piece may stand: which form, which bench, open in the room or in a warm box; each open question a choice. */
import { NEVER } from '../schedule/model.ts';
import type { Bench, Form, Piece, PieceSize, Shop, WarmBox } from '../shop/index.ts';
import type { Ground, Standing } from './ground.ts';
import type { Itinerary } from './itinerary.ts';
import { layerDepthMm } from './amounts.ts';
import type { ModelBuilder } from './model-builder.ts';
import type { Option, Past, PieceRoute, Stays } from './piece-route.ts';

/** A form takes 40 mm more on the bench than its inside on every side, unless the file says. Common practice, no source. */
const FORM_WALL_MM = 40;

/** Outside length and width of a form, mm. */
export const formOutside = (form: Form): PieceSize =>
  form.outside ?? {
    lengthMm: form.inside.lengthMm + 2 * FORM_WALL_MM,
    widthMm: form.inside.widthMm + 2 * FORM_WALL_MM,
  };

/** How much of a bench or box a thing of this size takes: whole cm2, or one spot. */
export const spaceNeeded = (place: Bench | WarmBox, size: PieceSize): number =>
  place.spots !== undefined ? 1 : Math.ceil((size.lengthMm * size.widthMm) / 100 - 1e-9);

/** All there is of it: spots, or whole cm2. */
export const spaceOf = (place: Bench | WarmBox): number => place.spots ?? Math.floor(place.areaCm2 ?? 0);

/** Whether the piece with all its layers goes into the form, either way round. */
export function fits(form: Form, { piece, recipe }: Pick<Itinerary, 'piece' | 'recipe'>): boolean {
  const { lengthMm, widthMm } = piece.size;
  const { inside } = form;
  const along = lengthMm <= inside.lengthMm && widthMm <= inside.widthMm;
  const across = lengthMm <= inside.widthMm && widthMm <= inside.lengthMm;
  const depthMm = recipe.layers.reduce((sum, layer) => sum + layerDepthMm(layer, piece.size), 0);
  return (along || across) && depthMm <= inside.depthMm + 1e-9;
}

/** The minute by which the record has a coated piece off its bench, hard or not: it was being finished, or ready. */
export const takenUpAt = ({ byId }: Pick<PieceRoute, 'byId'>): number =>
  (byId.get('finish') ?? byId.get('ready'))?.past?.start ?? NEVER;

const roomOf = (shop: Shop, id: string) => {
  const found = shop.rooms.find((r) => r.id === id);
  if (!found) throw new RangeError(`there is no room "${id}"`);
  return found;
};

/** What the record says of a place; the last word counts. */
function recordedPlace(piece: Piece, what: 'form' | 'bench' | 'warmBox', steps: (step: string) => boolean) {
  return [...piece.actuals].reverse().find((a) => a[what] !== undefined && steps(a.step))?.[what];
}

/** True for the steps that happen while the piece is in its form. */
const inForm = (step: string): boolean => /^(prepare|seal|layer-|demold|turnaround)/.test(step);

function optionsOf<T extends { readonly id: string }>(
  builder: ModelBuilder,
  what: string,
  things: readonly T[],
  reason: number,
): Option<T>[] {
  const when = builder.oneOf(
    things.map((t) => `${what} ${t.id}`),
    reason,
  );
  return things.map((value, i) => ({ value, when: when[i] }));
}

export function chooseStays(
  builder: ModelBuilder,
  ground: Ground,
  itinerary: Itinerary,
  past: readonly (Past | null)[],
): Stays {
  const { shop } = ground;
  const { piece, blocks } = itinerary;
  const name = piece.id;
  const none = (rule: string, text: string): void =>
    builder.clause([], builder.reason(rule, name, null, text));
  const known = <T extends { readonly id: string }>(
    things: readonly T[],
    id: string | undefined,
  ): readonly T[] => (id === undefined ? things : things.filter((t) => t.id === id));

  const formReason = builder.reason('form', name, null, 'it needs a form that it fits');
  const fitting = shop.forms.filter(
    (f) => fits(f, itinerary) && (piece.forms === undefined || piece.forms.includes(f.id)),
  );
  const formThings = known(
    shop.forms,
    recordedPlace(piece, 'form', () => true),
  );
  const formList = formThings.length === shop.forms.length && formThings.length > 0 ? fitting : formThings;
  if (formList.length === 0) none('fit', 'no form is large enough for it');
  const forms = optionsOf(builder, `${name} form`, formList, formReason);

  const benchReason = builder.reason('bench', name, null, 'it needs level bench');
  const takes = (bench: Bench | WarmBox, sizes: readonly PieceSize[]): boolean =>
    sizes.some((size) => spaceNeeded(bench, size) <= spaceOf(bench));
  const outsides = formList.map(formOutside);
  const formBenchList = known(
    shop.benches.filter((b) => takes(b, outsides)),
    recordedPlace(piece, 'bench', inForm),
  );
  if (formBenchList.length === 0) none('bench', 'no bench is large enough for its form');
  const formBenches = optionsOf(builder, `${name} form bench`, formBenchList, benchReason);

  const poured = blocks.findIndex((b) => b.application?.id === 'layer-1');
  const isPoured = past[poured] !== null;
  const recordedBox = recordedPlace(piece, 'warmBox', inForm);
  const boxes = shop.warmBoxes.filter((w) =>
    recordedBox !== undefined ? w.id === recordedBox : !isPoured && takes(w, outsides),
  );
  const standings: Standing[] = [];
  for (const id of new Set(formBenchList.map((b) => b.room))) {
    const room = roomOf(shop, id);
    if (recordedBox === undefined) standings.push({ room, box: null, boxAfterMinutes: 0 });
    for (const box of boxes.filter((w) => w.room === id)) standings.push({ room, box, boxAfterMinutes: 0 });
  }
  const standingWhen = builder.oneOf(
    standings.map((s) => `${name} stands in ${s.room.id}${s.box ? ` box ${s.box.id}` : ''}`),
    benchReason,
  );
  const formStandings = standings.map((value, i) => ({ value, when: standingWhen[i] }));
  linkRooms(builder, formStandings, formBenches, benchReason);

  // The rest follows in the room where the form stood.
  const restRooms = new Set(standings.map((s) => s.room.id));
  const restList = shop.benches.filter((b) => restRooms.has(b.room) && takes(b, [piece.size]));
  if (restList.length === 0) none('bench', 'no bench is large enough for it to rest on');
  const restBenches = optionsOf(builder, `${name} rest bench`, restList, benchReason);
  linkRooms(builder, formStandings, restBenches, benchReason);

  const hasCoats = blocks.some((b) => b.application?.stay === 'coats');
  const coatList = hasCoats
    ? known(
        shop.benches.filter((b) => takes(b, [piece.size])),
        recordedPlace(piece, 'bench', (step) => step.startsWith('coat-')),
      )
    : [];
  if (hasCoats && coatList.length === 0) none('bench', 'no bench is large enough for its coats');
  const coatBenches = optionsOf(builder, `${name} coat bench`, coatList, benchReason);
  const oneRoom = new Set(coatList.map((b) => b.room)).size === 1;
  const coatStandings = (oneRoom ? coatBenches.slice(0, 1) : coatBenches).map(({ value, when }) => ({
    value: { room: roomOf(shop, value.room), box: null, boxAfterMinutes: 0 },
    when: oneRoom ? [] : when,
  }));
  return { forms, formBenches, formStandings, restBenches, coatBenches, coatStandings };
}

/** A bench is chosen only in the room of the chosen standing. */
function linkRooms(
  builder: ModelBuilder,
  standings: readonly Option<Standing>[],
  benches: readonly Option<Bench>[],
  reason: number,
): void {
  // A recorded box leaves one room to stand in, though there are benches in others.
  const rooms = [...standings.map((s) => s.value.room.id), ...benches.map((b) => b.value.room)];
  if (new Set(rooms).size < 2) return;
  for (const { value, when } of standings) {
    const there = benches.filter((b) => b.value.room === value.room.id);
    // A lone bench needs no choice, and then every other room is ruled out.
    if (there.some((b) => b.when.length === 0)) continue;
    builder.clause([...when.map((l) => l ^ 1), ...there.flatMap((b) => b.when)], reason);
  }
}
