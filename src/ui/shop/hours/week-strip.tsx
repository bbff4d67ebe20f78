/** A common week as seven bars of a day: when somebody is there, and which of it is not loved. */
import { For, type JSX } from 'solid-js';
import type { RecurringHours } from '../../../engine/shop/index.ts';
import { openWeek } from './open-week.ts';

const NAMES = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;
const WIDTH = 288;
const HEIGHT = 12;
const share = (minutes: number): number => (minutes / 1440) * WIDTH;

export const WeekStrip = (props: {
  readonly hours: readonly RecurringHours[];
  readonly unloved: readonly RecurringHours[];
}): JSX.Element => (
  <div class="week-strip" aria-hidden="true">
    <For each={NAMES}>
      {(name, day) => (
        <div class="week-strip-day">
          <span>{name}</span>
          <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none">
            <rect class="strip-closed" width={WIDTH} height={HEIGHT} />
            <For each={openWeek(props.hours)[day()]}>
              {({ from, to, sometimes }) => (
                <rect
                  class="strip-open"
                  classList={{ 'strip-sometimes': sometimes }}
                  x={share(from)}
                  width={share(to - from)}
                  height={HEIGHT}
                />
              )}
            </For>
            <For each={openWeek(props.unloved)[day()]}>
              {({ from, to }) => (
                <rect
                  class="strip-unloved"
                  x={share(from)}
                  y={HEIGHT - 4}
                  width={share(to - from)}
                  height={4}
                />
              )}
            </For>
            <For each={[6, 12, 18]}>
              {(hour) => (
                <line class="strip-hour" x1={share(hour * 60)} x2={share(hour * 60)} y1="0" y2={HEIGHT} />
              )}
            </For>
          </svg>
        </div>
      )}
    </For>
    <div class="week-strip-day">
      <span />
      <span class="strip-scale">
        <i>0</i>
        <i>6</i>
        <i>12</i>
        <i>18</i>
        <i>24</i>
      </span>
    </div>
  </div>
);
