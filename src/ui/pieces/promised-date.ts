/** The date in a draft beside what can be promised: one that holds is put there while the maker has typed none. */
import { createEffect, createMemo, type Accessor } from 'solid-js';
import type { Piece } from '../../engine/index.ts';
import type { Minute } from '../clock/index.ts';
import { useSession } from '../state/index.ts';
import type { Offer, Offers } from './promise-offers.ts';

export interface PromisedDate {
  /** What the draft's date is read as; null where it is none. */
  readonly due: Accessor<Minute | null>;
  /** The draft, promised for that minute. */
  dueAt(minute: Minute): Piece;
}

/**
 * @param propose changes the draft without the maker having written anything
 * @param promised told of the offer that the date in the draft is of, and when there is none any more
 */
export const createPromisedDate = (
  draft: Accessor<Piece>,
  offers: Accessor<Offers>,
  propose: (next: Piece) => void,
  promised: (offer: Offer | null) => void,
): PromisedDate => {
  const session = useSession();
  const minuteIn = (due: string): Minute | null =>
    session.clock().parse(due.includes('T') ? due : `${due}T23:59`);
  const due = createMemo(() => minuteIn(draft().due));
  const dueAt = (minute: Minute): Piece => ({ ...draft(), due: session.clock().iso(minute).slice(0, 16) });

  const first = draft().due;
  let proposed = first;
  createEffect(() => {
    const { calm } = offers();
    if (!calm || draft().due !== proposed) return;
    const next = calm.safe > (minuteIn(first) ?? 0) ? dueAt(calm.safe) : { ...draft(), due: first };
    if (next.due === proposed) return;
    proposed = next.due;
    propose(next);
  });
  createEffect(() => {
    const { calm, sooner } = offers();
    const minute = due();
    promised(calm && sooner && minute !== null && minute < calm.ready ? sooner : calm);
  });
  return { due, dueAt };
};
