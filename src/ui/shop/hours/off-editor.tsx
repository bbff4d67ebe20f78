/** Days on which someone, or everyone, is away. */
import { Index, type JSX } from 'solid-js';
import type { TimeOff } from '../../../engine/shop/index.ts';
import { Below, NativeField, TextField } from '../../fields/index.ts';
import { offText } from './words.ts';

/** Both ends are whole days; what the file holds as moments stays moments. */
export const OffEditor = (props: {
  readonly title: string;
  readonly path: string;
  readonly lines: readonly TimeOff[];
  /** The day a new line begins with, such as `2026-11-26`. */
  readonly today: string;
  readonly change: (lines: readonly TimeOff[]) => void;
}): JSX.Element => {
  const put = (at: number, line: TimeOff): void =>
    props.change(props.lines.map((known, n) => (n === at ? line : known)));
  const kind = (moment: string): 'date' | 'datetime-local' =>
    moment.includes('T') ? 'datetime-local' : 'date';
  return (
    <fieldset class="group">
      <legend>{props.title}</legend>
      <div class="rows">
        <Index each={props.lines}>
          {(line, at) => (
            <Below path={`${props.path}[${at}]`}>
              <div class="line" role="group" aria-label={`${props.title}, line ${at + 1}`}>
                <p class="line-words">{offText(line())}</p>
                <div class="group-fields">
                  <NativeField
                    label="From"
                    path="from"
                    kind={kind(line().from)}
                    value={line().from.slice(0, 16)}
                    change={(from) => put(at, { ...line(), from, to: line().to < from ? from : line().to })}
                  />
                  <NativeField
                    label="To, this day too"
                    path="to"
                    kind={kind(line().to)}
                    value={line().to.slice(0, 16)}
                    change={(to) => put(at, { ...line(), to })}
                  />
                  <TextField
                    label="Why"
                    path="why"
                    value={line().why ?? ''}
                    change={(why) => put(at, { ...line(), why: why === '' ? undefined : why })}
                  />
                </div>
                <button
                  type="button"
                  class="button plain"
                  aria-label={`Take this line away: ${offText(line())}`}
                  onClick={() => props.change(props.lines.filter((_, n) => n !== at))}
                >
                  Take this line away
                </button>
              </div>
            </Below>
          )}
        </Index>
        <button
          type="button"
          class="button"
          onClick={() => props.change([...props.lines, { from: props.today, to: props.today }])}
        >
          Add days off
        </button>
      </div>
    </fieldset>
  );
};
