/** One surface that cures, and the finger that tests it. */
import { Show, type JSX } from 'solid-js';
import { durationText } from '../clock/index.ts';
import { Remarks, remarksOf } from '../remarks/index.ts';
import { useSession } from '../state/index.ts';
import { applicationWords } from '../words/index.ts';
import { touch } from './acts.ts';
import type { Setting, Surface } from './setting.ts';
import { WindowBar } from './window-bar.tsx';

const NEXT_WORDS = {
  demold: 'out of the form from',
  machine: 'can be flattened from',
  finish: 'fully cured',
} as const;

export const SettingCard = (props: { readonly setting: Setting }): JSX.Element => {
  const session = useSession();
  const near = (minute: number): string => session.clock().near(minute, session.now());
  const window = (): { readonly opens: number; readonly closes: number } | null => {
    const { opens, closes } = props.setting;
    return opens === null || closes === null ? null : { opens, closes };
  };
  const found = (surface: Surface): void =>
    session.edit(
      touch(
        { id: props.setting.piece, name: props.setting.pieceName },
        props.setting.step,
        surface,
        session.now(),
        session.clock().iso,
      ),
    );
  return (
    <article class="setting">
      <i class={`setting-skin setting-${props.setting.surface}`} aria-hidden="true" />
      <div>
        <h3>
          {props.setting.pieceName}, {applicationWords(props.setting.step)}
        </h3>
        <p>
          <strong>{props.setting.surface}</strong>, on since {near(props.setting.applied)} (
          {durationText(session.now() - props.setting.applied)})
        </p>
        <Show when={props.setting.isStalled}>
          <p class="entry-scuff">Too cold: it does not cure now.</p>
        </Show>
        <Remarks remarks={remarksOf(session.planned()?.plan, props.setting.piece, [props.setting.step])} />
        <Show when={props.setting.isAwaited && window()}>
          {(known) => (
            <Show
              when={!props.setting.isFoundHard && known().opens <= known().closes}
              fallback={
                <p class="entry-scuff">
                  <Show
                    when={props.setting.isFoundHard}
                    fallback="Held up by the cold, it has no sure window"
                  >
                    Found hard <strong>{near(known().closes)}</strong>
                  </Show>
                  : scuff before the next pour.
                </p>
              }
            >
              <WindowBar opens={known().opens} closes={known().closes} />
            </Show>
          )}
        </Show>
        <Show when={props.setting.isAwaited}>
          <div
            class="touch"
            role="group"
            aria-label={`Touch test of ${applicationWords(props.setting.step)}, ${props.setting.pieceName}`}
          >
            <span>Tacky yet?</span>
            <button type="button" class="button act" onClick={() => found('tacky')}>
              Tacky
            </button>
            <button type="button" class="button act" onClick={() => found('wet')}>
              Not yet
            </button>
            <button type="button" class="button" onClick={() => found('hard')}>
              Too hard
            </button>
          </div>
        </Show>
        <Show when={!props.setting.isAwaited && props.setting.next}>
          {(next) => (
            <p>
              {NEXT_WORDS[next().what]} <strong>{near(next().at)}</strong>
            </p>
          )}
        </Show>
      </div>
    </article>
  );
};
