/** How the screens say things. */
export { volumeText } from './amounts.ts';
export { applicationWords, applyStepOf, numberOf, stepTitle } from './step-words.ts';
