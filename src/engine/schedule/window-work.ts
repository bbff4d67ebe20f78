/** What it takes to set up a window that is solved anew, in steps about as long as those of the exact search. */

const STEPS_EACH = 2;
const STEPS_FREE = 20;

/** To choose what is free, among `all`. */
export const stepsToChoose = (all: number): number => STEPS_EACH * all;

/** To build the problem of the `free` ones. */
export const stepsToBuild = (free: number): number => STEPS_FREE * free;
