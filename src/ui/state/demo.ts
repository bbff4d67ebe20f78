/** The example shops, each loaded only when asked for, and moved to the week in which they are opened. */
import { forTheWeekOf } from '../../demo/index.ts';

const files = import.meta.glob<string>('../../../examples/*.shop.json', { query: '?raw', import: 'default' });

const nameOf = (path: string): string => path.replace(/^.*\/(.*)\.shop\.json$/, '$1');

/** Names of the examples, such as "market-week". */
export const exampleNames = (): readonly string[] => Object.keys(files).map(nameOf).sort();

/** The one a first visit shows. */
export const FIRST_EXAMPLE = 'market-week';

/** The text of an example as if written for the week of `nowMs`; rejects when there is no such example. */
export const exampleText = async (name: string, nowMs: number): Promise<string> => {
  const load = Object.entries(files).find(([path]) => nameOf(path) === name)?.[1];
  if (!load) throw new Error(`there is no example "${name}"; there are ${exampleNames().join(', ')}`);
  return forTheWeekOf(await load(), nowMs);
};
