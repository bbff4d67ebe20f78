/** An answer of the scheduler, asked in the shop's words: which option holds, when a block begins and ends. */
import { NEVER } from '../schedule/index.ts';
import type { Assignment, Literal } from '../schedule/index.ts';
import type { Bench, Form } from '../shop/index.ts';
import type { Crew, Option, PieceRoute, RoutedBlock, Standing } from '../routing/index.ts';

export const holds = ({ choices }: Assignment, literal: Literal): boolean =>
  choices[literal >> 1] === ((literal & 1) === 0);

export const allHold = (answer: Assignment, when: readonly Literal[]): boolean =>
  when.every((literal) => holds(answer, literal));

/** The option that the answer took; undefined where there was none to take. */
export const taken = <T>(answer: Assignment, options: readonly Option<T>[]): T | undefined =>
  options.find((o) => allHold(answer, o.when))?.value;

export interface BlockTimes {
  readonly start: number;
  /** When its first step began; before or behind `start` only by the record. */
  readonly begins: number;
  readonly end: number;
}

/** Where and by whom a piece is made, and when each of its blocks is done; blocks left out (a scuff) are not in it. */
export interface PieceReading {
  readonly route: PieceRoute;
  readonly times: ReadonlyMap<string, BlockTimes>;
  readonly crew: ReadonlyMap<string, Crew>;
  readonly form: Form | undefined;
  readonly formBench: Bench | undefined;
  readonly formStanding: Standing | undefined;
  readonly restBench: Bench | undefined;
  readonly coatBench: Bench | undefined;
  readonly coatStanding: Standing | undefined;
}

export const isPresent = (answer: Assignment, block: RoutedBlock): boolean => allHold(answer, block.present);

export function readPiece(answer: Assignment, route: PieceRoute): PieceReading {
  const times = new Map<string, BlockTimes>();
  const crew = new Map<string, Crew>();
  for (const routed of route.blocks) {
    const { block, past, crews } = routed;
    if (!isPresent(answer, routed)) continue;
    // A scuff that the record passed over was never made.
    if (block.optionalFor && !past && isPastStep(route, block.optionalFor)) continue;
    const start = answer.starts[routed.start];
    const end = past?.end ?? taken(answer, routed.ends)?.at(start) ?? start;
    times.set(block.id, { start, begins: past?.begins ?? start, end: Math.min(end, NEVER) });
    const people = taken(answer, crews);
    if (people) crew.set(block.id, people);
  }
  return {
    route,
    times,
    crew,
    form: taken(answer, route.forms),
    formBench: taken(answer, route.formBenches),
    formStanding: taken(answer, route.formStandings),
    restBench: taken(answer, route.restBenches),
    coatBench: taken(answer, route.coatBenches),
    coatStanding: taken(answer, route.coatStandings),
  };
}

const isPastStep = (route: PieceRoute, application: string): boolean =>
  route.blocks.some((b) => b.block.application?.id === application && b.past !== null);
