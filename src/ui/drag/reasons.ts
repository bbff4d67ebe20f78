/** What is said at the pointer: the reasons against a place, the most telling first, few enough to be read in passing. */
import type { Obstacle } from '../engine/index.ts';

const SAID = 2;

/** "window closes 14:20; form 2 is full until Thu 09:15", or "" when there is nothing to say. */
export const reasonText = (why: readonly Obstacle[]): string => {
  const texts = [...new Set(why.map((obstacle) => obstacle.text))];
  const said = texts.slice(0, SAID).join('; ');
  return texts.length > SAID ? `${said}; and more` : said;
};

/** Kinds that no change of the plan can clear: only another time will do. */
const FIXED: readonly Obstacle['kind'][] = ['past', 'hours', 'air'];

/** Whether moving other steps could ever make room here. */
export const isMovable = (why: readonly Obstacle[]): boolean =>
  why.every((obstacle) => !FIXED.includes(obstacle.kind) && !isHardCure(obstacle));

/** Chemistry waits for nobody: what is not cured yet can only be helped by an earlier pour. */
const isHardCure = (obstacle: Obstacle): boolean => obstacle.kind === 'working-time';

export const othersOf = (why: readonly Obstacle[]): readonly string[] => [
  ...new Set(why.flatMap((obstacle) => obstacle.others)),
];

/** Whether the window is the trouble because it has closed by then. */
export const isTooLate = (why: readonly Obstacle[]): boolean =>
  why.some((obstacle) => obstacle.kind === 'window' && obstacle.text.includes('closes'));
