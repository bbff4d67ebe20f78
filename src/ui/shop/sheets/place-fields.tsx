/** The sheets of forms, benches, warm boxes and tools. */
import type { JSX } from 'solid-js';
import type { Bench, Form, Tool, WarmBox } from '../../../engine/shop/index.ts';
import {
  Group,
  MeasureField,
  MinutesField,
  NumberField,
  OptionalMeasureField,
  TextField,
} from '../../fields/index.ts';
import { RoomChoice, SpaceFields } from './parts.tsx';

interface Sheet<T> {
  readonly value: T;
  readonly change: (next: T) => void;
}

/** Left out, a form takes 40 mm more than its inside each way. */
const RIM_MM = 80;

export const FormFields = (props: Sheet<Form>): JSX.Element => {
  const outside = (change: { readonly lengthMm?: number; readonly widthMm?: number }): Form['outside'] => {
    const next = { ...props.value.outside, ...change };
    if (next.lengthMm === undefined && next.widthMm === undefined) return undefined;
    return { lengthMm: next.lengthMm ?? Number.NaN, widthMm: next.widthMm ?? Number.NaN };
  };
  const inside = (change: Partial<Form['inside']>): void =>
    props.change({ ...props.value, inside: { ...props.value.inside, ...change } });
  return (
    <>
      <Group title="The form">
        <TextField
          label="Name"
          path="name"
          value={props.value.name}
          change={(name) => props.change({ ...props.value, name })}
        />
        <NumberField
          label="How many alike"
          path="count"
          value={props.value.count}
          change={(count) => props.change({ ...props.value, count })}
        />
        <MinutesField
          label="Cleaning after demolding"
          path="turnaroundMinutes"
          hint="hands-on; only then is it free again"
          value={props.value.turnaroundMinutes}
          change={(turnaroundMinutes) => props.change({ ...props.value, turnaroundMinutes })}
        />
      </Group>
      <Group title="Inside">
        <MeasureField
          label="Length"
          path="inside.lengthMm"
          measure="length"
          value={props.value.inside.lengthMm}
          change={(lengthMm) => inside({ lengthMm })}
        />
        <MeasureField
          label="Width"
          path="inside.widthMm"
          measure="length"
          value={props.value.inside.widthMm}
          change={(widthMm) => inside({ widthMm })}
        />
        <MeasureField
          label="Depth"
          path="inside.depthMm"
          measure="depth"
          value={props.value.inside.depthMm}
          change={(depthMm) => inside({ depthMm })}
        />
      </Group>
      <Group title="Outside" note="What it takes up on the bench.">
        <OptionalMeasureField
          label="Length outside"
          path="outside.lengthMm"
          measure="length"
          value={finite(props.value.outside?.lengthMm)}
          otherwise={props.value.inside.lengthMm + RIM_MM}
          change={(lengthMm) => props.change({ ...props.value, outside: outside({ lengthMm }) })}
        />
        <OptionalMeasureField
          label="Width outside"
          path="outside.widthMm"
          measure="length"
          value={finite(props.value.outside?.widthMm)}
          otherwise={props.value.inside.widthMm + RIM_MM}
          change={(widthMm) => props.change({ ...props.value, outside: outside({ widthMm }) })}
        />
      </Group>
    </>
  );
};

const finite = (value: number | undefined): number | undefined =>
  value !== undefined && Number.isNaN(value) ? undefined : value;

export const BenchFields = (props: Sheet<Bench>): JSX.Element => (
  <Group title="The bench" note="Level space on which forms and coated pieces stand while they set.">
    <TextField
      label="Name"
      path="name"
      value={props.value.name}
      change={(name) => props.change({ ...props.value, name })}
    />
    <RoomChoice value={props.value.room} change={(room) => props.change({ ...props.value, room })} />
    <SpaceFields value={props.value} change={(space) => props.change({ ...props.value, ...space })} />
  </Group>
);

export const WarmBoxFields = (props: Sheet<WarmBox>): JSX.Element => (
  <Group title="The warm box" note="A heated cabinet or tent; pieces cure in it at its own temperature.">
    <TextField
      label="Name"
      path="name"
      value={props.value.name}
      change={(name) => props.change({ ...props.value, name })}
    />
    <RoomChoice value={props.value.room} change={(room) => props.change({ ...props.value, room })} />
    <MeasureField
      label="Kept at"
      path="setDegC"
      measure="warmth"
      value={props.value.setDegC}
      change={(setDegC) => props.change({ ...props.value, setDegC })}
    />
    <MinutesField
      label="A piece is as warm after"
      path="heatUpMinutes"
      value={props.value.heatUpMinutes}
      change={(heatUpMinutes) => props.change({ ...props.value, heatUpMinutes })}
    />
    <SpaceFields value={props.value} change={(space) => props.change({ ...props.value, ...space })} />
  </Group>
);

export const ToolFields = (props: Sheet<Tool>): JSX.Element => (
  <Group title="The tool" note="Something only so many pieces can use at a time.">
    <TextField
      label="Name"
      path="name"
      value={props.value.name}
      change={(name) => props.change({ ...props.value, name })}
    />
    <RoomChoice value={props.value.room} change={(room) => props.change({ ...props.value, room })} />
    <NumberField
      label="How many"
      path="count"
      value={props.value.count}
      change={(count) => props.change({ ...props.value, count })}
    />
  </Group>
);
