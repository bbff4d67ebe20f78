/** The scheduler: a model of starts, choices, lags, resources and objective levels in; a proved or best-so-far assignment out. */
export * from './model.ts';
export { modelFaults } from './model-faults.ts';
export { clashOf, solve } from './solve.ts';
export { verify } from './verify.ts';
export { evaluate } from './evaluate.ts';
export { blockers, legalStarts, makeOracle, type Blocker, type Oracle } from './legal-starts.ts';
export {
  composeMaps,
  constantLag,
  earlierOf,
  laterOf,
  nextOpen,
  tableMap,
  workedBy,
  type GainMap,
} from './maps.ts';
export { readFlexibleJobShop, readJobShop, readSch } from './textbook.ts';
export { checkProof, type Verdict } from './proof/check-proof.ts';
export { solveWithProof, type Proved } from './proof/write-proof.ts';
