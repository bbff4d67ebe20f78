/** The sheet of a recipe: what lies on what, drawn to scale beside it, and the work around it. */
import { Index, Show, type JSX } from 'solid-js';
import type { Coat, Layer, Recipe, Tool } from '../../../engine/shop/index.ts';
import { Below, ChoiceField, Group, TextField, TickField } from '../../fields/index.ts';
import { useSession } from '../../state/index.ts';
import { freshCoat, freshLayer, freshSeal, freshWork } from '../model/fresh.ts';
import { RecipePicture } from '../pictures/recipe-picture.tsx';
import { LayerFields, ThinFields } from './layer-fields.tsx';
import { WorkFields } from './parts.tsx';

type Machining = NonNullable<Recipe['flatten']>;

export const RecipeFields = (props: {
  readonly value: Recipe;
  readonly change: (next: Recipe) => void;
}): JSX.Element => {
  const session = useSession();
  const put = (change: Partial<Recipe>): void => props.change({ ...props.value, ...change });
  const firstResin = (kind?: string): string => {
    const resins = session.shop()?.resins ?? [];
    return (resins.find((resin) => resin.kind === kind) ?? resins[0])?.id ?? '';
  };
  const layer = (at: number, next: Layer): void =>
    put({ layers: props.value.layers.map((known, n) => (n === at ? next : known)) });
  const coat = (at: number, next: Coat): void =>
    put({ coats: props.value.coats.map((known, n) => (n === at ? next : known)) });
  return (
    <Show when={session.shop()}>
      {(shop) => (
        <>
          <Group title="The recipe">
            <TextField
              label="Name"
              path="name"
              wide
              value={props.value.name}
              change={(name) => put({ name })}
            />
          </Group>
          <RecipePicture recipe={props.value} shop={shop()} />
          <WorkFields
            title="Prepare wood and form"
            path="prepare.work"
            value={props.value.prepare.work}
            change={(work) => put({ prepare: { ...props.value.prepare, work } })}
          >
            <SplitTick
              value={props.value.prepare.split}
              change={(split) => put({ prepare: { ...props.value.prepare, split } })}
            />
          </WorkFields>
          <Group title="Seal" note="A thin coat on the wood, so that it does not gas bubbles into the pour.">
            <TickField
              label="Seal the wood first"
              value={props.value.seal !== undefined}
              change={(on) => put({ seal: on ? freshSeal(firstResin('seal')) : undefined })}
            />
            <Show when={props.value.seal}>
              {(seal) => (
                <Below path="seal">
                  <ThinFields
                    value={seal()}
                    shop={shop()}
                    change={(next) => put({ seal: { ...seal(), ...next } })}
                  />
                </Below>
              )}
            </Show>
          </Group>
          <Index each={props.value.layers}>
            {(one, at) => (
              <Below path={`layers[${at}]`}>
                <LayerFields
                  number={at + 1}
                  value={one()}
                  shop={shop()}
                  change={(next) => layer(at, next)}
                  remove={
                    props.value.layers.length > 1
                      ? () => put({ layers: props.value.layers.filter((_, n) => n !== at) })
                      : undefined
                  }
                />
              </Below>
            )}
          </Index>
          <button
            type="button"
            class="button"
            onClick={() => {
              const last = props.value.layers.at(-1);
              put({ layers: [...props.value.layers, last ?? freshLayer(firstResin('casting'))] });
            }}
          >
            Add a layer on top
          </button>
          <WorkFields
            title="Scuff, when a window was missed"
            path="scuff.work"
            value={props.value.scuff.work}
            change={(work) => put({ scuff: { work } })}
          />
          <WorkFields
            title="Demold"
            path="demold.work"
            value={props.value.demold.work}
            change={(work) => put({ demold: { work } })}
          />
          <MachiningFields
            title="Flatten"
            path="flatten"
            tools={shop().tools}
            value={props.value.flatten}
            change={(flatten) => put({ flatten })}
          />
          <MachiningFields
            title="Sand"
            path="sand"
            tools={shop().tools}
            value={props.value.sand}
            change={(sand) => put({ sand })}
          />
          <Index each={props.value.coats}>
            {(one, at) => (
              <Below path={`coats[${at}]`}>
                <Group title={`Coat ${at + 1}`}>
                  <ChoiceField
                    label="On the"
                    path="face"
                    value={one().face}
                    choices={[
                      { value: 'top', name: 'top' },
                      { value: 'bottom', name: 'bottom' },
                    ]}
                    change={(face) => coat(at, { ...one(), face })}
                  />
                  <ThinFields
                    value={one()}
                    shop={shop()}
                    change={(next) => coat(at, { ...one(), ...next })}
                  />
                  <button
                    type="button"
                    class="button plain wide"
                    onClick={() => put({ coats: props.value.coats.filter((_, n) => n !== at) })}
                  >
                    Take coat {at + 1} away
                  </button>
                </Group>
              </Below>
            )}
          </Index>
          <button
            type="button"
            class="button"
            onClick={() =>
              put({
                coats: [...props.value.coats, props.value.coats.at(-1) ?? freshCoat(firstResin('table-top'))],
              })
            }
          >
            Add a coat
          </button>
          <Show
            when={props.value.coats.some((one, at) => at > 0 && one.face !== props.value.coats[at - 1].face)}
          >
            <WorkFields
              title="Flip between faces"
              path="flip.work"
              value={props.value.flip.work}
              change={(work) => put({ flip: { work } })}
            />
          </Show>
          <Group title="Finish" note="Oil or wax, feet, hardware.">
            <TickField
              label="There is something to finish"
              value={props.value.finish !== undefined}
              change={(on) => put({ finish: on ? { work: freshWork(45), split: true } : undefined })}
            />
          </Group>
          <Show when={props.value.finish}>
            {(finish) => (
              <WorkFields
                title="Finishing"
                path="finish.work"
                value={finish().work}
                change={(work) => put({ finish: { ...finish(), work } })}
              >
                <SplitTick
                  value={finish().split}
                  change={(split) => put({ finish: { ...finish(), split } })}
                />
              </WorkFields>
            )}
          </Show>
        </>
      )}
    </Show>
  );
};

