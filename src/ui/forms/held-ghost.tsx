/** What is held, or has just been put down, over the picture: it follows the hand by a transform alone, so that nothing is painted anew beneath it. */
import { createMemo, Show, type JSX } from 'solid-js';
import type { Hand, Held } from '../drag/index.ts';
import { homeOf } from './held-scene.ts';
import { rowTop, xOf, type Layout, type Scale } from './model/index.ts';

const LEAST_WIDTH_PX = 8;
/** It stands out of its row by so much above, and a little less below. */
const OVER_PX = 4;

export const HeldGhost = (props: {
  readonly hand: Hand;
  readonly layout: Layout;
  readonly scale: Scale | null;
  readonly top: number;
}): JSX.Element => {
  const shown = (): Held | null => props.hand.held() ?? props.hand.landing();
  const home = createMemo(() => {
    const held = shown();
    return held && homeOf(props.layout, held.piece, held.step);
  });
  /** The row it is held over: its own, or the first of another form's lane. */
  const row = createMemo(() => {
    const form = props.hand.form();
    const other =
      form !== null && props.layout.boxes.find((box) => box.lane.what === 'form' && box.lane.place === form);
    return other ? { box: other, row: 0 } : home();
  });
  const place = (): JSX.CSSProperties | null => {
    const { scale } = props;
    const held = shown();
    const over = row();
    if (!scale || !held || !over) return null;
    const y = rowTop(over.box, over.row) - props.top - OVER_PX;
    return {
      width: `${Math.max(LEAST_WIDTH_PX, held.minutes / scale.minutesPerPixel)}px`,
      height: `${over.box.rowHeight + OVER_PX + 2}px`,
      transform: `translate(${xOf(scale, props.hand.at())}px, ${y}px)`,
    };
  };
  return (
    <Show when={place()}>
      {(style) => (
        <div
          class="ghost"
          classList={{ 'ghost-shut': props.hand.verdict().kind === 'shut' }}
          style={style()}
          aria-hidden="true"
        />
      )}
    </Show>
  );
};
