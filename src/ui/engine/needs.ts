/**
 * What the screens ask of the engine beyond parsing, planning, checking and `whyStep`. Every time is an ISO moment to
 * the minute with the shop's offset, as in the plan document; spans are half-open. All functions are pure.
 */
import type { Shop } from '../../engine/shop/index.ts';
import type { Plan } from '../../engine/plan/document.ts';

export interface Span {
  readonly from: string;
  readonly to: string;
}

/** One point of a cure: `age` in equivalent minutes at the resin's reference temperature since the pour. */
export interface CureSample {
  readonly at: string;
  readonly age: number;
}

/** How one seal, layer or coat of the plan cures where it stands; `null`: not reached while the forecast lasts. */
export interface ApplicationCure {
  readonly piece: string;
  /** The apply step: `seal`, `layer-2-pour`, `coat-1`. */
  readonly step: string;
  readonly resin: string;
  /** Start of the apply step. */
  readonly applied: string;
  readonly opens: string | null;
  readonly closes: string | null;
  readonly scuffable: string | null;
  readonly demold: string | null;
  readonly machinable: string | null;
  readonly fullCure: string | null;
  /** Age at which the window opens and closes (after touch tests), for reading `samples`: wet below, hard above. */
  readonly opensAge: number;
  readonly closesAge: number;
  /** From `applied` on, about 12 to 40 points up to `demold` (or the last milestone), dense enough to draw. */
  readonly samples: readonly CureSample[];
  /** Stretches in which cure stands still because the air is below the resin's lowest temperature. */
  readonly stalls: readonly Span[];
}

/** The air of one room, about one sample an hour; measured, forecast or pattern, as the cure uses it. */
export interface RoomAir {
  readonly room: string;
  readonly samples: readonly { readonly at: string; readonly degC: number }[];
}

export interface PersonOpen {
  readonly person: string;
  readonly open: readonly Span[];
  readonly unloved: readonly Span[];
}

/** What stands in the way of a start: `kind` picks the ways out that the screen offers, `text` is shown as it is. */
export interface Obstacle {
  readonly kind:
    | 'window' // before it opens or after it closes: scuffing is a way out when `late`
    | 'order' // an own step before or after it
    | 'cure' // not cured far enough yet
    | 'hours' // nobody is there, or too few hands
    | 'hands' // someone is there, but holds another piece
    | 'form'
    | 'bench'
    | 'warm-box'
    | 'tool'
    | 'dust'
    | 'air' // too cold, too warm, too near the dew point
    | 'working-time'
    | 'past'
    | 'pin';
  /** Plain words with the moment, such as "window closes 14:20", "form 2 is full until Thu 09:15". */
  readonly text: string;
  /** Pieces that would have to move, when others stand in the way. */
  readonly others: readonly string[];
}

export interface ClosedSpan extends Span {
  readonly why: readonly Obstacle[];
}

/** Where one step may start, the other pieces staying where they are. `open` and `closed` together cover the range. */
export interface LegalPlaces {
  readonly piece: string;
  readonly step: string;
  readonly open: readonly Span[];
  readonly closed: readonly ClosedSpan[];
}

/** The functions themselves, as the engine's door should offer them. */
export interface EngineNeeds {
  milestones(shop: Shop, plan: Plan): readonly ApplicationCure[];
  air(shop: Shop, range: Span): readonly RoomAir[];
  openHours(shop: Shop, range: Span): readonly PersonOpen[];
  /** `form`: as if the piece were cast in this form (id) instead; only for steps up to the turnaround. */
  legalPlaces(shop: Shop, plan: Plan, piece: string, step: string, range: Span, form?: string): LegalPlaces;
}
