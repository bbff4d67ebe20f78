/**
 * Writes the JSON Schemas of the two documents beside this file, from the code's own schemas: `npm run schema`.
 * What a JSON Schema cannot say (days that exist, references, the sense of the whole) the reader checks itself.
 */
import { writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { toJsonSchema } from '@valibot/to-json-schema';
import type { GenericSchema } from 'valibot';
import { planSchema } from '../src/engine/plan/document.ts';
import { shopSchema } from '../src/engine/shop/index.ts';

const asText = (schema: GenericSchema, title: string): string => {
  const { $schema, ...rest } = toJsonSchema(schema, { typeMode: 'input', errorMode: 'ignore' });
  return `${JSON.stringify({ $schema, title, ...rest }, null, 2)}\n`;
};

/** File name in this folder, and the text that belongs in it. */
export const schemaFiles = (): readonly (readonly [name: string, text: string])[] => [
  ['shop.schema.json', asText(shopSchema, 'Pourwright shop file, version 1')],
  ['plan.schema.json', asText(planSchema, 'Pourwright plan document, version 1')],
];

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  for (const [name, text] of schemaFiles()) writeFileSync(new URL(name, import.meta.url), text);
}
