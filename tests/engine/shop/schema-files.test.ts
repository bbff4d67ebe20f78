import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { schemaFiles } from '../../../docs/write-schemas.ts';
import { edited, exampleText } from './shop-edits.ts';

const published = (name: string): string =>
  readFileSync(new URL(`../../../docs/${name}`, import.meta.url), 'utf8');

describe('the published JSON Schemas', () => {
  it.each(schemaFiles())('are those of the code: %s', (name, text) => {
    expect(published(name)).toBe(text);
  });

  // Ajv is a validator of JSON Schema that knows nothing of this project.
  const validate = new Ajv({ strict: false }).compile<unknown>(
    JSON.parse(published('shop.schema.json')) as object,
  );

  it.each(['evening-board', 'market-week', 'cold-garage', 'six-weeks'])('take the example %s', (name) => {
    expect(validate(JSON.parse(exampleText(name)))).toBe(true);
  });

  it.each([
    ['a missing resin field', { 'resins[0].demoldMinutes': undefined }],
    ['an unknown key', { 'forms[0].colour': 'red' }],
    ['text for a number', { 'forms[0].count': '2' }],
    ['a clock time that is none', { 'people[0].hours[0].to': '25:00' }],
    ['an empty list of rooms', { rooms: [] }],
    ['a skill of nowhere', { 'people[0].can': ['dance'] }],
  ])('refuse %s', (_title, edits) => {
    expect(validate(edited(edits))).toBe(false);
  });
});
