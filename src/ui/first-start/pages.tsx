/** The pages on which one's own shop is written down: what is asked, why, and which places of the file it fills. */
import { Show, type Accessor, type JSX } from 'solid-js';
import type { Shop } from '../../engine/index.ts';
import { durationText } from '../clock/index.ts';
import {
  ChoiceField,
  Group,
  MeasureField,
  MinutesField,
  NativeField,
  NumberField,
  TextField,
  TickField,
  type Choice,
} from '../fields/index.ts';
import {
  hoursText,
  HoursEditor,
  RecipePicture,
  ResinPicture,
  RoomPicture,
  WeekStrip,
  zoneNames,
} from '../shop/index.ts';
import { freshHours } from '../shop/model/index.ts';
import {
  HOURS,
  hoursChoice,
  withCoat,
  withForm,
  withLayers,
  withSheetTimes,
  type HoursChoice,
} from './fresh-shop.ts';

export interface Page {
  readonly name: string;
  readonly title: string;
  readonly says: string;
  /** Whether a fault at this path of the shop file is mended here. */
  readonly holds: (path: string) => boolean;
  readonly fields: (draft: Accessor<Shop>, change: (next: Shop) => void) => JSX.Element;
}

const starts =
  (...parts: readonly string[]) =>
  (path: string): boolean =>
    parts.some((part) => path.startsWith(part));

