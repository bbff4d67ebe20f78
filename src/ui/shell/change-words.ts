/** What of a change is worth telling: who comes an hour later wants to know, five minutes are noise. */
import type { ZoneClock } from '../clock/index.ts';
import type { Moved } from '../state/index.ts';

/** Up to so many minutes, within its day, a step counts as where it was. Common practice, no source. */
const BY_MINUTES = 15;

export interface Sorted {
  /** Moved to another day or by more than a quarter of an hour; as in the list of all, the soonest first. */
  readonly far: readonly Moved[];
  /** Of these, how many to another day. */
  readonly toAnotherDay: number;
  readonly byMinutes: number;
}

export const sortedByReach = (moved: readonly Moved[], clock: ZoneClock): Sorted => {
  const isAnotherDay = ({ from, to }: Moved): boolean => clock.dayOf(from).start !== clock.dayOf(to).start;
  const far = moved.filter((one) => isAnotherDay(one) || Math.abs(one.to - one.from) > BY_MINUTES);
  return {
    far,
    toAnotherDay: far.filter(isAnotherDay).length,
    byMinutes: moved.length - far.length,
  };
};

/** Such as `8 steps moved, 5 of them to another day. Some others by minutes only.` */
export const movedWords = ({ far, toAnotherDay, byMinutes }: Sorted): string => {
  if (far.length === 0)
    return byMinutes === 0 ? 'Nothing else moved.' : 'Nothing else moved, but for some minutes.';
  const rest = byMinutes === 0 ? '' : ' Some others by minutes only.';
  return `${farWords(far.length, toAnotherDay)}.${rest}`;
};

const farWords = (count: number, toAnotherDay: number): string => {
  const moved = count === 1 ? 'One step moved' : `${count} steps moved`;
  if (toAnotherDay === 0) return `${moved}, ${count === 1 ? 'within its day' : 'each within its day'}`;
  if (toAnotherDay === count) return `${moved} to another day`;
  return `${moved}, ${toAnotherDay === 1 ? 'one of them' : `${toAnotherDay} of them`} to another day`;
};
