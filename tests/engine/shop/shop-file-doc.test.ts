import { readFileSync } from 'node:fs';
import type { GenericSchema } from 'valibot';
import { describe, expect, it } from 'vitest';
import { fallback, shopSchema } from '../../../src/engine/shop/index.ts';

interface Node {
  readonly type: string;
  readonly entries?: Readonly<Record<string, GenericSchema>>;
  readonly item?: GenericSchema;
  readonly wrapped?: GenericSchema;
  readonly default?: unknown;
  readonly options?: readonly GenericSchema[];
}

/** Objects that stand in several places have one table; by their keys. */
const shared = new Map([
  ['rule from to start', 'hours'],
  ['from to why', 'timeOff'],
  ['minutes minutesPerM2 hands', 'work'],
  ['work split tool dust', 'machining'],
  ['name gPerL', 'tint'],
  ['at degC', 'reading'],
]);

type Tables = Map<string, Map<string, string>>;

// The formatter lines the columns up.
const PAGE = readFileSync(new URL('../../../docs/shop-file.md', import.meta.url), 'utf8').replaceAll(
  / {2,}/g,
  ' ',
);

const defaultText = (entry: GenericSchema): string => {
  const { wrapped, default: value }: Node = entry;
  if (!wrapped) return 'needed';
  return value === undefined ? '–' : `\`${JSON.stringify(value)}\``;
};

/** Every object of the schema by its path, with each field's default as the page writes it. */
function tablesOfSchema(schema: GenericSchema, path: string, tables: Tables = new Map()): Tables {
  const { entries, item, wrapped, options }: Node = schema;
  if (wrapped) return tablesOfSchema(wrapped, path, tables);
  if (options) options.forEach((option) => tablesOfSchema(option, path, tables));
  if (item) return tablesOfSchema(item, `${path}[]`, tables);
  if (!entries) return tables;
  const name = shared.get(Object.keys(entries).join(' ')) ?? path;
  const table = tables.get(name) ?? new Map<string, string>();
  tables.set(name, table);
  for (const [key, entry] of Object.entries(entries)) {
    table.set(key, defaultText(entry));
    tablesOfSchema(entry, name === 'shop' ? key : `${name}.${key}`, tables);
  }
  return tables;
}

/** Every table of the page that stands under a heading with a path in it. */
function tablesOfPage(): Tables {
  const tables: Tables = new Map();
  let names: string[] = [];
  for (const line of PAGE.split('\n')) {
    if (line.startsWith('#')) names = [...line.matchAll(/`([^`]+)`/g)].map(([, name]) => name);
    const row = /^\| `(\w+)` \|[^|]*\| ([^|]+) \|/.exec(line);
    if (!row) continue;
    for (const name of names)
      tables.set(name, (tables.get(name) ?? new Map<string, string>()).set(row[1], row[2]));
  }
  return tables;
}

describe('the page on the shop file', () => {
  it('tells every field of every object, each with its default', () => {
    const told = Object.fromEntries(
      [...tablesOfPage()].map(([name, table]) => [name, Object.fromEntries(table)]),
    );
    const real = Object.fromEntries(
      [...tablesOfSchema(shopSchema, 'shop')].map(([name, table]) => [name, Object.fromEntries(table)]),
    );
    expect(told).toEqual(real);
  });

  it('tells where every default comes from', () => {
    const rows = PAGE.slice(PAGE.indexOf('## Where the defaults come from'))
      .split('\n')
      .filter((line) => line.startsWith('| `') && !line.includes('.json'));
    expect(rows).toEqual(
      Object.entries(fallback).map(([name, { value, source }]) => `| \`${name}\` | ${value} | ${source} |`),
    );
  });
});
