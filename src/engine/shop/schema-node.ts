/** How a schema and a JSON value are taken apart where something walks through both. */
import type { GenericSchema } from 'valibot';

/** The parts of a schema that hold other schemas. */
export interface Node {
  readonly type: string;
  readonly entries?: Readonly<Record<string, GenericSchema>>;
  readonly item?: GenericSchema;
  readonly wrapped?: GenericSchema;
  readonly options?: readonly GenericSchema[];
}

export type Keyed = Readonly<Record<string, unknown>>;

/** Whether a value is a JSON object (not a list, not null). */
export const isKeyed = (value: unknown): value is Keyed =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The one of several ways of writing a value in which it seems to be written, by its kind and its keys. */
export const meantOption = (options: readonly GenericSchema[], value: unknown): GenericSchema | undefined =>
  options.find((option) => {
    const { type, entries }: Node = option;
    if (isKeyed(value))
      return entries !== undefined && Object.keys(entries).some((key) => Object.hasOwn(value, key));
    return Array.isArray(value) ? type === 'array' : type === typeof value;
  });
