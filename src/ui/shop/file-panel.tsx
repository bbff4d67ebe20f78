/** The shop as a whole: its name and zone, its file out and in, and what in it is worth a look. */
import { createSignal, For, Show, type JSX } from 'solid-js';
import type { Shop } from '../../engine/shop/index.ts';
import type { FileFault } from '../engine/index.ts';
import { FaultList, pathWords } from '../fields/index.ts';
import { saveShop, ShopPicker } from '../files/index.ts';
import { useSession } from '../state/index.ts';
import { offText } from './hours/index.ts';
import { ShopSheet } from './sheets/shop-sheet.tsx';

export const FilePanel = (props: {
  readonly shop: Shop;
  readonly odd: readonly FileFault[];
}): JSX.Element => {
  const session = useSession();
  const [editing, setEditing] = createSignal(false);
  const [faults, setFaults] = createSignal<readonly FileFault[]>([]);
  const [fileName, setFileName] = createSignal('');
  let pick: () => void = () => undefined;
  return (
    <section aria-labelledby="part-file">
      <div class="part-head">
        <h2 id="part-file">{props.shop.name}</h2>
        <p>
          Clocks of {props.shop.zone};{' '}
          {props.shop.units === 'us' ? 'inches, US fluid ounces, °F' : 'mm, mL, °C'}.
        </p>
        <button type="button" class="button primary" onClick={() => setEditing(true)}>
          Change
        </button>
      </div>
      <Show when={props.shop.closures.length > 0}>
        <h3>Closed</h3>
        <ul>
          <For each={props.shop.closures}>{(off) => <li>{offText(off)}</li>}</For>
        </ul>
      </Show>
      <div class="plate file-card">
        <h3>The shop file</h3>
        <p>
          Everything on this screen and every piece, in one file that is yours. This device keeps it between
          visits; a saved file keeps it for good.
        </p>
        <ShopPicker
          label="Shop file to open"
          ready={(it) => (pick = it)}
          picked={(found, name) => {
            setFileName(name);
            setFaults(found);
          }}
        />
        <div class="sheet-acts">
          <button type="button" class="button primary" onClick={() => saveShop(session)}>
            Save the shop file
          </button>
          <button type="button" class="button" onClick={() => pick()}>
            Open a shop file…
          </button>
        </div>
        <div role="alert">
          <Show when={faults().length > 0}>
            <p class="foot-count">
              {fileName()} was not opened; your shop is as it was. What is not right in it:
            </p>
            <FaultList faults={faults()} where={(path) => <code>{path}</code>} />
          </Show>
        </div>
      </div>
      <Show when={props.odd.length > 0}>
        <h3>Worth a look</h3>
        <ul class="foot-faults remarks">
          <For each={props.odd}>
            {(fault) => (
              <li>
                <strong>{pathWords(fault.path, props.shop)}</strong>: {fault.message}
              </li>
            )}
          </For>
        </ul>
      </Show>
      <Show when={editing()}>
        <ShopSheet shop={props.shop} close={() => setEditing(false)} />
      </Show>
    </section>
  );
};
