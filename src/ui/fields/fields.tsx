/** The fields of a sheet: a label, what is typed, its unit, a hint, and what is wrong with it, right there. */
import { createEffect, createSignal, createUniqueId, For, Show, untrack, type JSX } from 'solid-js';
import { measureText, shownNumber, storedNumber, unitOf, type Measure } from './measure.ts';
import { fieldMessage } from './places.ts';
import { useFaults, useSheet } from './sheet.tsx';
import { minutesTyped, typedMinutes } from './time-typed.ts';

interface Named {
  readonly label: string;
  /** Below the sheet's entry, such as `inside.lengthMm`. */
  readonly path: string;
  readonly hint?: string;
}

interface Wired {
  readonly id: string;
  readonly describedBy: string;
  readonly wrong: boolean;
}

/** Label, hint and faults around one control. */
const Field = (
  props: Named & {
    readonly wide?: boolean;
    /** Whether what it shows is longer than one column of a group. */
    readonly roomy?: boolean;
    readonly children: (wired: () => Wired) => JSX.Element;
  },
): JSX.Element => {
  const id = createUniqueId();
  const faults = useFaults(() => props.path);
  const wired = (): Wired => ({
    id,
    describedBy: `${id}-hint ${id}-fault`,
    wrong: faults().length > 0,
  });
  return (
    <div
      class="field"
      classList={{
        'field-wrong': faults().length > 0,
        'field-wide': props.wide,
        'field-roomy': props.roomy,
      }}
    >
      <label for={id}>{props.label}</label>
      {props.children(wired)}
      <p class="field-hint" id={`${id}-hint`}>
        {props.hint}
      </p>
      <p class="field-fault" id={`${id}-fault`}>
        <For each={faults()}>{(fault) => <span>{fieldMessage(fault.message)}</span>}</For>
      </p>
    </div>
  );
};

/** What is typed, kept as it is typed as long as it reads as the value. */
const createTyped = <T,>(value: () => T, show: (value: T) => string, read: (typed: string) => T) => {
  const [text, setText] = createSignal(show(value()));
  createEffect(() => {
    const next = value();
    if (!Object.is(read(untrack(text)), next)) setText(show(next));
  });
  return [text, setText] as const;
};

interface TypedProps<T> extends Named {
  readonly value: T;
  readonly show: (value: T) => string;
  readonly read: (typed: string) => T;
  readonly change: (value: T) => void;
  readonly unit?: string;
  readonly mode?: 'decimal' | 'numeric' | 'text';
  readonly wide?: boolean;
  readonly choices?: readonly string[];
}

const TypedField = <T,>(props: TypedProps<T>): JSX.Element => {
  const [text, setText] = createTyped(
    () => props.value,
    (value) => props.show(value),
    (typed) => props.read(typed),
  );
  return (
    <Field label={props.label} path={props.path} hint={props.hint} wide={props.wide}>
      {(wired) => (
        <span class="field-row">
          <input
            id={wired().id}
            type="text"
            inputmode={props.mode ?? 'text'}
            autocomplete="off"
            value={text()}
            aria-describedby={wired().describedBy}
            aria-invalid={wired().wrong}
            list={props.choices ? `${wired().id}-choices` : undefined}
            onInput={(event) => {
              setText(event.currentTarget.value);
              props.change(props.read(event.currentTarget.value));
            }}
          />
          <Show when={props.unit}>
            <span class="field-unit">{props.unit}</span>
          </Show>
          <Show when={props.choices}>
            {(choices) => (
              <datalist id={`${wired().id}-choices`}>
                <For each={choices()}>{(choice) => <option value={choice} />}</For>
              </datalist>
            )}
          </Show>
        </span>
      )}
    </Field>
  );
};

export const TextField = (
  props: Named & {
    readonly value: string;
    readonly change: (value: string) => void;
    readonly wide?: boolean;
    readonly choices?: readonly string[];
  },
): JSX.Element => (
  <TypedField
    {...props}
    show={(value) => value}
    read={(typed) => typed}
    change={(value) => props.change(value)}
  />
);

const plainNumber = (typed: string): number => {
  const text = typed.trim().replace(',', '.');
  return /^-?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : Number.NaN;
};
const plainShown = (value: number | undefined): string =>
  value === undefined || !Number.isFinite(value) ? '' : String(value);

/** A number that is no measure: a count, parts, percent. NaN while it is none. */
export const NumberField = (
  props: Named & { readonly value: number; readonly unit?: string; readonly change: (value: number) => void },
): JSX.Element => (
  <TypedField
    {...props}
    mode="decimal"
    show={plainShown}
    read={plainNumber}
    change={(value) => props.change(value)}
  />
);

/** A number that may be left out. */
export const OptionalNumberField = (
  props: Named & {
    readonly value: number | undefined;
    readonly unit?: string;
    readonly change: (value: number | undefined) => void;
  },
): JSX.Element => (
  <TypedField<number | undefined>
    {...props}
    mode="decimal"
    show={plainShown}
    read={(typed) => (typed.trim() === '' ? undefined : plainNumber(typed))}
    change={(value) => props.change(value)}
  />
);