const SplitTick = (props: {
  readonly value: boolean;
  readonly change: (split: boolean) => void;
}): JSX.Element => (
  <TickField
    label="May be spread over several sessions"
    value={props.value}
    change={(split) => props.change(split)}
  />
);

const MachiningFields = (props: {
  readonly title: string;
  readonly path: string;
  readonly tools: readonly Tool[];
  readonly value: Machining | undefined;
  readonly change: (next: Machining | undefined) => void;
}): JSX.Element => (
  <Show
    when={props.value}
    fallback={
      <Group title={props.title}>
        <TickField
          label={`${props.title} it`}
          value={false}
          change={() => props.change({ work: freshWork(60), split: true, dust: true })}
        />
      </Group>
    }
  >
    {(value) => (
      <WorkFields
        title={props.title}
        path={`${props.path}.work`}
        value={value().work}
        change={(work) => props.change({ ...value(), work })}
      >
        <Below path={props.path}>
          <ChoiceField
            label="With"
            path="tool"
            value={value().tool ?? ''}
            choices={[
              { value: '', name: 'no shared tool' },
              ...props.tools.map(({ id, name }) => ({ value: id, name })),
            ]}
            change={(tool) => props.change({ ...value(), tool: tool === '' ? undefined : tool })}
          />
        </Below>
        <SplitTick value={value().split} change={(split) => props.change({ ...value(), split })} />
        <TickField
          label="It makes dust"
          hint="never while a surface in the room is still open"
          value={value().dust}
          change={(dust) => props.change({ ...value(), dust })}
        />
        <TickField label={`${props.title} it`} value change={() => props.change(undefined)} />
      </WorkFields>
    )}
  </Show>
);
