/** A tack window as a bar that fills: wet before it, open in it, too hard after it. */
import { Show, type JSX } from 'solid-js';
import { durationText, type Minute } from '../clock/index.ts';
import { useSession } from '../state/index.ts';
import { windowScale, windowWords } from './window-words.ts';

export const WindowBar = (props: {
  readonly opens: Minute;
  readonly closes: Minute;
  /** When the next application is planned. */
  readonly at?: Minute;
}): JSX.Element => {
  const session = useSession();
  const scale = () => windowScale(props.opens, props.closes, session.now());
  const time = (minute: Minute): string => session.clock().near(minute, session.now());
  return (
    <div class="window">
      <p class="window-times">
        <span>
          {props.opens <= session.now() ? 'opened' : 'opens'} <strong>{time(props.opens)}</strong>
        </span>
        <span>
          {props.closes < session.now() ? 'closed' : 'closes'} <strong>{time(props.closes)}</strong>
        </span>
      </p>
      <div class="window-bar" aria-hidden="true">
        <i class="window-wet" style={{ width: `${scale().opensAt}%` }} />
        <i
          class="window-open"
          style={{ left: `${scale().opensAt}%`, width: `${scale().closesAt - scale().opensAt}%` }}
        />
        <i
          class="window-hard"
          style={{ left: `${scale().closesAt}%`, width: `${100 - scale().closesAt}%` }}
        />
        <i class="window-fill" style={{ width: `${scale().nowAt}%` }} />
        <Show when={props.at}>
          {(at) => <i class="window-planned" style={{ left: `${scale().place(at())}%` }} />}
        </Show>
      </div>
      <p class="window-says">{windowWords(props.opens, props.closes, session.now(), durationText)}</p>
    </div>
  );
};
