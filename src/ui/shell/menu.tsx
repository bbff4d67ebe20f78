/** The shop file in and out, the examples, light and dark. */
import { DropdownMenu } from '@kobalte/core/dropdown-menu';
import { useNavigate } from '@solidjs/router';
import { createSignal, For, type JSX } from 'solid-js';
import type { FileFault } from '../engine/index.ts';
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
  let picker!: HTMLInputElement;

  const open = async (file: File): Promise<void> => {
    try {
      setFaults(await session.openText(await file.text(), `open ${file.name}`));
    } catch (error) {
      setFaults([
        { path: file.name, found: '', message: error instanceof Error ? error.message : String(error) },
      ]);
    }
  };

  return (
    <>
      <input
        ref={(it) => (picker = it)}
        class="unseen"
        type="file"
        tabindex="-1"
        aria-hidden="true"
        aria-label="Shop file"
        accept=".json,application/json"
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          event.currentTarget.value = '';
          if (file) void open(file);
        }}
      />
      <DropdownMenu placement="bottom-end" modal={false}>
        <DropdownMenu.Trigger class="button mark-button" aria-label="Shop file and settings">
          <svg viewBox="0 0 24 24" aria-hidden="true">
            <path d="M4 7h16M4 12h16M4 17h10" />
          </svg>
        </DropdownMenu.Trigger>
        <DropdownMenu.Content class="menu">
          <DropdownMenu.Item class="menu-item" onSelect={() => picker.click()}>
            Open a shop file…
          </DropdownMenu.Item>
          <DropdownMenu.Item
            class="menu-item"
            onSelect={() => saveFile(session.exportText(), session.shop()?.name)}
          >
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

const saveFile = (text: string | null, shopName = 'shop'): void => {
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
