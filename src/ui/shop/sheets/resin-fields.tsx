/** The sheet of a resin, in the order of the maker's own; its curve is drawn as it is typed. */
import { Show, type JSX } from 'solid-js';
import type { Resin } from '../../../engine/shop/index.ts';
import { fallback } from '../../../engine/shop/index.ts';
import {
  ChoiceField,
  Group,
  MeasureField,
  measureText,
  MinutesField,
  NumberField,
  OptionalNumberField,
  TextField,
  TickField,
  type Choice,
} from '../../fields/index.ts';
import { useSession } from '../../state/index.ts';
import { ResinPicture } from '../pictures/resin-picture.tsx';

const KINDS: readonly Choice<Resin['kind']>[] = [
  { value: 'casting', name: 'casting' },
  { value: 'table-top', name: 'table top' },
  { value: 'seal', name: 'wood seal' },
  { value: 'other', name: 'other' },
];

type Following = 'default' | 'second' | 'energy';

const FOLLOWING: readonly Choice<Following>[] = [
  { value: 'default', name: 'not on the sheet: as is usual' },
  { value: 'second', name: 'a second time on the sheet' },
  { value: 'energy', name: 'an activation energy' },
];

const followingOf = (resin: Resin): Following => {
  if (resin.activationEnergyKJPerMol !== undefined) return 'energy';
  return resin.secondPoint ? 'second' : 'default';
};

