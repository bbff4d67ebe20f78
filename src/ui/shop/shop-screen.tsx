/** The Shop screen: everything the shop has and how it behaves, each thing drawn and one touch from its sheet. */
import { Tabs } from '@kobalte/core/tabs';
import { createSignal, For, Show, type JSX } from 'solid-js';
import type {
  Bench,
  Form,
  Person,
  Recipe,
  Resin,
  Room,
  Shop,
  Tool,
  WarmBox,
} from '../../engine/shop/index.ts';
import type { FileFault } from '../engine/index.ts';
import { isUnder, pathWords } from '../fields/index.ts';
import { createAnswer, useSession } from '../state/index.ts';
import { FilePanel } from './file-panel.tsx';
import { WeekStrip } from './hours/index.ts';
import {
  freshBench,
  freshForm,
  freshPerson,
  freshRecipe,
  freshResin,
  freshRoom,
  freshTool,
  freshWarmBox,
} from './model/fresh.ts';
import { pathOf, type EntryOf, type Section } from './model/sections.ts';
import {
  benchLines,
  formLines,
  personLines,
  recipeLines,
  resinLines,
  toolLines,
  warmBoxLines,
} from './model/summary.ts';
import { RecipePicture } from './pictures/recipe-picture.tsx';
import { ResinPicture } from './pictures/resin-picture.tsx';
import { RoomPicture } from './pictures/room-picture.tsx';
import { EntrySheet, type Opened } from './sheets/entry-sheet.tsx';
import { PersonFields } from './sheets/person-fields.tsx';
import { BenchFields, FormFields, ToolFields, WarmBoxFields } from './sheets/place-fields.tsx';
import { RecipeFields } from './sheets/recipe-fields.tsx';
import { ResinFields } from './sheets/resin-fields.tsx';
import { RoomFields } from './sheets/room-fields.tsx';
import './shop.css';

export const ShopScreen = (): JSX.Element => {
  const session = useSession();
  /** What is legal in the shop and yet worth a look. */
  const odd = createAnswer(
    session.shop,
    async (shop): Promise<readonly FileFault[]> => {
      const read = await session.engine.ask('open', { text: JSON.stringify(shop) });
      return read.ok ? read.warnings : [];
    },
    [],
  );
  return (
    <Show when={session.shop()} fallback={<p class="loading">One moment…</p>}>
      {(shop) => (
        <Tabs class="shop" defaultValue="people">
          <Tabs.List class="shop-parts" aria-label="Parts of the shop">
            <For each={PARTS}>
              {({ part, name }) => (
                <Tabs.Trigger class="shop-part" value={part}>
                  {name}
                  <Show when={odd().some((fault) => fault.path.startsWith(`${part}[`))}>
                    <span class="odd-mark" title="something here is worth a look">
                      <span aria-hidden="true">?</span>
                      <span class="unseen"> worth a look</span>
                    </span>
                  </Show>
                </Tabs.Trigger>
              )}
            </For>
          </Tabs.List>
          <Tabs.Content class="shop-panel" value="people">
            <Part<'people'>
              section="people"
              noun="person"
              plural="People and hours"
              says="Who works here, when, and what each can do. Hands-on work is planned only into these hours."
              shop={shop()}
              odd={odd()}
              fresh={freshPerson}
              lines={(person) => personLines(person, session.clock().dayOf(session.now()).isoDate)}
              picture={(person) => <WeekStrip hours={person.hours} unloved={person.unloved} />}
              fields={(value, change) => <PersonFields value={value()} change={change} />}
            />
          </Tabs.Content>
          <Tabs.Content class="shop-panel" value="rooms">
            <Part<'rooms'>
              section="rooms"
              noun="room"
              plural="Rooms"
              says="How warm it is, hour by hour, is how fast resin cures. Add what the thermometer says whenever it differs."
              shop={shop()}
              odd={odd()}
              fresh={freshRoom}
              wide
              lines={(room) =>
                typeof room.humidityPercent === 'number' ? [`air at ${room.humidityPercent} % humidity`] : []
              }
              picture={(room) => <RoomPicture room={room} shop={shop()} />}
              fields={(value, change) => <RoomFields value={value()} change={change} />}
            />
          </Tabs.Content>
          <Tabs.Content class="shop-panel" value="forms">
            <Part<'forms'>
              section="forms"
              noun="form"
              plural="Forms"
              says="A form is held from preparing until it is clean again."
              shop={shop()}
              odd={odd()}
              fresh={freshForm}
              lines={(form) => formLines(form, shop().units)}
              fields={(value, change) => <FormFields value={value()} change={change} />}
            />
          </Tabs.Content>
          <Tabs.Content class="shop-panel" value="benches">
            <Part<'benches'>
              section="benches"
              noun="bench"
              plural="Benches"
              says="Level space. A form in use and a coated piece each need a place on one."
              shop={shop()}
              odd={odd()}
              fresh={freshBench}
              lines={(bench) => benchLines(bench, shop())}
              fields={(value, change) => <BenchFields value={value()} change={change} />}
            />
          </Tabs.Content>
          <Tabs.Content class="shop-panel" value="warmBoxes">
            <Part<'warmBoxes'>
              section="warmBoxes"
              noun="warm box"
              plural="Warm boxes"
              says="A piece in a warm box cures at its warmth, not at the room's."
              shop={shop()}
              odd={odd()}
              fresh={freshWarmBox}
              lines={(box) => warmBoxLines(box, shop())}
              fields={(value, change) => <WarmBoxFields value={value()} change={change} />}
            />
          </Tabs.Content>
          <Tabs.Content class="shop-panel" value="tools">
            <Part<'tools'>
              section="tools"
              noun="tool"
              plural="Tools"
              says="Tools that only so many pieces can use at once, such as a router sled."
              shop={shop()}
              odd={odd()}
              fresh={freshTool}
              lines={(tool) => toolLines(tool, shop())}
              fields={(value, change) => <ToolFields value={value()} change={change} />}
            />
          </Tabs.Content>
          <Tabs.Content class="shop-panel" value="resins">
            <Part<'resins'>
              section="resins"
              noun="resin"
              plural="Resins"
              says="The numbers of each maker's sheet, and how they move with the warmth."
              shop={shop()}
              odd={odd()}
              fresh={freshResin}
              wide
              lines={(resin) => resinLines(resin, shop().units)}
              picture={(resin) => <ResinPicture resin={resin} shop={shop()} />}
              fields={(value, change) => <ResinFields value={value()} change={change} />}
            />
          </Tabs.Content>
          <Tabs.Content class="shop-panel" value="recipes">
            <Part<'recipes'>
              section="recipes"
              noun="recipe"
              plural="Recipes"
              says="How a kind of piece is made: what lies on what, and the work around it."
              shop={shop()}
              odd={odd()}
              fresh={freshRecipe}
              wide
              lines={recipeLines}
              picture={(recipe) => <RecipePicture recipe={recipe} shop={shop()} />}
              fields={(value, change) => <RecipeFields value={value()} change={change} />}
            />
          </Tabs.Content>
          <Tabs.Content class="shop-panel" value="file">
            <FilePanel shop={shop()} odd={odd()} />
          </Tabs.Content>
        </Tabs>
      )}
    </Show>
  );
};

