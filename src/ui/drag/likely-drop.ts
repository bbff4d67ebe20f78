/** The drop that is likely to come: the plan that would follow it is made while the hand rests over a legal place. */
import { createEffect, on, onCleanup, type Accessor } from 'solid-js';
import type { Minute } from '../clock/index.ts';
import type { Edit } from '../edits/index.ts';
import type { Held } from './held.ts';

/** Where letting go would put what is held. */
export interface Drop {
  readonly who: Held;
  readonly at: Minute;
  readonly form: string | null;
}

/** What rests so long over a legal place will probably be put down there. */
const LIKELY_MS = 25;

/**
 * @param drop the same object for as long as the hand rests there; null where nothing would be put down
 * @param foresee has the plan made that would follow; resolves once that is done
 * @returns the edit that letting go there is: the one that was foreseen, where one was
 */
export const createLikelyDrop = (
  drop: Accessor<Drop | null>,
  editOf: (drop: Drop) => Edit,
  foresee: (edit: Edit) => Promise<void>,
): ((drop: Drop) => Edit) => {
  let likely: { readonly drop: Drop; readonly edit: Edit } | null = null;
  let busyWith: Held | null = null;
  /** One at a time: when it is foreseen and the hand has moved on, the next one is what would follow then. */
  const look = async (): Promise<void> => {
    const here = drop();
    if (!here || busyWith === here.who || likely?.drop === here) return;
    busyWith = here.who;
    likely = { drop: here, edit: editOf(here) };
    await foresee(likely.edit);
    if (busyWith !== here.who) return;
    busyWith = null;
    rest();
  };
  let resting: ReturnType<typeof setTimeout> | undefined;
  const rest = (): void => {
    clearTimeout(resting);
    resting = setTimeout(() => void look(), LIKELY_MS);
  };
  createEffect(on(drop, rest, { defer: true }));
  onCleanup(() => clearTimeout(resting));
  return (here) => (likely?.drop === here ? likely.edit : editOf(here));
};
