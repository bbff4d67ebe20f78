/** How the screens say things. */
export { batchOf, massText, volumeText, type Batch, type Part } from './amounts.ts';
export { applicationWords, applyStepOf, numberOf, stepTitle } from './step-words.ts';