const PARTS = [
  { part: 'people', name: 'People' },
  { part: 'rooms', name: 'Rooms' },
  { part: 'forms', name: 'Forms' },
  { part: 'benches', name: 'Benches' },
  { part: 'warmBoxes', name: 'Warm boxes' },
  { part: 'tools', name: 'Tools' },
  { part: 'resins', name: 'Resins' },
  { part: 'recipes', name: 'Recipes' },
  { part: 'file', name: 'The shop' },
] as const;

type Entry = Person | Room | Form | Bench | WarmBox | Tool | Resin | Recipe;
type PartSection = Exclude<Section, 'pieces'>;

/** One list of the shop with its sheet. */
const Part = <S extends PartSection>(props: {
  readonly section: S;
  readonly noun: string;
  readonly plural: string;
  readonly says: string;
  readonly shop: Shop;
  readonly odd: readonly FileFault[];
  readonly fresh: (id: string, shop: Shop) => EntryOf<S>;
  readonly lines: (entry: EntryOf<S>) => readonly string[];
  readonly picture?: (entry: EntryOf<S>) => JSX.Element;
  readonly fields: (value: () => EntryOf<S>, change: (next: EntryOf<S>) => void) => JSX.Element;
  readonly wide?: boolean;
}): JSX.Element => {
  const [opened, setOpened] = createSignal<Opened<S> | null>(null);
  const entries = (): readonly EntryOf<S>[] => props.shop[props.section];
  const remarks = (entry: Entry): readonly FileFault[] => {
    const path = pathOf(props.shop, props.section, entry.id);
    return props.odd.filter((fault) => isUnder(fault, path));
  };
  return (
    <section aria-labelledby={`part-${props.section}`}>
      <div class="part-head">
        <h2 id={`part-${props.section}`}>{props.plural}</h2>
        <p>{props.says}</p>
        <button
          type="button"
          class="button primary"
          onClick={() =>
            setOpened({ entry: props.fresh(props.noun.replace(/\s+/g, '-'), props.shop), fresh: true })
          }
        >
          Add a {props.noun}
        </button>
      </div>
      <Show when={entries().length > 0} fallback={<p class="part-empty">None yet.</p>}>
        <ul class="things" classList={{ 'things-wide': props.wide }}>
          <For each={entries()}>
            {(entry) => (
              <li class="plate thing">
                <h3>{entry.name}</h3>
                <For each={props.lines(entry)}>{(line) => <p>{line}</p>}</For>
                {props.picture?.(entry)}
                <For each={remarks(entry)}>
                  {(fault) => (
                    <p class="remark">
                      <strong>Worth a look:</strong> {pathWords(fault.path, props.shop)}: {fault.message}
                    </p>
                  )}
                </For>
                <button
                  type="button"
                  class="button"
                  aria-label={`Change ${entry.name}`}
                  onClick={() => setOpened({ entry, fresh: false })}
                >
                  Change
                </button>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <Show when={opened()} keyed>
        {(now) => (
          <EntrySheet<S>
            section={props.section}
            opened={now}
            noun={props.noun}
            close={() => setOpened(null)}
            another={(entry) => setOpened({ entry: { ...entry, name: `${entry.name} 2` }, fresh: true })}
          >
            {(draft, change) => props.fields(draft, change)}
          </EntrySheet>
        )}
      </Show>
    </section>
  );
};
