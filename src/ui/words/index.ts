/** How the screens say things. */
export { volumeText } from './amounts.ts';
export { applicationWords, applyStepOf, numberOf, stepBrief, stepTitle } from './step-words.ts';
