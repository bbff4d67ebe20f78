/** The shop file in and out, the examples, light and dark. */
import { DropdownMenu } from '@kobalte/core/dropdown-menu';
import { useNavigate } from '@solidjs/router';
import { createSignal, For, type JSX } from 'solid-js';
import type { FileFault } from '../engine/index.ts';
import { saveShop, ShopPicker } from '../files/index.ts';
import { exampleNames, useSession, useView, type Theme } from '../state/index.ts';
import { FaultDialog } from './fault-dialog.tsx';

const THEMES: readonly { readonly theme: Theme; readonly name: string }[] = [
  { theme: 'system', name: 'Light or dark as the device' },
  { theme: 'light', name: 'Light' },
  { theme: 'dark', name: 'Dark' },
];

export const Menu = (): JSX.Element => {
  const session = useSession();
  const view = useView();
  const navigate = useNavigate();
  const [faults, setFaults] = createSignal<readonly FileFault[]>([]);
  let pick: () => void = () => undefined;

  return (
    <>
      <ShopPicker label="Shop file" ready={(it) => (pick = it)} picked={setFaults} />
      <DropdownMenu placement="bottom-end" modal={false}>
        <DropdownMenu.Trigger class="button mark-button" aria-label="Shop file and settings">
          <svg viewBox="0 0 24 24" aria-hidden="true">
            <path d="M4 7h16M4 12h16M4 17h10" />
          </svg>
        </DropdownMenu.Trigger>
        <DropdownMenu.Content class="menu">
          <DropdownMenu.Item class="menu-item" onSelect={() => pick()}>
            Open a shop file…
          </DropdownMenu.Item>
          <DropdownMenu.Item class="menu-item" onSelect={() => saveShop(session)}>
            Save the shop file
          </DropdownMenu.Item>
          <DropdownMenu.Item class="menu-item" onSelect={() => navigate('/start')}>
            Start another shop
          </DropdownMenu.Item>
          <DropdownMenu.Item class="menu-item" onSelect={() => session.planAgain()}>
            Plan again
          </DropdownMenu.Item>
          <DropdownMenu.Separator class="menu-rule" />
          <DropdownMenu.Group>
            <DropdownMenu.GroupLabel class="menu-label">Examples</DropdownMenu.GroupLabel>
            <For each={exampleNames()}>
              {(name) => (
                <DropdownMenu.Item
                  class="menu-item"
                  onSelect={() =>
                    void session.openExample(name).catch((error: unknown) =>
                      setFaults([
                        {
                          path: name,
                          found: '',
                          message: error instanceof Error ? error.message : String(error),
                        },
                      ]),
                    )
                  }
                >
                  {name.charAt(0).toUpperCase() + name.slice(1).replaceAll('-', ' ')}
                </DropdownMenu.Item>
              )}
            </For>
          </DropdownMenu.Group>
          <DropdownMenu.Separator class="menu-rule" />
          <DropdownMenu.RadioGroup
            value={view.theme()}
            onChange={(theme) => view.setTheme(THEMES.find((one) => one.theme === theme)?.theme ?? 'system')}
          >
            <For each={THEMES}>
              {({ theme, name }) => (
                <DropdownMenu.RadioItem class="menu-item" value={theme}>
                  <DropdownMenu.ItemIndicator class="menu-tick">✓</DropdownMenu.ItemIndicator>
                  {name}
                </DropdownMenu.RadioItem>
              )}
            </For>
          </DropdownMenu.RadioGroup>
        </DropdownMenu.Content>
      </DropdownMenu>
      <FaultDialog faults={faults()} close={() => setFaults([])} />
    </>
  );
};
