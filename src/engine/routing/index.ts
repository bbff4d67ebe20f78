/** A shop's pieces and recipes into a scheduling model, and the pieces' routes to read its answer by. */
export { areaM2, layerDepthMm, layerVolumeMl, thinVolumeMl } from './amounts.ts';
export { placedCures, standingsOf } from './application-cure.ts';
export type { PlacedCure } from './application-cure.ts';
export { equivalentMinutes, hoursOf, kineticsOf, makeGround, planClock, roomTemperatures } from './ground.ts';
export type { Ground, MilestoneName, Standing } from './ground.ts';
export { itinerary, stepNames, workMinutes } from './itinerary.ts';
export type { Application, Block, BlockKind, Itinerary } from './itinerary.ts';
export type { Implied, ModelBuilder, Reason } from './model-builder.ts';
export { actualsOf, stepOffset } from './past.ts';
export type { Crew, Option, Past, PieceRoute, RoutedBlock } from './piece-route.ts';
export { LEVELS, LEVELS_REPLAN, routeShop } from './route.ts';
export type { Routing } from './route.ts';
export { applicationWords, stepWords } from './step-words.ts';
export { standingAge } from './standing-age.ts';
export { fits, formOutside, spaceNeeded, spaceOf, takenUpAt } from './stays.ts';
