/** Lines of recurring hours: days as keys, clock times, how often; each line read back in words. */
import { Index, Show, type JSX } from 'solid-js';
import type { RecurringHours } from '../../../engine/shop/index.ts';
import {
  Below,
  ChoiceField,
  KeysField,
  NativeField,
  NumberField,
  TextField,
  useFaults,
  type Choice,
} from '../../fields/index.ts';
import { countsFromStart, DAYS, readDays, writeDays, type DayCode, type Days } from './recurrence.ts';
import { hoursText } from './words.ts';

const DAY_KEYS: readonly Choice<DayCode>[] = [
  { value: 'MO', name: 'Mon' },
  { value: 'TU', name: 'Tue' },
  { value: 'WE', name: 'Wed' },
  { value: 'TH', name: 'Thu' },
  { value: 'FR', name: 'Fri' },
  { value: 'SA', name: 'Sat' },
  { value: 'SU', name: 'Sun' },
];

const KINDS: readonly Choice<Days['kind']>[] = [
  { value: 'weeks', name: 'on days of the week' },
  { value: 'days', name: 'every so many days' },
  { value: 'month', name: 'on a weekday of the month' },
];
const AS_WRITTEN: Choice<Days['kind']> = { value: 'other', name: 'by a rule as written' };

const NTHS: readonly Choice<'1' | '2' | '3' | '4' | '-1'>[] = [
  { value: '1', name: 'first' },
  { value: '2', name: 'second' },
  { value: '3', name: 'third' },
  { value: '4', name: 'fourth' },
  { value: '-1', name: 'last' },
];

const asKind = (kind: Days['kind'], days: Days): Days => {
  switch (kind) {
    case 'weeks':
      return { kind, every: 1, days: days.kind === 'month' ? [days.day] : DAYS.slice(0, 5) };
    case 'days':
      return { kind, every: 2 };
    case 'month':
      return { kind, nth: 1, day: days.kind === 'weeks' ? (days.days[0] ?? 'SA') : 'SA' };
    case 'other':
      return { kind, rule: writeDays(days) };
  }
};

export const HoursEditor = (props: {
  readonly title: string;
  readonly note?: string;
  readonly path: string;
  readonly lines: readonly RecurringHours[];
  readonly fresh: () => RecurringHours;
  readonly add: string;
  readonly change: (lines: readonly RecurringHours[]) => void;
}): JSX.Element => {
  const whole = useFaults(() => props.path);
  const put = (at: number, line: RecurringHours): void =>
    props.change(props.lines.map((known, n) => (n === at ? line : known)));
  return (
    <fieldset class="group">
      <legend>{props.title}</legend>
      <Show when={props.note}>
        <p class="group-note">{props.note}</p>
      </Show>
      <div class="rows">
        <Index each={props.lines}>
          {(line, at) => (
            <Below path={`${props.path}[${at}]`}>
              <HoursLine
                line={line()}
                name={`${props.title}, line ${at + 1}`}
                change={(next) => put(at, next)}
                remove={() => props.change(props.lines.filter((_, n) => n !== at))}
              />
            </Below>
          )}
        </Index>
        <Show when={whole()[0]}>{(fault) => <p class="field-fault">{fault().message}</p>}</Show>
        <button type="button" class="button" onClick={() => props.change([...props.lines, props.fresh()])}>
          {props.add}
        </button>
      </div>
    </fieldset>
  );
};

/** `24:00` ends a day; a clock field shows it as midnight. */
const asClock = (to: string): string => (to === '24:00' ? '00:00' : to);
const asEnd = (typed: string): string => (typed === '00:00' ? '24:00' : typed);

const HoursLine = (props: {
  readonly line: RecurringHours;
  readonly name: string;
  readonly change: (line: RecurringHours) => void;
  readonly remove: () => void;
}): JSX.Element => {
  const days = (): Days => readDays(props.line.rule);
  const turn = (next: Days): void => props.change({ ...props.line, rule: writeDays(next) });
  const weeks = (): Extract<Days, { kind: 'weeks' }> | null => {
    const now = days();
    return now.kind === 'weeks' ? now : null;
  };
  const each = (): Extract<Days, { kind: 'days' }> | null => {
    const now = days();
    return now.kind === 'days' ? now : null;
  };
  const month = (): Extract<Days, { kind: 'month' }> | null => {
    const now = days();
    return now.kind === 'month' ? now : null;
  };
  return (
    <div class="line" role="group" aria-label={props.name}>
      <p class="line-words" aria-live="polite">
        {hoursText(props.line)}
      </p>
      <div class="group-fields">
        <ChoiceField
          label="Comes again"
          path="rule-kind"
          value={days().kind}
          choices={days().kind === 'other' ? [...KINDS, AS_WRITTEN] : KINDS}
          change={(kind) => turn(asKind(kind, days()))}
        />
        <NativeField
          label="From"
          path="from"
          kind="time"
          value={props.line.from}
          change={(from) => props.change({ ...props.line, from })}
        />
        <NativeField
          label="To"
          path="to"
          kind="time"
          value={asClock(props.line.to)}
          change={(to) => props.change({ ...props.line, to: asEnd(to) })}
        />
        <Show when={weeks()}>
          {(now) => (
            <>
              <KeysField
                label="On"
                choices={DAY_KEYS}
                value={now().days}
                change={(chosen) => turn({ ...now(), days: chosen })}
              />
              <NumberField
                label="Every so many weeks"
                path="rule-weeks"
                value={now().every}
                change={(every) => turn({ ...now(), every })}
              />
            </>
          )}
        </Show>
        <Show when={each()}>
          {(now) => (
            <NumberField
              label="Every so many days"
              path="rule-days"
              value={now().every}
              change={(every) => turn({ ...now(), every })}
            />
          )}
        </Show>
        <Show when={month()}>
          {(now) => (
            <>
              <ChoiceField
                label="The"
                path="rule-nth"
                value={NTHS.find(({ value }) => Number(value) === now().nth)?.value ?? '1'}
                choices={NTHS}
                change={(nth) => turn({ ...now(), nth: Number(nth) })}
              />
              <ChoiceField
                label="Weekday"
                path="rule-day"
                value={now().day}
                choices={DAY_KEYS}
                change={(day) => turn({ ...now(), day })}
              />
            </>
          )}
        </Show>
        <Show when={days().kind === 'other'}>
          <TextField
            label="Rule"
            path="rule"
            hint="an RFC 5545 recurrence rule"
            wide
            value={props.line.rule}
            change={(rule) => props.change({ ...props.line, rule })}
          />
        </Show>
        <Show when={days().kind !== 'other'}>
          <RuleFaults />
        </Show>
        <Show when={countsFromStart(days())}>
          <NativeField
            label="Counted from"
            path="start"
            kind="date"
            value={props.line.start}
            change={(start) => props.change({ ...props.line, start })}
          />
        </Show>
      </div>
      <button
        type="button"
        class="button plain"
        aria-label={`Take this line away: ${hoursText(props.line)}`}
        onClick={() => props.remove()}
      >
        Take this line away
      </button>
    </div>
  );
};

/** The rule's own fault, when its days are keys and not text. */
const RuleFaults = (): JSX.Element => {
  const faults = useFaults(() => 'rule');
  return <Show when={faults()[0]}>{(fault) => <p class="field-fault wide">{fault().message}</p>}</Show>;
};
