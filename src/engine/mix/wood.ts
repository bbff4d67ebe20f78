/** Whether a piece's wood is dry enough for its room, and whether it wants a seal before the first layer. */
import { equilibriumMoisturePercent, temperatureAt } from '../cure/index.ts';
import type { Ground } from '../routing/index.ts';
import type { Plan } from '../plan/document.ts';
import type { Piece, Recipe, Shop } from '../shop/index.ts';

/** Wood may be this much above the room's equilibrium, in points of moisture content. Common practice, no source. */
const ALLOWED_POINTS = 2;
/** And never wetter than this, however damp the room is: resin does not hold to it well. Common practice, no source. */
const WETTEST_PERCENT = 12;
const DAY_MINUTES = 1440;

export interface WoodState {
  readonly piece: string;
  readonly room: string;
  /** Moisture that wood takes on in the room, percent of dry mass, at the mean of the day before it is prepared. */
  readonly equilibriumPercent: number | null;
  readonly measuredPercent: number | null;
  /** Up to this it will do; null where the room's equilibrium is not known. */
  readonly wettestPercent: number | null;
  readonly moisture: 'fits' | 'too wet' | 'not measured' | 'air not measured';
  /** A seal keeps air in the wood's pores from rising into the layer; it does not make wet wood dry. */
  readonly seal: 'planned' | 'missing';
  readonly text: string;
}

/** Every piece that is still to be poured and has wood in it. */
export function woodStates(
  shop: Shop,
  plan: Plan,
  ground: Ground,
  minuteOf: (iso: string) => number,
): WoodState[] {
  return shop.pieces.flatMap((piece) => {
    const recipe = shop.recipes.find(({ id }) => id === piece.recipe);
    const prepare = plan.steps.find((s) => s.piece === piece.id && s.kind === 'prepare');
    const isAhead = plan.steps.some(
      (s) => s.piece === piece.id && s.step === 'layer-1-pour' && s.state === 'planned',
    );
    if (!recipe || !prepare || !isAhead || !hasWood(recipe)) return [];
    const equilibriumPercent = equilibrium(ground, prepare.room, minuteOf(prepare.start));
    return [stateOf(piece, recipe, prepare.room, equilibriumPercent)];
  });
}

const hasWood = (recipe: Recipe): boolean =>
  recipe.layers.some(
    ({ wood }) => wood !== undefined && !('coverPercent' in wood && wood.coverPercent === 0),
  );

function equilibrium(ground: Ground, room: string, minute: number): number | null {
  const air = ground.temperature.get(room);
  const humidity = ground.humidityPercent.get(room);
  if (!air || !humidity) return null;
  const hours = Array.from({ length: 24 }, (_, h) => minute - DAY_MINUTES + h * 60);
  const mean = (of: (at: number) => number): number =>
    hours.reduce((sum, at) => sum + of(at), 0) / hours.length;
  const relative = Math.min(0.99, Math.max(0, mean((at) => temperatureAt(humidity, at)) / 100));
  return equilibriumMoisturePercent(
    mean((at) => temperatureAt(air, at)),
    relative,
  );
}

function stateOf(piece: Piece, recipe: Recipe, room: string, equilibriumPercent: number | null): WoodState {
  const measuredPercent = piece.woodMoisturePercent ?? null;
  const wettestPercent =
    equilibriumPercent === null ? null : Math.min(WETTEST_PERCENT, equilibriumPercent + ALLOWED_POINTS);
  const moisture =
    wettestPercent === null
      ? 'air not measured'
      : measuredPercent === null
        ? 'not measured'
        : measuredPercent > wettestPercent
          ? 'too wet'
          : 'fits';
  const seal = recipe.seal ? 'planned' : 'missing';
  const state = {
    piece: piece.id,
    room,
    equilibriumPercent,
    measuredPercent,
    wettestPercent,
    moisture,
    seal,
  } as const;
  return { ...state, text: wordsFor(state) };
}

function wordsFor(state: Omit<WoodState, 'text'>): string {
  const { equilibriumPercent, measuredPercent, wettestPercent, moisture, seal } = state;
  const room = `wood settles at ${equilibriumPercent?.toFixed(1)} % in this room`;
  const limit = `up to ${wettestPercent?.toFixed(1)} % will do`;
  const words = {
    fits: `its wood at ${measuredPercent} % is dry enough (${room}, ${limit})`,
    'too wet': `its wood at ${measuredPercent} % is too wet (${room}, ${limit}): let it dry first; a seal does not make it dry`,
    'not measured': `measure the wood (${room}, ${limit})`,
    'air not measured':
      'measure wood and air: without the humidity of the room nobody can say what dry is here',
  }[moisture];
  return seal === 'missing' ? `${words}; the recipe has no seal, so expect bubbles out of the wood` : words;
}
