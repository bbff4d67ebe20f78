/** How the screens say things. */
export { volumeText } from './amounts.ts';
export { planWords } from './plan-words.ts';
export { applicationWords, applyStepOf, mixStepOf, numberOf, stepBrief, stepTitle } from './step-words.ts';
