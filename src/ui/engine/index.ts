/** The engine as the screens see it: a worker behind one typed door. */
import { makeEngine, type Engine } from './engine.ts';

/** Starts the workers; they load beside the first picture. */
export const startEngine = (): Engine =>
  makeEngine(
    () => new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'pourwright-engine' }),
  );

export type { Engine, PlanJob } from './engine.ts';
export { makeEngine } from './engine.ts';
export type { WorkerLike } from './line.ts';
export type {
  ApplicationCure,
  ClosedSpan,
  LegalPlaces,
  Obstacle,
  PersonOpen,
  RoomAir,
  Span,
} from '../../engine/index.ts';
export type {
  FileFault,
  FileKind,
  Opened,
  Paper,
  PlanAnswer,
  Planned,
  PlanRequest,
  PromiseAnswer,
  Surroundings,
} from './protocol.ts';