export const ResinFields = (props: {
  readonly value: Resin;
  readonly change: (next: Resin) => void;
}): JSX.Element => {
  const session = useSession();
  const put = (change: Partial<Resin>): void => props.change({ ...props.value, ...change });
  const mix = (change: Partial<Resin['mix']>): void => put({ mix: { ...props.value.mix, ...change } });
  const stock = (change: Partial<NonNullable<Resin['stock']>>): void => {
    const known = props.value.stock;
    if (known) put({ stock: { ...known, ...change } });
  };
  const at = (): string =>
    measureText(props.value.referenceDegC, 'warmth', session.shop()?.units ?? 'metric');
  const follow = (following: Following): void => {
    const { tackOpensMinutes, referenceDegC } = props.value;
    put({
      activationEnergyKJPerMol: following === 'energy' ? fallback.activationEnergyKJPerMol.value : undefined,
      secondPoint:
        following === 'second'
          ? { degC: referenceDegC - 8, tackOpensMinutes: Math.round(tackOpensMinutes * 1.8) }
          : undefined,
    });
  };
  return (
    <>
      <Group title="The resin" note="Copy the numbers from its maker's sheet: the sheet always wins.">
        <TextField label="Name" path="name" value={props.value.name} change={(name) => put({ name })} />
        <ChoiceField
          label="Kind"
          path="kind"
          value={props.value.kind}
          choices={KINDS}
          change={(kind) => put({ kind })}
        />
      </Group>
      <Group title="Mix">
        <ChoiceField
          label="Parts are counted"
          path="mix.by"
          value={props.value.mix.by}
          choices={[
            { value: 'volume', name: 'by volume' },
            { value: 'mass', name: 'by weight' },
          ]}
          change={(by) => mix({ by })}
        />
        <NumberField label="Parts A" path="mix.a" value={props.value.mix.a} change={(a) => mix({ a })} />
        <NumberField label="Parts B" path="mix.b" value={props.value.mix.b} change={(b) => mix({ b })} />
        <NumberField
          label="Density of A"
          path="mix.densityAGPerMl"
          unit="g/mL"
          value={props.value.mix.densityAGPerMl}
          change={(densityAGPerMl) => mix({ densityAGPerMl })}
        />
        <NumberField
          label="Density of B"
          path="mix.densityBGPerMl"
          unit="g/mL"
          value={props.value.mix.densityBGPerMl}
          change={(densityBGPerMl) => mix({ densityBGPerMl })}
        />
      </Group>
      <Group title={`Times at ${at()}`} note="Counted from the pour; typed as 24 h, 3 days, 90 min.">
        <MeasureField
          label="All these times hold at"
          path="referenceDegC"
          measure="warmth"
          value={props.value.referenceDegC}
          change={(referenceDegC) => put({ referenceDegC })}
        />
        <MinutesField
          label="Working time"
          path="workingTime.minutes"
          hint="from first contact until it no longer flows"
          value={props.value.workingTime.minutes}
          change={(minutes) => put({ workingTime: { ...props.value.workingTime, minutes } })}
        />
        <MeasureField
          label="of a cup of"
          path="workingTime.batchMl"
          measure="volume"
          value={props.value.workingTime.batchMl}
          change={(batchMl) => put({ workingTime: { ...props.value.workingTime, batchMl } })}
        />
        <MinutesField
          label="Window opens (tacky)"
          path="tackOpensMinutes"
          value={props.value.tackOpensMinutes}
          change={(tackOpensMinutes) => put({ tackOpensMinutes })}
        />
        <MinutesField
          label="Window closes (too hard)"
          path="tackClosesMinutes"
          value={props.value.tackClosesMinutes}
          change={(tackClosesMinutes) => put({ tackClosesMinutes })}
        />
        <MinutesField
          label="Can be scuffed"
          path="scuffableMinutes"
          value={props.value.scuffableMinutes}
          change={(scuffableMinutes) => put({ scuffableMinutes })}
        />
        <MinutesField
          label="Demold"
          path="demoldMinutes"
          value={props.value.demoldMinutes}
          change={(demoldMinutes) => put({ demoldMinutes })}
        />
        <MinutesField
          label="Can be machined"
          path="machinableMinutes"
          value={props.value.machinableMinutes}
          change={(machinableMinutes) => put({ machinableMinutes })}
        />
        <MinutesField
          label="Cured fully"
          path="fullCureMinutes"
          value={props.value.fullCureMinutes}
          change={(fullCureMinutes) => put({ fullCureMinutes })}
        />
      </Group>
      <Show when={session.shop()}>{(shop) => <ResinPicture resin={props.value} shop={shop()} />}</Show>
      <Group title="Warm and cold">
        <ChoiceField
          label="How it follows warmth"
          path="following"
          value={followingOf(props.value)}
          choices={FOLLOWING}
          change={follow}
        />
        <Show when={props.value.secondPoint}>
          {(second) => (
            <>
              <MeasureField
                label="At a second warmth of"
                path="secondPoint.degC"
                measure="warmth"
                value={second().degC}
                change={(degC) => put({ secondPoint: { ...second(), degC } })}
              />
              <MinutesField
                label="the window opens after"
                path="secondPoint.tackOpensMinutes"
                value={second().tackOpensMinutes}
                change={(tackOpensMinutes) => put({ secondPoint: { ...second(), tackOpensMinutes } })}
              />
            </>
          )}
        </Show>
        <Show when={followingOf(props.value) === 'energy'}>
          <NumberField
            label="Activation energy"
            path="activationEnergyKJPerMol"
            unit="kJ/mol"
            value={props.value.activationEnergyKJPerMol ?? Number.NaN}
            change={(activationEnergyKJPerMol) => put({ activationEnergyKJPerMol })}
          />
        </Show>
        <MeasureField
          label="Not below"
          path="lowestDegC"
          measure="warmth"
          value={props.value.lowestDegC}
          change={(lowestDegC) => put({ lowestDegC })}
        />
        <MeasureField
          label="Not above"
          path="highestDegC"
          measure="warmth"
          value={props.value.highestDegC}
          change={(highestDegC) => put({ highestDegC })}
        />
        <MeasureField
          label="Above the dew point by"
          path="dewPointMarginK"
          measure="warmer"
          value={props.value.dewPointMarginK}
          change={(dewPointMarginK) => put({ dewPointMarginK })}
        />
      </Group>
      <Group
        title="Limits"
        note="A pour that is too deep or a cup that is too large can overheat, smoke and crack."
      >
        <MeasureField
          label="Shallowest pour"
          path="smallestDepthMm"
          measure="depth"
          value={props.value.smallestDepthMm}
          change={(smallestDepthMm) => put({ smallestDepthMm })}
        />
        <MeasureField
          label="Deepest pour"
          path="largestDepthMm"
          measure="depth"
          value={props.value.largestDepthMm}
          change={(largestDepthMm) => put({ largestDepthMm })}
        />
        <MeasureField
          label="Largest cup"
          path="largestBatchMl"
          measure="volume"
          value={props.value.largestBatchMl}
          change={(largestBatchMl) => put({ largestBatchMl })}
        />
      </Group>
      <Group title="Stock">
        <TickField
          label="Keep count of it"
          value={props.value.stock !== undefined}
          change={(on) =>
            put({
              stock: on
                ? {
                    ml: 5000,
                    deliveryDays: fallback.deliveryDays.value,
                    keepsDaysOpened: fallback.keepsDaysOpened.value,
                  }
                : undefined,
            })
          }
        />
        <Show when={props.value.stock}>
          {(known) => (
            <>
              <MeasureField
                label="A and B together"
                path="stock.ml"
                measure="volume"
                value={known().ml}
                change={(ml) => stock({ ml })}
              />
              <NumberField
                label="Delivery takes"
                path="stock.deliveryDays"
                unit="days"
                value={known().deliveryDays}
                change={(deliveryDays) => stock({ deliveryDays })}
              />
              <OptionalNumberField
                label="Price per litre"
                path="stock.pricePerLitre"
                value={known().pricePerLitre}
                change={(pricePerLitre) => stock({ pricePerLitre })}
              />
            </>
          )}
        </Show>
      </Group>
    </>
  );
};
