/** The shop as a whole: its name and zone, its file out and in, and what in it is worth a look. */
import { createSignal, For, Show, type JSX } from 'solid-js';
import type { Shop } from '../../engine/shop/index.ts';
import type { FileFault } from '../engine/index.ts';
import { pathWords } from '../fields/index.ts';
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
  let picker: HTMLInputElement | undefined;
  const open = async (file: File): Promise<void> => {
    setFileName(file.name);
    try {
      setFaults(await session.openText(await file.text(), `open ${file.name}`));
    } catch (error) {
      setFaults([
        { path: file.name, found: '', message: error instanceof Error ? error.message : String(error) },
      ]);
    }
  };
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
        <input
          ref={(element) => (picker = element)}
          class="unseen"
          type="file"
          tabindex="-1"
          aria-hidden="true"
          aria-label="Shop file to open"
          accept=".json,application/json"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            event.currentTarget.value = '';
            if (file) void open(file);
          }}
        />
        <div class="sheet-acts">
          <button
            type="button"
            class="button primary"
            onClick={() => saveShop(session.exportText(), props.shop.name)}
          >
            Save the shop file
          </button>
          <button type="button" class="button" onClick={() => picker?.click()}>
            Open a shop file…
          </button>
        </div>
        <div role="alert">
          <Show when={faults().length > 0}>
            <p class="foot-count">
              {fileName()} was not opened; your shop is as it was. What is not right in it:
            </p>
            <ul class="foot-faults">
              <For each={faults()}>
                {(fault) => (
                  <li>
                    <code>{fault.path}</code>
                    <Show when={fault.found !== ''}> has {fault.found}</Show>: {fault.message}
                  </li>
                )}
              </For>
            </ul>
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

const saveShop = (text: string | null, shopName: string): void => {
  if (text === null) return;
  const name =
    shopName
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '') || 'shop';
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.download = `${name}.shop.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
};
