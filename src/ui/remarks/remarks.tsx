/** Remarks as lines with a mark each, that stand beside what they are about. */
import { For, type JSX } from 'solid-js';
import type { Remark } from './remarks-of.ts';
import './remarks.css';

/** A flake for the cold that holds cure up; a pin that lies on its side. */
const MARKS: Readonly<Record<Remark['kind'], string>> = {
  stall: 'M12 2v20M3.3 7l17.4 10M20.7 7 3.3 17M9 3.5l3 3 3-3M9 20.5l3-3 3 3',
  'passed-pin': 'M2 12h7M9 5v14M9 7h7l4-2v14l-4-2H9',
};

export const Remarks = (props: { readonly remarks: readonly Remark[] }): JSX.Element => (
  <For each={props.remarks}>
    {(remark) => (
      <p class="plan-remark">
        <svg viewBox="0 0 24 24" aria-hidden="true">
          <path d={MARKS[remark.kind]} />
        </svg>
        {remark.says}
      </p>
    )}
  </For>
);
