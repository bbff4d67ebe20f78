/** The Forms picture without a screen: lanes, scale, layout and what lies where. */
export { asPinned } from './as-pinned.ts';
export { hitAt, type Hit } from './hit.ts';
export { lanesOf, type Lane } from './lanes.ts';
export { boxesIn, DESK_SIZES, layoutOf, PHONE_SIZES, rowTop, type LaneBox, type Layout } from './layout.ts';
export { loadOf, rowsOf, type LoadStep } from './load.ts';
export {
  endOf,
  lookAround,
  minuteAt,
  NAMED_SPANS,
  panBy,
  reveal,
  spanMinutes,
  xOf,
  zoomAt,
  type Scale,
} from './scale.ts';
export { swapsOf, type Cast, type Swap } from './swap-partners.ts';
export { axisOf, nightsOf, type Axis } from './ticks.ts';
export type { Band, Hand, Opening, Strip } from './strips.ts';
