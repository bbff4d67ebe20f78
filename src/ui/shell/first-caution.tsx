/** On the first start, before anything else: what this is not. Read once, it stays away. */
import { Show, type JSX } from 'solid-js';
import { CAUTIONS } from '../../engine/mix/index.ts';
import { useView } from '../state/index.ts';

const FIRST = CAUTIONS.find(({ isDismissible }) => isDismissible);

export const FirstCaution = (): JSX.Element => {
  const view = useView();
  const isDue = (): boolean => FIRST !== undefined && view.putAway()?.includes(FIRST.id) === false;
  return (
    <Show when={isDue() && FIRST}>
      {(caution) => (
        <section class="first-caution" aria-label={caution().title}>
          <p>
            <strong>{caution().title}.</strong> {caution().text}
          </p>
          <button type="button" class="button" onClick={() => view.putAwayCaution(caution().id)}>
            I have read this
          </button>
        </section>
      )}
    </Show>
  );
};
