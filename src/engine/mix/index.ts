/** What to mix, what it takes out of the cans, what it costs, and what can hurt. */
export { airMargin, type AirMargin } from './air-margin.ts';
export {
  type Caution,
  type CautionId,
  CAUTIONS,
  cautionsFor,
  cautionsOf,
  foodContact,
  type FoodContact,
} from './cautions.ts';
export { costsOf, wastedShare, type CostOfPiece } from './cost.ts';
export { cupsOf, mixedMl, type Cup, type CupsOfPlan, type Portion } from './cups.ts';
export { heatRemark, splitDepth, splitLayer } from './depth.ts';
export { instrumentsOf, type ByMass, type ByVolume, type Instruments, type Measured } from './measured.ts';
export type { Pour, Tint } from './pours.ts';
export { shoppingList, type ToBuy } from './shopping.ts';
export { splitDeepLayers, type SplitFile, type SplitLayerOfFile } from './split-file.ts';
export { stockOf, type DayUse, type Lacking, type StockOfResin } from './stock.ts';
export { woodStates, type WoodState } from './wood.ts';
