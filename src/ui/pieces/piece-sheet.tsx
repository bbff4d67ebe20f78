/** The sheet of a piece: what it is, how large, for when; a new one sees its promise before it is saved. */
import { Show, type Accessor, type JSX } from 'solid-js';
import type { Piece, Shop } from '../../engine/index.ts';
import {
  ChoiceField,
  Group,
  KeysField,
  MeasureField,
  NativeField,
  NumberField,
  TextField,
} from '../fields/index.ts';
import { EntrySheet, RecipePicture, type Opened } from '../shop/index.ts';
import { useSession } from '../state/index.ts';
import { promisedAs, type Promised } from './promised-as.ts';
import { PromiseBoard } from './promise-board.tsx';

/** `2026-12-10T17:00` on the shop's clock, whatever the file wrote; a bare date is the end of that day, nothing stays nothing. */
const localMoment = (
  moment: string,
  iso: (minute: number) => string,
  parse: (text: string) => number | null,
): string => {
  if (moment === '') return '';
  if (!moment.includes('T')) return `${moment}T23:59`;
  const minute = parse(moment);
  return minute === null ? moment.slice(0, 16) : iso(minute).slice(0, 16);
};

export const PieceSheet = (props: {
  readonly opened: Opened<'pieces'>;
  readonly close: () => void;
}): JSX.Element => {
  const session = useSession();
  let promised: Promised | null = null;
  return (
    <EntrySheet<'pieces'>
      section="pieces"
      noun="piece"
      opened={props.opened}
      close={props.close}
      known={(piece) => (promised ? promisedAs(promised, piece.id) : undefined)}
      below={(draft, change, propose) => (
        <Show when={props.opened.fresh}>
          <Show when={session.shop()}>
            {(shop) => (
              <PromiseBoard
                shop={shop()}
                draft={draft}
                change={change}
                propose={propose}
                promised={(found) => (promised = found)}
              />
            )}
          </Show>
        </Show>
      )}
    >
      {(draft, change) => (
        <Show when={session.shop()}>
          {(shop) => <PieceFields value={draft} shop={shop()} change={change} fresh={props.opened.fresh} />}
        </Show>
      )}
    </EntrySheet>
  );
};

const PieceFields = (props: {
  readonly value: Accessor<Piece>;
  readonly shop: Shop;
  readonly fresh: boolean;
  readonly change: (next: Piece) => void;
}): JSX.Element => {
  const session = useSession();
  const piece = (): Piece => props.value();
  const put = (change: Partial<Piece>): void => props.change({ ...piece(), ...change });
  const local = (moment: string): string =>
    localMoment(
      moment,
      (minute) => session.clock().iso(minute),
      (text) => session.clock().parse(text),
    );
  const recipe = () => props.shop.recipes.find(({ id }) => id === piece().recipe);
  return (
    <>
      <Group title="The piece">
        <TextField label="Name" path="name" value={piece().name} change={(name) => put({ name })} />
        <ChoiceField
          label="Recipe"
          path="recipe"
          value={piece().recipe}
          choices={props.shop.recipes.map(({ id, name }) => ({ value: id, name }))}
          change={(id) => put({ recipe: id })}
        />
        <MeasureField
          label="Length"
          path="size.lengthMm"
          measure="length"
          value={piece().size.lengthMm}
          change={(lengthMm) => put({ size: { ...piece().size, lengthMm } })}
        />
        <MeasureField
          label="Width"
          path="size.widthMm"
          measure="length"
          value={piece().size.widthMm}
          change={(widthMm) => put({ size: { ...piece().size, widthMm } })}
        />
        <NativeField
          label="Promised for"
          path="due"
          kind="datetime-local"
          value={local(piece().due)}
          change={(due) => put({ due })}
        />
      </Group>
      <Show when={recipe()}>
        {(known) => <RecipePicture recipe={known()} shop={props.shop} size={piece().size} />}
      </Show>
      <Group title="Wishes">
        <NativeField
          label="Not begun before"
          path="earliest"
          kind="datetime-local"
          hint="left empty: as soon as it fits"
          value={piece().earliest === undefined ? '' : local(piece().earliest ?? '')}
          change={(earliest) => put({ earliest: earliest === '' ? undefined : earliest })}
        />
        <NumberField
          label="Weight of its promise"
          path="weight"
          hint="1 to 100: what is late counts so much more"
          value={piece().weight}
          change={(weight) => put({ weight })}
        />
        <KeysField
          label="Only in these forms (none down: whichever fits)"
          choices={props.shop.forms.map(({ id, name }) => ({ value: id, name }))}
          value={piece().forms ?? []}
          change={(forms) => put({ forms: forms.length === 0 ? undefined : forms })}
        />
      </Group>
    </>
  );
};
