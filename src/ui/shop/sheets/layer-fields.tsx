/** What a recipe pours: the fields of a layer with its wood and bubble passes, and of what goes on thin, a seal or a coat. */
import { Index, Show, type JSX } from 'solid-js';
import type { Coat, Layer, Shop } from '../../../engine/shop/index.ts';
import {
  Below,
  ChoiceField,
  Group,
  MeasureField,
  MinutesField,
  NumberField,
  OptionalNumberField,
  TextField,
} from '../../fields/index.ts';
import { freshPass } from '../model/fresh.ts';

const ResinChoice = (props: {
  readonly value: string;
  readonly shop: Shop;
  readonly change: (resin: string) => void;
}): JSX.Element => (
  <ChoiceField
    label="Resin"
    path="resin"
    value={props.value}
    choices={props.shop.resins.map(({ id, name }) => ({ value: id, name }))}
    change={(resin) => props.change(resin)}
  />
);

export const LayerFields = (props: {
  readonly number: number;
  readonly value: Layer;
  readonly shop: Shop;
  readonly change: (next: Layer) => void;
  readonly remove?: () => void;
}): JSX.Element => {
  const put = (change: Partial<Layer>): void => props.change({ ...props.value, ...change });
  const cover = (): number | undefined =>
    props.value.wood && 'coverPercent' in props.value.wood ? props.value.wood.coverPercent : undefined;
  const isMeasured = (): boolean => props.value.wood !== undefined && !('coverPercent' in props.value.wood);
  return (
    <Group title={`Layer ${props.number}`}>
      <ResinChoice value={props.value.resin} shop={props.shop} change={(resin) => put({ resin })} />
      <ChoiceField
        label="Poured"
        path="how"
        value={props.value.volumeMl === undefined ? 'depth' : 'volume'}
        choices={[
          { value: 'depth', name: 'to a depth' },
          { value: 'volume', name: 'by volume' },
        ]}
        change={(how) =>
          put(how === 'depth' ? { depthMm: 12, volumeMl: undefined } : { volumeMl: 1000, depthMm: undefined })
        }
      />
      <Show
        when={props.value.volumeMl !== undefined}
        fallback={
          <MeasureField
            label="Depth"
            path="depthMm"
            measure="depth"
            value={props.value.depthMm ?? Number.NaN}
            change={(depthMm) => put({ depthMm })}
          />
        }
      >
        <MeasureField
          label="Volume"
          path="volumeMl"
          measure="volume"
          value={props.value.volumeMl ?? Number.NaN}
          change={(volumeMl) => put({ volumeMl })}
        />
      </Show>
      <Show
        when={!isMeasured()}
        fallback={
          <p class="field-hint">The wood in it is measured piece by piece in the shop file; it is kept.</p>
        }
      >
        <OptionalNumberField
          label="Wood in it"
          path="wood.coverPercent"
          unit="%"
          hint="share of the area that is wood"
          value={cover()}
          change={(percent) => put({ wood: percent === undefined ? undefined : { coverPercent: percent } })}
        />
      </Show>
      <TextField
        label="Tint"
        path="tint.name"
        hint="left empty: clear"
        value={props.value.tint?.name ?? ''}
        change={(name) =>
          put({ tint: name === '' ? undefined : { name, gPerL: props.value.tint?.gPerL ?? 2.8 } })
        }
      />
      <Show when={props.value.tint}>
        {(tint) => (
          <NumberField
            label="Tint a litre"
            path="tint.gPerL"
            unit="g"
            value={tint().gPerL}
            change={(gPerL) => put({ tint: { ...tint(), gPerL } })}
          />
        )}
      </Show>
      <MinutesField
        label="Mixing"
        path="mixMinutes"
        value={props.value.mixMinutes}
        change={(mixMinutes) => put({ mixMinutes })}
      />
      <MinutesField
        label="Pouring"
        path="pour.minutes"
        value={props.value.pour.minutes}
        change={(minutes) => put({ pour: { ...props.value.pour, minutes } })}
      />
      <NumberField
        label="and for every m²"
        path="pour.minutesPerM2"
        unit="min"
        value={props.value.pour.minutesPerM2}
        change={(minutesPerM2) => put({ pour: { ...props.value.pour, minutesPerM2 } })}
      />
      <Index each={props.value.bubblePasses}>
        {(pass, at) => {
          const turn = (change: Partial<Layer['bubblePasses'][number]>): void =>
            put({
              bubblePasses: props.value.bubblePasses.map((known, n) =>
                n === at ? { ...known, ...change } : known,
              ),
            });
          return (
            <Below path={`bubblePasses[${at}]`}>
              <div class="line">
                <p class="line-words">
                  Bubble pass {at + 1}: begins {pass().fromMinutes} to {pass().toMinutes} min after the pour
                </p>
                <div class="group-fields">
                  <NumberField
                    label="From"
                    path="fromMinutes"
                    unit="min"
                    value={pass().fromMinutes}
                    change={(fromMinutes) => turn({ fromMinutes })}
                  />
                  <NumberField
                    label="To"
                    path="toMinutes"
                    unit="min"
                    value={pass().toMinutes}
                    change={(toMinutes) => turn({ toMinutes })}
                  />
                  <MinutesField
                    label="Takes"
                    path="minutes"
                    value={pass().minutes}
                    change={(minutes) => turn({ minutes })}
                  />
                </div>
                <button
                  type="button"
                  class="button plain"
                  onClick={() => put({ bubblePasses: props.value.bubblePasses.filter((_, n) => n !== at) })}
                >
                  Take bubble pass {at + 1} away
                </button>
              </div>
            </Below>
          );
        }}
      </Index>
      <div class="wide sheet-acts">
        <button
          type="button"
          class="button"
          onClick={() => put({ bubblePasses: [...props.value.bubblePasses, freshPass()] })}
        >
          Add a bubble pass
        </button>
        <Show when={props.remove}>
          {(remove) => (
            <button type="button" class="button plain" onClick={() => remove()()}>
              Take layer {props.number} away
            </button>
          )}
        </Show>
      </div>
    </Group>
  );
};

type Thin = Pick<Coat, 'resin' | 'coverMlPerM2' | 'mixMinutes' | 'work'>;

export const ThinFields = (props: {
  readonly value: Thin;
  readonly shop: Shop;
  readonly change: (next: Partial<Thin>) => void;
}): JSX.Element => (
  <>
    <ResinChoice value={props.value.resin} shop={props.shop} change={(resin) => props.change({ resin })} />
    <NumberField
      label="Covers"
      path="coverMlPerM2"
      unit="mL/m²"
      value={props.value.coverMlPerM2}
      change={(coverMlPerM2) => props.change({ coverMlPerM2 })}
    />
    <MinutesField
      label="Mixing"
      path="mixMinutes"
      value={props.value.mixMinutes}
      change={(mixMinutes) => props.change({ mixMinutes })}
    />
    <MinutesField
      label="Putting it on"
      path="work.minutes"
      value={props.value.work.minutes}
      change={(minutes) => props.change({ work: { ...props.value.work, minutes } })}
    />
    <NumberField
      label="and for every m²"
      path="work.minutesPerM2"
      unit="min"
      value={props.value.work.minutesPerM2}
      change={(minutesPerM2) => props.change({ work: { ...props.value.work, minutesPerM2 } })}
    />
  </>
);
