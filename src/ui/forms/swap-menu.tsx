/** The pieces with which the picked piece could change forms, behind one button; no button where there is none. */
import { DropdownMenu } from '@kobalte/core/dropdown-menu';
import { createMemo, For, Show, type JSX } from 'solid-js';
import { swapForms } from '../edits/index.ts';
import { useSession } from '../state/index.ts';
import { swapsOf, type Swap } from './model/index.ts';

export const SwapMenu = (props: { readonly piece: string }): JSX.Element => {
  const session = useSession();
  const swaps = createMemo((): readonly Swap[] => {
    const shop = session.shop();
    const plan = session.planned()?.plan;
    return shop && plan ? swapsOf(shop, plan, props.piece) : [];
  });
  const swap = ({ own, other }: Swap): void =>
    session.edit(
      swapForms(
        { piece: own.piece.id, form: own.form.id },
        { piece: other.piece.id, form: other.form.id },
        `swap the forms of ${own.piece.name} and ${other.piece.name}`,
      ),
    );
  return (
    <Show when={swaps().length > 0}>
      <DropdownMenu placement="top-start" modal={false}>
        <DropdownMenu.Trigger class="button">Swap forms with…</DropdownMenu.Trigger>
        <DropdownMenu.Portal>
          <DropdownMenu.Content class="menu swap-menu">
            <For each={swaps()}>
              {(one) => (
                <DropdownMenu.Item class="menu-item" onSelect={() => swap(one)}>
                  {one.other.piece.name}, {one.other.form.name}
                </DropdownMenu.Item>
              )}
            </For>
          </DropdownMenu.Content>
        </DropdownMenu.Portal>
      </DropdownMenu>
    </Show>
  );
};
