/** A resin's window against temperature: when it opens and closes, when the form comes off; and all of it in words. */
import { createMemo, createSignal, createUniqueId, For, Show, type JSX } from 'solid-js';
import type { ResinTimes } from '../../../engine/index.ts';
import type { Resin, Shop } from '../../../engine/shop/index.ts';
import { durationText } from '../../clock/index.ts';
import { measureText, shownNumber } from '../../fields/index.ts';
import { createAnswer, useSession } from '../../state/index.ts';
import { curvePicture, temperaturesBetween } from '../model/curve-picture.ts';

const BOX = { width: 440, height: 240, left: 64, right: 16, top: 12, bottom: 30 } as const;
const COLDEST = 5;
const WARMEST = 35;

export const ResinPicture = (props: { readonly resin: Resin; readonly shop: Shop }): JSX.Element => {
  const session = useSession();
  const id = createUniqueId();
  const curve = createAnswer(
    () => props.resin,
    async (resin): Promise<readonly ResinTimes[]> =>
      session.engine
        .ask('curve', { resin, temperaturesDegC: temperaturesBetween(COLDEST, WARMEST) })
        // Numbers that fit no curve: drawn again once they do.
        .catch(() => []),
    [],
  );
  const usable = createMemo(() => {
    const known = curve();
    return known.every(
      (each) => Number.isFinite(each.closesMinutes) && each.closesMinutes > 0 && (each.opensMinutes ?? 1) > 0,
    )
      ? known
      : [];
  });
  const picture = createMemo(() => (usable().length === 0 ? null : curvePicture(usable(), BOX)));
  const middle = (): number => {
    const pattern = props.shop.rooms[0]?.temperature.pattern;
    return pattern ? Math.round(pattern.nightLowDegC + pattern.dayHighDegC) / 2 : props.resin.referenceDegC;
  };
  const [chosen, setChosen] = createSignal<number | null>(null);
  const degC = (): number => Math.min(WARMEST, Math.max(COLDEST, chosen() ?? middle()));
  const at = createMemo(() =>
    usable().find((each) => Math.abs(each.degC - Math.round(degC() * 2) / 2) < 1e-9),
  );
  const units = (): Shop['units'] => props.shop.units;
  return (
    <Show
      when={picture()}
      fallback={<p class="drawing drawing-empty">The curve is drawn once its numbers make sense together.</p>}
    >
      {(drawn) => (
        <figure class="drawing">
          <svg viewBox={`0 0 ${BOX.width} ${BOX.height}`} aria-hidden="true">
            <defs>
              <pattern id={`${id}-tacky`} width="8" height="8" patternUnits="userSpaceOnUse">
                <rect class="tacky-ground" width="8" height="8" />
                <circle class="tacky-dot" cx="4" cy="4" r="2.6" />
              </pattern>
            </defs>
            <For each={drawn().rungs}>
              {({ text, y }) => (
                <>
                  <line class="rung" x1={BOX.left} x2={BOX.width - BOX.right} y1={y} y2={y} />
                  <text class="axis-text" x={BOX.left - 6} y={y + 4} text-anchor="end">
                    {text}
                  </text>
                </>
              )}
            </For>
            <For each={[5, 10, 15, 20, 25, 30, 35]}>
              {(warmth) => (
                <text class="axis-text" x={drawn().x(warmth)} y={BOX.height - 8} text-anchor="middle">
                  {shownNumber(warmth, 'warmth', units())}°
                </text>
              )}
            </For>
            <Show when={props.resin.lowestDegC > COLDEST}>
              <rect
                class="too-cold"
                x={drawn().x(COLDEST)}
                y={BOX.top}
                width={Math.max(0, drawn().x(Math.min(WARMEST, props.resin.lowestDegC)) - drawn().x(COLDEST))}
                height={BOX.height - BOX.top - BOX.bottom}
              />
              <Show when={props.resin.lowestDegC > COLDEST + 4}>
                <text class="axis-text" x={drawn().x(COLDEST) + 8} y={BOX.top + 20}>
                  stands still
                </text>
              </Show>
            </Show>
            <path class="curve-window" d={drawn().window} fill={`url(#${id}-tacky)`} />
            <path class="curve-opens" d={drawn().opens} />
            <path class="curve-closes" d={drawn().closes} />
            <path class="curve-demold" d={drawn().demold} />
            <line
              class="curve-at"
              x1={drawn().x(degC())}
              x2={drawn().x(degC())}
              y1={BOX.top}
              y2={BOX.height - BOX.bottom}
            />
          </svg>
          <ul class="curve-key" aria-hidden="true">
            <li>
              <i class="key-line key-opens" /> opens
            </li>
            <li>
              <i class="key-line key-closes" /> closes
            </li>
            <li>
              <i class="key-line key-demold" /> demold
            </li>
          </ul>
          <label class="curve-slider" for={`${id}-at`}>
            At {measureText(degC(), 'warmth', units())}
            <input
              id={`${id}-at`}
              type="range"
              min={COLDEST}
              max={WARMEST}
              step="0.5"
              value={degC()}
              aria-valuetext={measureText(degC(), 'warmth', units())}
              onInput={(event) => setChosen(Number(event.currentTarget.value))}
            />
          </label>
          <figcaption aria-live="polite">
            <Show when={at()}>
              {(times) => (
                <Show
                  when={times().opensMinutes}
                  fallback={
                    <span class="caption-warn">
                      Below {measureText(props.resin.lowestDegC, 'warmth', units())} it stands still: no
                      window opens.
                    </span>
                  }
                >
                  {(opens) => (
                    <>
                      window opens after <strong>{durationText(opens())}</strong>, closes after{' '}
                      <strong>{durationText(times().closesMinutes)}</strong>; out of the form after{' '}
                      <strong>{durationText(times().demoldMinutes ?? 0)}</strong>; pour within{' '}
                      {durationText(times().pourByMinutes)} of mixing
                    </>
                  )}
                </Show>
              )}
            </Show>
          </figcaption>
        </figure>
      )}
    </Show>
  );
};
