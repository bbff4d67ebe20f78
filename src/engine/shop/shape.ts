/**
 * Whether a value has the shape of a schema, with one fault for every spot that has not. The schema library stops
 * an object at its first unknown key and speaks of its own types; this walks the same schema to the end, suggests
 * the key that was meant, and says of a missing one what belongs there.
 */
import * as v from 'valibot';
import { fault, listOf, nearest, show, type Fault, type PathKey } from './faults.ts';
import { isKeyed, meantOption, type Keyed, type Node } from './schema-node.ts';

/**
 * Every fault of shape in `value`, which stands at `path`.
 * @param isTaken whether the schema itself takes the value: then only what it lets pass is looked for, a list in place of an object
 */
export function shapeFaults(
  schema: v.GenericSchema,
  value: unknown,
  isTaken: boolean,
  path: readonly PathKey[] = [],
): Fault[] {
  const node: Node = schema;
  if (node.wrapped) return value === undefined ? [] : shapeFaults(node.wrapped, value, isTaken, path);
  if (node.options && node.type === 'union') return unionFaults(schema, node.options, value, isTaken, path);
  if (node.entries) return objectFaults(schema, node.entries, value, isTaken, path);
  if (node.item) return listFaults(schema, node.item, value, isTaken, path);
  if (isTaken) return [];
  const message = complaint(schema, value);
  return message === undefined ? [] : [fault(path, value, message)];
}

function objectFaults(
  schema: v.GenericSchema,
  entries: Readonly<Record<string, v.GenericSchema>>,
  value: unknown,
  isTaken: boolean,
  path: readonly PathKey[],
): Fault[] {
  if (!isKeyed(value)) return [fault(path, value, whatIsRight(schema))];
  const known = Object.keys(entries);
  const unknown = Object.keys(value)
    .filter((key) => !Object.hasOwn(entries, key))
    .map((key) => fault([...path, key], value[key], unknownKey(key, known, value)));
  const inside = known.flatMap((key) => {
    const entry = entries[key];
    if (Object.hasOwn(value, key)) return shapeFaults(entry, value[key], isTaken, [...path, key]);
    return isOptional(entry) ? [] : [fault([...path, key], undefined, whatIsRight(entry))];
  });
  return [...unknown, ...inside];
}

function listFaults(
  schema: v.GenericSchema,
  item: v.GenericSchema,
  value: unknown,
  isTaken: boolean,
  path: readonly PathKey[],
): Fault[] {
  if (!Array.isArray(value)) return [fault(path, value, whatIsRight(schema))];
  const inside = value.flatMap((each: unknown, index) => shapeFaults(item, each, isTaken, [...path, index]));
  if (isTaken) return inside;
  const own = v.safeParse(schema, value).issues?.find((issue) => issue.path === undefined);
  return own ? [fault(path, value, own.message), ...inside] : inside;
}

/** The way of writing it that is nearest to what was written is the one that was meant. */
function unionFaults(
  schema: v.GenericSchema,
  options: readonly v.GenericSchema[],
  value: unknown,
  isTaken: boolean,
  path: readonly PathKey[],
): Fault[] {
  const meant = meantOption(options, value);
  return meant
    ? shapeFaults(meant, value, isTaken, path)
    : [fault(path, value, complaint(schema, value) ?? '')];
}

const isOptional = (schema: v.GenericSchema): boolean => {
  const node: Node = schema;
  return node.wrapped !== undefined;
};

function unknownKey(key: string, known: readonly string[], value: Keyed): string {
  const free = known.filter((each) => !Object.hasOwn(value, each));
  const meant = nearest(key, free);
  const suggestion = meant === undefined ? '' : `; did you mean "${meant}"?`;
  return `unknown key${suggestion || `; known here are ${listOf(known)}`}`;
}

const PLAIN: Readonly<Record<string, string>> = {
  boolean: 'must be true or false',
  number: 'must be a number, without quotes',
  string: 'must be text in quotes',
};

/** The first thing wrong with a value as a whole, in our own words. */
function complaint(schema: v.GenericSchema, value: unknown): string | undefined {
  const result = v.safeParse(schema, value);
  if (result.success) return undefined;
  const { message } = result.issues[0];
  return message.startsWith('Invalid') ? (PLAIN[schema.type] ?? `must not be ${show(value)}`) : message;
}

/** What belongs where a schema stands, as a sentence. */
function whatIsRight(schema: v.GenericSchema): string {
  const node: Node = schema;
  if (node.entries) {
    const { entries } = node;
    const needed = Object.keys(entries).filter((key) => !isOptional(entries[key]));
    return `must be an object { … }${needed.length > 0 ? ` with ${listOf(needed)}` : ''}`;
  }
  if (node.item) return 'must be a list [ … ]';
  return complaint(schema, undefined) ?? 'must be given';
}
