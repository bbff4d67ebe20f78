/** What the plan remarks on a piece or a step, told beside it. */
export { Remarks } from './remarks.tsx';
export { remarksOf, unpinPassed, type Remark } from './remarks-of.ts';
