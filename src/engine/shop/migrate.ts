/**
 * Older shop files become files of the present version, one version at a time: each entry of the chain takes a
 * file of its version to the next, so a new version adds one entry and touches none.
 *
 * Version 0 was the format before the first release: it had no `format`, a form's `quantity` in place of `count`,
 * and one pair of room temperatures, `temperatureC: { nightLow, dayHigh }`, in place of `temperature`.
 */
import { fault, show, type Fault } from './faults.ts';
import { isKeyed, type Keyed } from './schema-node.ts';
import { SHOP_FORMAT, SHOP_VERSION } from './schema/shop.ts';

export type Migration =
  | { readonly ok: true; readonly value: unknown; readonly from: number }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/** `CHAIN[n]` takes a file of version n to version n + 1. */
const CHAIN: readonly ((file: Keyed) => Keyed)[] = [fromVersion0];

/**
 * The value as a file of the present version. What is no object, or has no readable version, passes as it stands:
 * the schema says what is wrong with it.
 */
export function migrate(value: unknown): Migration {
  if (!isKeyed(value)) return { ok: true, value, from: SHOP_VERSION };
  const { format, version } = value;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 0) {
    return { ok: true, value, from: SHOP_VERSION };
  }
  if (version > SHOP_VERSION) {
    const message = `this file was written by a newer release; this one reads versions 0 to ${SHOP_VERSION}, so update the program`;
    return { ok: false, faults: [fault(['version'], version, message)] };
  }
  if (format !== undefined && format !== SHOP_FORMAT) {
    const message = `must be "${SHOP_FORMAT}"; this is some other kind of file`;
    return { ok: false, faults: [{ path: 'format', found: show(format), message }] };
  }
  let file: Keyed = value;
  for (let step = version; step < SHOP_VERSION; step++) file = CHAIN[step](file);
  return { ok: true, value: file, from: version };
}

function fromVersion0(file: Keyed): Keyed {
  return {
    ...file,
    format: SHOP_FORMAT,
    version: 1,
    ...each(file, 'rooms', ({ temperatureC, ...room }) => {
      if (!isKeyed(temperatureC)) return temperatureC === undefined ? room : { ...room, temperatureC };
      const { nightLow, dayHigh, ...rest } = temperatureC;
      return { ...room, temperature: { pattern: { nightLowDegC: nightLow, dayHighDegC: dayHigh, ...rest } } };
    }),
    ...each(file, 'forms', ({ quantity, ...form }) =>
      quantity === undefined ? form : { ...form, count: quantity },
    ),
  };
}

/** The list under `key` with every object in it changed; nothing when there is no such list. */
function each(file: Keyed, key: string, change: (entry: Keyed) => Keyed): Keyed {
  const list = file[key];
  if (!Array.isArray(list)) return {};
  return { [key]: list.map((entry: unknown) => (isKeyed(entry) ? change(entry) : entry)) };
}
