/** The sheet of a person: when they are there, when they would rather not, what they can do. */
import type { JSX } from 'solid-js';
import type { Person, Skill } from '../../../engine/shop/index.ts';
import { Group, KeysField, TextField, type Choice } from '../../fields/index.ts';
import { useSession } from '../../state/index.ts';
import { HoursEditor, OffEditor, WeekStrip } from '../hours/index.ts';
import { freshHours } from '../model/fresh.ts';

const SKILLS: readonly Choice<Skill>[] = [
  { value: 'prepare', name: 'prepare' },
  { value: 'pour', name: 'mix and pour' },
  { value: 'demold', name: 'demold' },
  { value: 'flatten', name: 'flatten' },
  { value: 'sand', name: 'sand and scuff' },
  { value: 'finish', name: 'finish' },
];

export const PersonFields = (props: {
  readonly value: Person;
  readonly change: (next: Person) => void;
}): JSX.Element => {
  const session = useSession();
  return (
    <>
      <Group title="Who">
        <TextField
          label="Name"
          path="name"
          value={props.value.name}
          change={(name) => props.change({ ...props.value, name })}
        />
        <KeysField
          label="Can"
          choices={SKILLS}
          value={props.value.can}
          change={(can) => props.change({ ...props.value, can })}
        />
      </Group>
      <WeekStrip hours={props.value.hours} unloved={props.value.unloved} />
      <HoursEditor
        title="Is there"
        path="hours"
        lines={props.value.hours}
        fresh={freshHours}
        add="Add hours"
        change={(hours) => props.change({ ...props.value, hours })}
      />
      <HoursEditor
        title="Would rather not"
        note="Hours inside the ones above that the plan leaves free where it costs nothing else."
        path="unloved"
        lines={props.value.unloved}
        fresh={() => ({ ...freshHours(), from: '21:00', to: '22:00' })}
        add="Add hours not loved"
        change={(unloved) => props.change({ ...props.value, unloved })}
      />
      <OffEditor
        title="Is away"
        path="off"
        lines={props.value.off}
        today={session.clock().dayOf(session.now()).isoDate}
        change={(off) => props.change({ ...props.value, off })}
      />
    </>
  );
};
