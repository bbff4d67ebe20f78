/** Fields that several sheets share: a room, level space, hands-on work. */
import { Show, type JSX } from 'solid-js';
import type { Room, Work } from '../../../engine/shop/index.ts';
import { Below, ChoiceField, Group, MeasureField, MinutesField, NumberField } from '../../fields/index.ts';
import { useSession } from '../../state/index.ts';

export const RoomChoice = (props: {
  readonly value: string;
  readonly change: (room: string) => void;
}): JSX.Element => {
  const session = useSession();
  const rooms = (): readonly Room[] => session.shop()?.rooms ?? [];
  return (
    <ChoiceField
      label="Room"
      path="room"
      value={props.value}
      choices={rooms().map(({ id, name }) => ({ value: id, name }))}
      change={(room) => props.change(room)}
    />
  );
};

interface Space {
  readonly areaCm2?: number;
  readonly spots?: number;
}

/** Level space is counted in spots, or measured. */
export const SpaceFields = (props: {
  readonly value: Space;
  readonly change: (space: Space) => void;
}): JSX.Element => (
  <>
    <ChoiceField
      label="Space is"
      path="space"
      value={props.value.areaCm2 === undefined ? 'spots' : 'area'}
      choices={[
        { value: 'spots', name: 'counted in spots' },
        { value: 'area', name: 'measured' },
      ]}
      change={(kind) =>
        props.change(
          kind === 'spots' ? { spots: 2, areaCm2: undefined } : { areaCm2: 6000, spots: undefined },
        )
      }
    />
    <Show
      when={props.value.areaCm2 !== undefined}
      fallback={
        <NumberField
          label="Spots"
          path="spots"
          hint="each takes one form or one piece"
          value={props.value.spots ?? Number.NaN}
          change={(spots) => props.change({ spots, areaCm2: undefined })}
        />
      }
    >
      <MeasureField
        label="Level area"
        path="areaCm2"
        measure="area"
        value={props.value.areaCm2 ?? Number.NaN}
        change={(areaCm2) => props.change({ areaCm2, spots: undefined })}
      />
    </Show>
  </>
);

/** Fixed minutes, minutes by size, and how many hands. */
export const WorkFields = (props: {
  readonly title: string;
  readonly note?: string;
  /** Where the work lies below the sheet's entry. */
  readonly path: string;
  readonly value: Work;
  readonly change: (work: Work) => void;
  readonly children?: JSX.Element;
}): JSX.Element => (
  <Group title={props.title} note={props.note}>
    <Below path={props.path}>
      <MinutesField
        label="Takes"
        path="minutes"
        value={props.value.minutes}
        change={(minutes) => props.change({ ...props.value, minutes })}
      />
      <NumberField
        label="and for every m²"
        path="minutesPerM2"
        unit="min"
        value={props.value.minutesPerM2}
        change={(minutesPerM2) => props.change({ ...props.value, minutesPerM2 })}
      />
      <NumberField
        label="People at once"
        path="hands"
        value={props.value.hands}
        change={(hands) => props.change({ ...props.value, hands })}
      />
    </Below>
    {props.children}
  </Group>
);