export const PAGES: readonly Page[] = [
  {
    name: 'Shop',
    title: 'Your shop',
    says: 'What it is called, and by which clock it lives.',
    holds: starts('name', 'zone', 'units', 'people[0].name'),
    fields: (draft, change) => (
      <Group title="">
        <TextField
          label="Name of the shop"
          path="name"
          value={draft().name}
          change={(name) => change({ ...draft(), name })}
        />
        <TextField
          label="Your name"
          path="people[0].name"
          value={draft().people[0].name}
          change={(name) => change({ ...draft(), people: [{ ...draft().people[0], name }] })}
        />
        <TextField
          label="Time zone"
          path="zone"
          choices={zoneNames()}
          value={draft().zone}
          change={(zone) => change({ ...draft(), zone })}
        />
        <ChoiceField
          label="Units"
          path="units"
          value={draft().units}
          choices={[
            { value: 'metric', name: 'mm, mL, °C' },
            { value: 'us', name: 'inches, US fluid ounces, °F' },
          ]}
          change={(units) => change({ ...draft(), units })}
        />
      </Group>
    ),
  },
  {
    name: 'Warmth',
    title: 'How warm is it where the resin sets?',
    says: 'Resin cures by the warmth around it, hour by hour. A guess will do; a thermometer is better.',
    holds: starts('rooms'),
    fields: (draft, change) => {
      const room = (): Shop['rooms'][number] => draft().rooms[0];
      const pattern = (next: Partial<Shop['rooms'][number]['temperature']['pattern']>): void =>
        change({
          ...draft(),
          rooms: [
            {
              ...room(),
              temperature: { ...room().temperature, pattern: { ...room().temperature.pattern, ...next } },
            },
          ],
        });
      return (
        <>
          <Group title="">
            <MeasureField
              label="Coldest, at night"
              path="rooms[0].temperature.pattern.nightLowDegC"
              measure="warmth"
              value={room().temperature.pattern.nightLowDegC}
              change={(nightLowDegC) => pattern({ nightLowDegC })}
            />
            <MeasureField
              label="Warmest, by day"
              path="rooms[0].temperature.pattern.dayHighDegC"
              measure="warmth"
              value={room().temperature.pattern.dayHighDegC}
              change={(dayHighDegC) => pattern({ dayHighDegC })}
            />
          </Group>
          <RoomPicture room={room()} shop={draft()} />
        </>
      );
    },
  },
  {
    name: 'Hours',
    title: 'When are you there?',
    says: 'Mixing and pouring are planned only into these hours; what sets, sets while you sleep.',
    holds: starts('people[0].hours'),
    fields: (draft, change) => {
      const person = (): Shop['people'][number] => draft().people[0];
      const hours = (next: Shop['people'][number]['hours']): void =>
        change({ ...draft(), people: [{ ...person(), hours: next }] });
      return (
        <>
          <div class="keys" role="group" aria-label="Usual hours">
            <div class="keys-row">
              {CHOICES.map(({ value, name }) => (
                <button
                  type="button"
                  class="key"
                  aria-pressed={hoursChoice(person().hours) === value}
                  onClick={() => hours(HOURS[value])}
                >
                  {name}
                </button>
              ))}
            </div>
          </div>
          <WeekStrip hours={person().hours} unloved={[]} />
          <details class="own-more">
            <summary>
              {person().hours.map(hoursText).join('; ')} <span class="own-change">Change</span>
            </summary>
            <HoursEditor
              title="Is there"
              path="people[0].hours"
              lines={person().hours}
              fresh={freshHours}
              add="Add hours"
              change={hours}
            />
          </details>
        </>
      );
    },
  },
  {
    name: 'Form',
    title: 'What do you cast in?',
    says: 'The inside of your form, how many alike you have, and how many fit on level ground at once.',
    holds: starts('forms', 'benches'),
    fields: (draft, change) => {
      const form = (): Shop['forms'][number] => draft().forms[0];
      const inside = (next: Partial<Shop['forms'][number]['inside']>): void =>
        change(withForm(draft(), { ...form().inside, ...next }));
      return (
        <Group title="">
          <MeasureField
            label="Length inside"
            path="forms[0].inside.lengthMm"
            measure="length"
            value={form().inside.lengthMm}
            change={(lengthMm) => inside({ lengthMm })}
          />
          <MeasureField
            label="Width inside"
            path="forms[0].inside.widthMm"
            measure="length"
            value={form().inside.widthMm}
            change={(widthMm) => inside({ widthMm })}
          />
          <MeasureField
            label="Depth inside"
            path="forms[0].inside.depthMm"
            measure="depth"
            value={form().inside.depthMm}
            change={(depthMm) => inside({ depthMm })}
          />
          <NumberField
            label="How many alike"
            path="forms[0].count"
            value={form().count}
            change={(count) => change({ ...draft(), forms: [{ ...form(), count }] })}
          />
          <NumberField
            label="Level spots on the bench"
            path="benches[0].spots"
            hint="each takes one form or one coated piece"
            value={draft().benches[0].spots ?? Number.NaN}
            change={(spots) => change({ ...draft(), benches: [{ ...draft().benches[0], spots }] })}
          />
        </Group>
      );
    },
  },
  {
    name: 'Resin',
    title: 'Copy the resin’s sheet',
    says: 'The numbers of its maker always win over ours. Type times as 24 h, 3 days or 45 min.',
    holds: starts('resins'),
    fields: (draft, change) => {
      const resin = (): Shop['resins'][number] => draft().resins[0];
      const put = (next: Partial<Shop['resins'][number]>): void =>
        change({ ...draft(), resins: [{ ...resin(), ...next }] });
      const times = (next: Parameters<typeof withSheetTimes>[1]): void =>
        change(withSheetTimes(draft(), next));
      return (
        <>
          <Group title="">
            <TextField
              label="Name"
              path="resins[0].name"
              value={resin().name}
              change={(name) => put({ name })}
            />
            <ChoiceField
              label="Parts are counted"
              path="resins[0].mix.by"
              value={resin().mix.by}
              choices={[
                { value: 'volume', name: 'by volume' },
                { value: 'mass', name: 'by weight' },
              ]}
              change={(by) => put({ mix: { ...resin().mix, by } })}
            />
            <NumberField
              label="Parts A"
              path="resins[0].mix.a"
              value={resin().mix.a}
              change={(a) => put({ mix: { ...resin().mix, a } })}
            />
            <NumberField
              label="Parts B"
              path="resins[0].mix.b"
              value={resin().mix.b}
              change={(b) => put({ mix: { ...resin().mix, b } })}
            />
            <MeasureField
              label="Its times hold at"
              path="resins[0].referenceDegC"
              measure="warmth"
              value={resin().referenceDegC}
              change={(referenceDegC) => put({ referenceDegC })}
            />
            <MinutesField
              label="Working time"
              path="resins[0].workingTime.minutes"
              value={resin().workingTime.minutes}
              change={(minutes) => put({ workingTime: { ...resin().workingTime, minutes } })}
            />
            <MinutesField
              label="Next layer from (tacky)"
              path="resins[0].tackOpensMinutes"
              value={resin().tackOpensMinutes}
              change={(tackOpensMinutes) => times({ tackOpensMinutes })}
            />
            <MinutesField
              label="Next layer until (hard)"
              path="resins[0].tackClosesMinutes"
              value={resin().tackClosesMinutes}
              change={(tackClosesMinutes) => times({ tackClosesMinutes })}
            />
            <MinutesField
              label="Demold"
              path="resins[0].demoldMinutes"
              value={resin().demoldMinutes}
              change={(demoldMinutes) => times({ demoldMinutes })}
            />
            <MinutesField
              label="Full cure"
              path="resins[0].fullCureMinutes"
              value={resin().fullCureMinutes}
              change={(fullCureMinutes) => times({ fullCureMinutes })}
            />
            <MeasureField
              label="Deepest pour"
              path="resins[0].largestDepthMm"
              measure="depth"
              value={resin().largestDepthMm}
              change={(largestDepthMm) => put({ largestDepthMm })}
            />
            <MeasureField
              label="Largest cup"
              path="resins[0].largestBatchMl"
              measure="volume"
              value={resin().largestBatchMl}
              change={(largestBatchMl) => put({ largestBatchMl })}
            />
          </Group>
          <p class="own-says">
            Taken from these until you say otherwise: can be scuffed after{' '}
            {durationText(resin().scuffableMinutes)}, can be machined after{' '}
            {durationText(resin().machinableMinutes)}.
          </p>
          <ResinPicture resin={resin()} shop={draft()} />
        </>
      );
    },
  },
  {
    name: 'Recipe',
    title: 'How is a board made?',
    says: 'Layers are poured one onto the other while the one below is tacky.',
    holds: starts('recipes'),
    fields: (draft, change) => {
      const recipe = (): Shop['recipes'][number] => draft().recipes[0];
      const layers = (next: Partial<Shop['recipes'][number]['layers'][number]>): void =>
        change({
          ...draft(),
          recipes: [{ ...recipe(), layers: recipe().layers.map((layer) => ({ ...layer, ...next })) }],
        });
      const wood = (): number => {
        const first = recipe().layers[0].wood;
        return first && 'coverPercent' in first ? first.coverPercent : 0;
      };
      return (
        <>
          <Group title="">
            <TextField
              label="Name"
              path="recipes[0].name"
              value={recipe().name}
              change={(name) => change({ ...draft(), recipes: [{ ...recipe(), name }] })}
            />
            <ChoiceField
              label="Layers"
              path="recipes[0].layers"
              value={String(recipe().layers.length)}
              choices={['1', '2', '3', '4', '5'].map((count) => ({ value: count, name: count }))}
              change={(count) => change(withLayers(draft(), Number(count)))}
            />
            <MeasureField
              label="Depth of each"
              path="recipes[0].layers[0].depthMm"
              measure="depth"
              value={recipe().layers[0].depthMm ?? Number.NaN}
              change={(depthMm) => layers({ depthMm })}
            />
            <NumberField
              label="Wood in them"
              path="recipes[0].layers[0].wood.coverPercent"
              unit="%"
              hint="share of the area that is wood"
              value={wood()}
              change={(coverPercent) => layers({ wood: { coverPercent } })}
            />
            <MinutesField
              label="Preparing wood and form"
              path="recipes[0].prepare.work.minutes"
              value={recipe().prepare.work.minutes}
              change={(minutes) =>
                change({
                  ...draft(),
                  recipes: [
                    {
                      ...recipe(),
                      prepare: { ...recipe().prepare, work: { ...recipe().prepare.work, minutes } },
                    },
                  ],
                })
              }
            />
            <TickField
              label="A flood coat on top"
              value={recipe().coats.length > 0}
              change={(on) => change(withCoat(draft(), on))}
            />
          </Group>
          <RecipePicture recipe={recipe()} shop={draft()} />
        </>
      );
    },
  },
  {
    name: 'Piece',
    title: 'What is promised first?',
    says: 'Once the shop is open you see at once whether the date holds.',
    holds: starts('pieces'),
    fields: (draft, change) => {
      const put = (next: Partial<Shop['pieces'][number]>): void =>
        change({ ...draft(), pieces: draft().pieces.map((piece) => ({ ...piece, ...next })) });
      return (
        <Show when={draft().pieces[0]} fallback={<p>No piece yet: you add one on the screen Pieces.</p>}>
          {(piece) => (
            <Group title="">
              <TextField
                label="Name"
                path="pieces[0].name"
                value={piece().name}
                change={(name) => put({ name })}
              />
              <NativeField
                label="Promised for"
                path="pieces[0].due"
                kind="datetime-local"
                value={piece().due.slice(0, 16)}
                change={(due) => put({ due })}
              />
              <MeasureField
                label="Length"
                path="pieces[0].size.lengthMm"
                measure="length"
                value={piece().size.lengthMm}
                change={(lengthMm) => put({ size: { ...piece().size, lengthMm } })}
              />
              <MeasureField
                label="Width"
                path="pieces[0].size.widthMm"
                measure="length"
                value={piece().size.widthMm}
                change={(widthMm) => put({ size: { ...piece().size, widthMm } })}
              />
            </Group>
          )}
        </Show>
      );
    },
  },
];

const CHOICES: readonly Choice<HoursChoice>[] = [
  { value: 'evenings', name: 'Evenings and weekends' },
  { value: 'days', name: 'Weekdays, 08:00 to 17:00' },
  { value: 'weekends', name: 'Weekends only' },
];
