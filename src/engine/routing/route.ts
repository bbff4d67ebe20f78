/**
 * A shop into a scheduling model: every piece's blocks become starts, every open question a choice, and every rule
 * adds its lags and needs.
 */
import { no, yes } from '../schedule/model.ts';
import type { Literal, Model } from '../schedule/model.ts';
import type { Piece, Shop } from '../shop/index.ts';
import { toMinute } from '../time/index.ts';
import { chooseCrews, endsOf } from './crews.ts';
import { makeGround } from './ground.ts';
import type { Ground } from './ground.ts';
import { itinerary as itineraryOf } from './itinerary.ts';
import type { Block, Itinerary } from './itinerary.ts';
import { ModelBuilder } from './model-builder.ts';
import type { Reason } from './model-builder.ts';
import { actualsOf, pastOf } from './past.ts';
import type { Past, PieceRoute, RoutedBlock } from './piece-route.ts';
import { bindPins, withoutPinnedTimes } from './pins.ts';
import type { PassedPin } from './pins.ts';
import { RULES } from './rules/index.ts';
import { chooseStays } from './stays.ts';

export interface Routing {
  readonly ground: Ground;
  readonly pieces: readonly PieceRoute[];
  readonly model: Model;
  /** What `Outcome.clash` points into. */
  readonly reasons: readonly Reason[];
  /** Pins whose time has passed without the step having begun; they do not bind. */
  readonly passedPins: readonly PassedPin[];
}

/** The objective levels of a fresh plan, most important first; before them all, no bubble pass is left out for their sake. */
export const LEVELS = ['tardiness', 'windows', 'visits', 'early'] as const;
/** With a plan that stands, little is moved before time is saved. */
export const LEVELS_REPLAN = ['tardiness', 'windows', 'moved', 'visits', 'early'] as const;

export interface RouteOptions {
  /** ISO moment; nothing is planned before it. */
  readonly now: string;
  /** Minutes after `now` within which everything must be done. */
  readonly horizonMinutes: number;
}

interface Routed {
  readonly builder: ModelBuilder;
  readonly ground: Ground;
  readonly pieces: readonly PieceRoute[];
}

/** The last shop that was routed, before its pins: a cache of what is equal, found by the content of all that goes into it. */
let last: { readonly key: string; readonly routed: Routed } | null = null;

/** @throws RangeError when the shop names what it does not have; `parseShop` finds such faults first */
export function routeShop(
  shop: Shop,
  options: RouteOptions,
): Routed & { readonly passedPins: Routing['passedPins'] } {
  const free = withoutPinnedTimes(shop);
  const key = JSON.stringify([free, options]);
  if (last?.key !== key) last = { key, routed: routeFree(free, options) };
  const { routed } = last;
  const builder = new ModelBuilder(routed.builder);
  const ground: Ground = { ...routed.ground, shop };
  const pieces = routed.pieces.map((route, i) => ({
    ...route,
    itinerary: { ...route.itinerary, piece: shop.pieces[i] },
  }));
  const passedPins = pieces.flatMap((route) => bindPins(builder, ground, route));
  return { builder, ground, pieces, passedPins };
}

function routeFree(shop: Shop, { now, horizonMinutes }: RouteOptions): Routed {
  const ground = makeGround(shop, now, horizonMinutes);
  const builder = new ModelBuilder();
  const pieces = shop.pieces.map((piece) => routePiece(builder, ground, itineraryOf(shop, piece)));
  for (const rule of RULES) rule(builder, ground, pieces);
  return { builder, ground, pieces };
}

function routePiece(builder: ModelBuilder, ground: Ground, itinerary: Itinerary): PieceRoute {
  const { piece, blocks } = itinerary;
  const past = pastOf(ground, itinerary);
  const recoat = new Map<string, Literal>();
  for (const { application } of blocks) {
    if (application?.over)
      recoat.set(application.id, yes(builder.choice(`${piece.id} ${application.id} recoat`)));
  }
  const stays = chooseStays(builder, ground, itinerary, past);

  const isPoured = (pour: string): boolean => past[blocks.findIndex((b) => b.id === pour)] !== null;
  const presentOf = (block: Block, happened: Past | null): readonly Literal[] => {
    if (block.optionalFor) return [no((recoat.get(block.optionalFor) as Literal) >> 1)];
    const mayBeMissed = block.pass !== null && happened === null && isPoured(block.pass.after);
    return mayBeMissed ? [yes(builder.choice(`${piece.id} ${block.id} made`))] : [];
  };

  const routed = blocks.map((block, i): RoutedBlock => {
    const happened = past[i];
    const recorded = actualsOf(piece, block).find((a) => a.person !== undefined)?.person;
    const present = presentOf(block, happened);
    const crews = chooseCrews(builder, ground, piece.id, block, recorded, happened !== null, present);
    return {
      block,
      start: startOf(builder, ground, piece, block, happened),
      past: happened,
      present,
      crews,
      ends: endsOf(block, happened, crews, stays.forms),
    };
  });
  return {
    itinerary,
    blocks: routed,
    byId: new Map(routed.map((r) => [r.block.id, r])),
    ...stays,
    recoat,
  };
}

function startOf(
  builder: ModelBuilder,
  ground: Ground,
  piece: Piece,
  block: Block,
  past: Past | null,
): number {
  const name = `${piece.id} ${block.id}`;
  if (past) {
    const fact = builder.reason('actuals', piece.id, block.id, 'it has begun already');
    return builder.start(name, past.start, past.start, fact);
  }
  const wished = block.id === 'prepare' && piece.earliest ? toMinute(ground.clock, piece.earliest) : 0;
  const reason =
    wished > ground.now
      ? builder.reason('earliest', piece.id, block.id, 'you said not to begin earlier')
      : builder.reason(
          'time',
          piece.id,
          block.id,
          'it can only be planned from now until the end of the calendar',
        );
  return builder.start(name, Math.max(ground.now, wished), Math.max(ground.horizon, wished), reason);
}
