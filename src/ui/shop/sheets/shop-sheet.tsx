/** The sheet of the shop itself: its name, where it is, its units, the days on which nobody works, how it measures. */
import type { JSX } from 'solid-js';
import type { Shop } from '../../../engine/shop/index.ts';
import {
  ChoiceField,
  Group,
  NumberField,
  OptionalMeasureField,
  OptionalNumberField,
  TextField,
} from '../../fields/index.ts';
import { useSession } from '../../state/index.ts';
import { OffEditor } from '../hours/index.ts';
import { DraftSheet } from './draft-sheet.tsx';

type Frame = Pick<Shop, 'name' | 'zone' | 'units' | 'closures' | 'mixing' | 'costs'>;

const frameOf = ({ name, zone, units, closures, mixing, costs }: Shop): Frame => ({
  name,
  zone,
  units,
  closures,
  mixing,
  costs,
});

/** Every time zone that the browser knows, for picking. */
export const zoneNames = (): readonly string[] => Intl.supportedValuesOf('timeZone');

export const ShopSheet = (props: { readonly shop: Shop; readonly close: () => void }): JSX.Element => {
  const session = useSession();
  return (
    <DraftSheet<Frame>
      title="The shop"
      initial={frameOf(props.shop)}
      base={() => ''}
      put={(draft, shop) => ({ ...shop, ...draft })}
      edit={(_, read) => ({ says: 'change the shop', apply: (shop) => ({ ...shop, ...frameOf(read) }) })}
      saveWords="Save"
      close={props.close}
    >
      {(draft, change) => {
        const put = (next: Partial<Frame>): void => change({ ...draft(), ...next });
        const mixing = (next: Partial<Frame['mixing']>): void =>
          put({ mixing: { ...draft().mixing, ...next } });
        return (
          <>
            <Group title="The shop">
              <TextField label="Name" path="name" value={draft().name} change={(name) => put({ name })} />
              <TextField
                label="Time zone"
                path="zone"
                choices={zoneNames()}
                value={draft().zone}
                change={(zone) => put({ zone })}
              />
              <ChoiceField
                label="Units"
                path="units"
                value={draft().units}
                choices={[
                  { value: 'metric', name: 'mm, mL, °C' },
                  { value: 'us', name: 'inches, US fluid ounces, °F' },
                ]}
                change={(units) => put({ units })}
              />
            </Group>
            <OffEditor
              title="Closed, nobody works"
              path="closures"
              lines={draft().closures}
              today={session.clock().dayOf(session.now()).isoDate}
              change={(closures) => put({ closures })}
            />
            <Group title="Mixing">
              <NumberField
                label="Stays on the cup's walls"
                path="mixing.cupLossPercent"
                unit="%"
                value={draft().mixing.cupLossPercent}
                change={(cupLossPercent) => mixing({ cupLossPercent })}
              />
              <OptionalMeasureField
                label="Finest mark of the cups"
                path="mixing.cupReadsMl"
                measure="volume"
                value={draft().mixing.cupReadsMl}
                change={(cupReadsMl) => mixing({ cupReadsMl })}
              />
              <NumberField
                label="The scale reads to"
                path="mixing.scaleReadsG"
                unit="g"
                value={draft().mixing.scaleReadsG}
                change={(scaleReadsG) => mixing({ scaleReadsG })}
              />
              <NumberField
                label="A to B may be off by"
                path="mixing.ratioTolerancePercent"
                unit="%"
                value={draft().mixing.ratioTolerancePercent}
                change={(ratioTolerancePercent) => mixing({ ratioTolerancePercent })}
              />
            </Group>
            <Group title="Costs" note="Left empty, nothing is reckoned.">
              <TextField
                label="Currency"
                path="costs.currency"
                value={draft().costs?.currency ?? ''}
                change={(currency) =>
                  put({ costs: currency === '' ? undefined : { ...draft().costs, currency } })
                }
              />
              <OptionalNumberField
                label="An hour of work"
                path="costs.perHour"
                value={draft().costs?.perHour}
                change={(perHour) => put({ costs: { currency: draft().costs?.currency ?? '', perHour } })}
              />
            </Group>
          </>
        );
      }}
    </DraftSheet>
  );
};