/** A measure in the shop's units; stored metric. */
export const MeasureField = (
  props: Named & {
    readonly measure: Measure;
    readonly value: number;
    readonly change: (value: number) => void;
  },
): JSX.Element => {
  const sheet = useSheet();
  return (
    <TypedField
      {...props}
      mode="decimal"
      unit={unitOf(props.measure, sheet.units())}
      show={(value) => shownNumber(value, props.measure, sheet.units())}
      read={(typed) => storedNumber(typed, props.measure, sheet.units())}
      change={(value) => props.change(value)}
    />
  );
};

/** A measure that may be left out; `otherwise` says what is taken then. */
export const OptionalMeasureField = (
  props: Named & {
    readonly measure: Measure;
    readonly value: number | undefined;
    readonly otherwise?: number;
    readonly change: (value: number | undefined) => void;
  },
): JSX.Element => {
  const sheet = useSheet();
  return (
    <TypedField<number | undefined>
      {...props}
      mode="decimal"
      hint={
        props.otherwise === undefined || !Number.isFinite(props.otherwise)
          ? props.hint
          : `left empty: ${measureText(props.otherwise, props.measure, sheet.units())}`
      }
      unit={unitOf(props.measure, sheet.units())}
      show={(value) => shownNumber(value, props.measure, sheet.units())}
      read={(typed) => (typed.trim() === '' ? undefined : storedNumber(typed, props.measure, sheet.units()))}
      change={(value) => props.change(value)}
    />
  );
};

/** A stretch of time, typed as people say it: `24 h`, `3 days`, `1 h 30`. */
export const MinutesField = (
  props: Named & { readonly value: number; readonly change: (value: number) => void },
): JSX.Element => (
  <TypedField {...props} show={typedMinutes} read={minutesTyped} change={(value) => props.change(value)} />
);

export interface Choice<T extends string> {
  readonly value: T;
  readonly name: string;
}

/** Letters of a choice that one column shows beside the arrow. */
const COLUMN_LETTERS = 15;

export const ChoiceField = <T extends string>(
  props: Named & {
    readonly value: T;
    readonly choices: readonly Choice<T>[];
    readonly change: (value: T) => void;
  },
): JSX.Element => (
  <Field
    label={props.label}
    path={props.path}
    hint={props.hint}
    roomy={props.choices.some(({ name }) => name.length > COLUMN_LETTERS)}
  >
    {(wired) => (
      <span class="field-row">
        <select
          id={wired().id}
          aria-describedby={wired().describedBy}
          aria-invalid={wired().wrong}
          onChange={(event) => {
            const chosen = props.choices.find(({ value }) => value === event.currentTarget.value);
            if (chosen) props.change(chosen.value);
          }}
        >
          <For each={props.choices}>
            {(choice) => (
              <option value={choice.value} selected={choice.value === props.value}>
                {choice.name}
              </option>
            )}
          </For>
        </select>
      </span>
    )}
  </Field>
);

/** The browser's own field for a date, a clock time, or both in the shop's zone. */
export const NativeField = (
  props: Named & {
    readonly kind: 'date' | 'time' | 'datetime-local';
    readonly value: string;
    readonly change: (value: string) => void;
  },
): JSX.Element => (
  <Field label={props.label} path={props.path} hint={props.hint} roomy={props.kind === 'datetime-local'}>
    {(wired) => (
      <span class="field-row">
        <input
          id={wired().id}
          type={props.kind}
          value={props.value}
          aria-describedby={wired().describedBy}
          aria-invalid={wired().wrong}
          onInput={(event) => props.change(event.currentTarget.value)}
        />
      </span>
    )}
  </Field>
);

/** Yes or no, its whole line a target. */
export const TickField = (props: {
  readonly label: string;
  readonly hint?: string;
  readonly value: boolean;
  readonly change: (value: boolean) => void;
}): JSX.Element => (
  <label class="yesno">
    <input
      type="checkbox"
      checked={props.value}
      onChange={(event) => props.change(event.currentTarget.checked)}
    />
    <span>
      {props.label}
      <Show when={props.hint}>
        <small>{props.hint}</small>
      </Show>
    </span>
  </label>
);

/** Several of several, each a big key that says whether it is down. */
export const KeysField = <T extends string>(props: {
  readonly label: string;
  readonly choices: readonly Choice<T>[];
  readonly value: readonly T[];
  readonly change: (value: readonly T[]) => void;
}): JSX.Element => {
  const id = createUniqueId();
  return (
    <div class="keys" role="group" aria-labelledby={id}>
      <p class="keys-label" id={id}>
        {props.label}
      </p>
      <div class="keys-row">
        <For each={props.choices}>
          {(choice) => (
            <button
              type="button"
              class="key"
              aria-pressed={props.value.includes(choice.value)}
              onClick={() =>
                props.change(
                  props.choices
                    .map(({ value }) => value)
                    .filter((value) => props.value.includes(value) !== (value === choice.value)),
                )
              }
            >
              {choice.name}
            </button>
          )}
        </For>
      </div>
    </div>
  );
};

/** Fields that belong together, under a heading. */
export const Group = (props: {
  readonly title: string;
  readonly note?: string;
  readonly children: JSX.Element;
}): JSX.Element => (
  <fieldset class="group">
    <legend>{props.title}</legend>
    <Show when={props.note}>
      <p class="group-note">{props.note}</p>
    </Show>
    <div class="group-fields">{props.children}</div>
  </fieldset>
);
