/** What is wrong and has no field to stand at: said in words, above the buttons. */
import { For, Show, type JSX } from 'solid-js';
import type { Shop } from '../../engine/shop/index.ts';
import { pathWords } from './places.ts';
import { useSheet } from './sheet.tsx';

export const SheetFoot = (props: { readonly shop: Shop | null }): JSX.Element => {
  const sheet = useSheet();
  return (
    <div role="alert">
      <Show when={sheet.faults().length > 0}>
        <p class="foot-count">
          {sheet.faults().length === 1
            ? 'One thing is not right yet.'
            : `${sheet.faults().length} things are not right yet.`}
        </p>
        <ul class="foot-faults">
          <For each={sheet.unclaimed()}>
            {(fault) => (
              <li>
                <strong>{pathWords(fault.path, props.shop)}</strong>
                <Show when={fault.found !== ''}> has {fault.found}</Show>: {fault.message}
              </li>
            )}
          </For>
        </ul>
      </Show>
    </div>
  );
};
