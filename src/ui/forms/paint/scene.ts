/** Everything a frame of the picture is painted from. */
import type { Minute, ZoneClock } from '../../clock/index.ts';
import type { RoomAir } from '../../engine/index.ts';
import type { Axis, Layout, Scale } from '../model/index.ts';
import type { Palette } from './palette.ts';
import type { Textures } from './textures.ts';

export interface AirLine {
  readonly at: Float64Array;
  readonly degC: Float64Array;
}

export interface Places {
  /** Lanes (by id) in which the held step may go, and where; other lanes are shut. */
  readonly lanes: ReadonlyMap<string, readonly (readonly [Minute, Minute])[]>;
}

export interface Scene {
  readonly pen: CanvasRenderingContext2D;
  readonly colours: Palette;
  readonly textures: Textures;
  readonly scale: Scale;
  readonly axis: Axis;
  readonly clock: ZoneClock;
  readonly layout: Layout;
  /** Scrolled by: what lies at the top edge of the canvas. */
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly now: Minute;
  readonly nights: readonly (readonly [Minute, Minute])[];
  /** Stretches in which nobody is in the shop. */
  readonly closed: readonly (readonly [Minute, Minute])[];
  readonly air: ReadonlyMap<string, AirLine>;
  readonly picked: { readonly piece: string; readonly step: string } | null;
  /** Piece and step under the pointer. */
  readonly pointed: { readonly piece: string; readonly step: string } | null;
  readonly places: Places | null;
}

export const airLineOf = (air: RoomAir): AirLine => ({
  at: Float64Array.from(air.samples, (sample) => Date.parse(sample.at) / 60_000),
  degC: Float64Array.from(air.samples, (sample) => sample.degC),
});
