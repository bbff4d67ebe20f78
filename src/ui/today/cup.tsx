/** The mixing cup: what is in it sinks as its working time runs out. */
import type { JSX } from 'solid-js';
import { countdownText } from '../clock/index.ts';

const FLOOR = 58;
const RIM = 10;

export const Cup = (props: {
  readonly secondsLeft: number;
  readonly secondsInAll: number;
  readonly until: string;
}): JSX.Element => {
  const share = (): number => Math.min(1, Math.max(0, props.secondsLeft / props.secondsInAll));
  const level = (): number => FLOOR - share() * (FLOOR - RIM - 4);
  const isOver = (): boolean => props.secondsLeft <= 0;
  const half = (y: number): number => 14 + ((FLOOR - y) / (FLOOR - RIM)) * 6;
  return (
    <div class="cup" classList={{ 'cup-over': isOver(), 'cup-low': !isOver() && share() < 0.25 }}>
      <svg viewBox="0 0 52 64" aria-hidden="true">
        <path
          class="cup-fill"
          d={`M${26 - half(level())} ${level()}H${26 + half(level())}L40 ${FLOOR}H12Z`}
        />
        <path class="cup-wall" d={`M6 ${RIM}L12 ${FLOOR}H40L46 ${RIM}`} />
        <path class="cup-marks" d="M9 22h7M10 34h5M11 46h7" />
      </svg>
      <p role="timer">
        <strong>{isOver() ? 'over' : countdownText(props.secondsLeft)}</strong>
        <span>
          {isOver()
            ? `The mix stopped flowing at ${props.until}. Do not pour it.`
            : `flows until ${props.until}`}
        </span>
      </p>
    </div>
  );
};
