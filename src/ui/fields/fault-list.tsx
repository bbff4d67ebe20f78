/** Faults of the shop in words, one a line: where, what is there, and what is not right about it. */
import { For, Show, type JSX } from 'solid-js';
import type { FileFault } from '../engine/index.ts';

export const FaultList = (props: {
  readonly faults: readonly FileFault[];
  readonly where: (path: string) => JSX.Element;
}): JSX.Element => (
  <ul class="foot-faults">
    <For each={props.faults}>
      {(fault) => (
        <li>
          {props.where(fault.path)}
          <Show when={fault.found !== ''}> has {fault.found}</Show>: {fault.message}
        </li>
      )}
    </For>
  </ul>
);
