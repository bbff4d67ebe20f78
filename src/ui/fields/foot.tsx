/** What is wrong and has no field to stand at: said in words, above the buttons. */
import { Show, type JSX } from 'solid-js';
import type { Shop } from '../../engine/shop/index.ts';
import { FaultList } from './fault-list.tsx';
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
        <FaultList
          faults={sheet.unclaimed()}
          where={(path) => <strong>{pathWords(path, props.shop)}</strong>}
        />
      </Show>
    </div>
  );
};
