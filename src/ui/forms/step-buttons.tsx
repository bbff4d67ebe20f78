/**
 * One unseen button for every attended step near what is in sight: what is painted can so be reached by keyboard and
 * heard. One of them is in the tab order; arrows go from there, + and - zoom.
 */
import { createMemo, createSignal, For, Show, untrack, type JSX } from 'solid-js';
import { durationText } from '../clock/index.ts';
import type { Hand as Grasp } from '../drag/index.ts';
import { useSession, useView } from '../state/index.ts';
import {
  endOf,
  rowTop,
  xOf,
  type Hand,
  type LaneBox,
  type Layout,
  type Scale,
  type Strip,
} from './model/index.ts';

interface Place {
  readonly box: LaneBox;
  readonly strip: Strip;
  readonly hand: Hand;
}

export interface StepButtonsProps {
  readonly layout: Layout;
  readonly scale: Scale;
  readonly reveal: (from: number, to: number) => void;
  readonly scroller: HTMLElement;
  readonly hand: Grasp;
  /** Says why a step cannot be taken up. */
  readonly refused: (why: string) => void;
}

const keyOf = ({ box, hand }: Place): string => `${box.lane.id}|${hand.piece}|${hand.step}`;

export const StepButtons = (props: StepButtonsProps): JSX.Element => {
  const session = useSession();
  const view = useView();
  let list!: HTMLDivElement;

  // Buttons are laid out for one scale; a pan only shifts them all together.
  const anchor = createMemo<Scale>((old) => {
    const { scale } = props;
    const near =
      old && old.minutesPerPixel === scale.minutesPerPixel && Math.abs(xOf(old, scale.from)) < scale.width;
    return near ? old : scale;
  });
  const places = createMemo<readonly Place[]>(() => {
    const scale = anchor();
    const from = scale.from - scale.width * scale.minutesPerPixel;
    const to = scale.from + 2 * scale.width * scale.minutesPerPixel;
    const held = props.hand.held();
    // What is held keeps its button, however far it is carried: the keys that carry it go to that button.
    const isNear = (hand: Hand): boolean =>
      (hand.to > from && hand.from < to) || (held?.piece === hand.piece && held.step === hand.step);
    return props.layout.boxes.flatMap((box) =>
      box.lane.strips.flatMap((strip) => strip.hands.filter(isNear).map((hand) => ({ box, strip, hand }))),
    );
  });
  // Buttons are kept by name through every new plan and scale, and with them the focus.
  const byKey = createMemo(() => new Map(places().map((place) => [keyOf(place), place])));
  const keys = createMemo(() => [...byKey().keys()]);
  const [focused, setFocused] = createSignal<string | null>(null);
  /** The one in the tab order: where the focus was, or the first that is still to come. */
  const entry = createMemo(() => {
    const known = focused();
    if (known !== null && places().some((place) => keyOf(place) === known)) return known;
    const next = places().find(({ hand }) => hand.to > session.now()) ?? places()[0];
    return next ? keyOf(next) : null;
  });

  const focusOn = (place: Place | undefined): void => {
    if (!place) return;
    setFocused(keyOf(place));
    props.reveal(place.hand.from, place.hand.to);
    queueMicrotask(() => {
      const button = [...list.querySelectorAll('button')].find((one) => one.dataset.key === keyOf(place));
      button?.focus({ preventScroll: true });
      const top = rowTop(place.box, place.strip.row);
      const { scrollTop, clientHeight } = props.scroller;
      if (top < scrollTop + 30 || top + place.box.rowHeight > scrollTop + clientHeight) {
        props.scroller.scrollTop = Math.max(0, top - clientHeight / 2);
      }
    });
  };
  const neighbour = (from: Place, key: string): Place | undefined => {
    const all = places();
    if (key === 'ArrowRight' || key === 'ArrowLeft') {
      const lane = all.filter((place) => place.box === from.box).sort((a, b) => a.hand.from - b.hand.from);
      return lane[lane.indexOf(from) + (key === 'ArrowRight' ? 1 : -1)];
    }
    const { boxes } = props.layout;
    const step = key === 'ArrowDown' ? 1 : -1;
    for (let at = boxes.indexOf(from.box) + step; at >= 0 && at < boxes.length; at += step) {
      const lane = all.filter((place) => place.box === boxes[at]);
      if (lane.length > 0) {
        return lane.reduce((best, one) =>
          Math.abs(one.hand.from - from.hand.from) < Math.abs(best.hand.from - from.hand.from) ? one : best,
        );
      }
    }
    return undefined;
  };
  /** While a step is held the keys move it: arrows by the hour, with Shift by the minute; Home and End by legal place. */
  const carryBy = (event: KeyboardEvent): void => {
    const { hand } = props;
    const by = event.shiftKey ? 1 : 60;
    const moves: Readonly<Record<string, () => void>> = {
      ArrowRight: () => hand.aim(hand.at() + by, hand.form()),
      ArrowLeft: () => hand.aim(hand.at() - by, hand.form()),
      PageDown: () => hand.aim(hand.at() + 1440, hand.form()),
      PageUp: () => hand.aim(hand.at() - 1440, hand.form()),
      End: () => hand.jump(1),
      Home: () => hand.jump(-1),
      ArrowDown: () => hand.aim(hand.at(), otherForm(1)),
      ArrowUp: () => hand.aim(hand.at(), otherForm(-1)),
      Enter: () => hand.letGo(),
      ' ': () => hand.letGo(),
      Escape: () => hand.putBack(),
    };
    const move = moves[event.key];
    if (!move) return;
    event.preventDefault();
    event.stopPropagation();
    move();
    if (hand.held()) props.reveal(hand.at(), hand.at() + (hand.held()?.minutes ?? 0));
  };
  const otherForm = (direction: number): string | null => {
    const held = props.hand.held();
    const forms = [null, ...(held?.otherForms ?? [])];
    return forms[(forms.indexOf(props.hand.form()) + direction + forms.length) % forms.length];
  };
  const onKey = (event: KeyboardEvent, place: Place): void => {
    if (props.hand.held()) {
      carryBy(event);
      return;
    }
    if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault();
      view.pick({ piece: place.hand.piece, step: place.hand.step });
      const { scale } = props;
      props.refused(props.hand.pickUp(place.hand.piece, place.hand.step, [scale.from, endOf(scale)]));
      return;
    }
    if (event.key.startsWith('Arrow')) {
      event.preventDefault();
      focusOn(neighbour(place, event.key));
    }
  };
  const says = ({ box, strip, hand }: Place): string => {
    const clock = session.clock();
    const opening = strip.openings.find((one) => one.next === hand.step);
    const window =
      opening && opening.opens < opening.closes
        ? `, window ${clock.near(opening.opens, session.now())} to ${clock.near(opening.closes, session.now())}`
        : '';
    const state = hand.state === 'planned' ? '' : hand.state === 'begun' ? ', under way' : ', done';
    return `${clock.near(hand.from, session.now())}, ${hand.title}, ${strip.name}, ${box.lane.name}, ${durationText(hand.to - hand.from)}${window}${state}${hand.pinned ? ', pinned' : ''}`;
  };

  return (
    <div
      class="step-buttons"
      ref={(it) => (list = it)}
      role="group"
      aria-label="Steps in the picture"
      style={{ transform: `translateX(${-xOf(anchor(), props.scale.from)}px)` }}
    >
      <For each={keys()}>
        {(key) => {
          // A button that is going away is asked once more before it is gone.
          let last = untrack(byKey).get(key);
          const place = (): Place | undefined => (last = byKey().get(key) ?? last);
          return (
            <Show when={place()}>
              {(here) => (
                <button
                  type="button"
                  data-key={key}
                  tabindex={entry() === key ? 0 : -1}
                  aria-pressed={
                    view.picked()?.piece === here().hand.piece && view.picked()?.step === here().hand.step
                  }
                  aria-label={says(here())}
                  style={{
                    left: `${xOf(anchor(), here().hand.from)}px`,
                    top: `${rowTop(here().box, here().strip.row) + here().box.bodyHeight - 8}px`,
                    width: `${Math.max(24, xOf(anchor(), here().hand.to) - xOf(anchor(), here().hand.from))}px`,
                  }}
                  onFocus={() => setFocused(key)}
                  onKeyDown={(event) => onKey(event, here())}
                  onClick={() => view.pick({ piece: here().hand.piece, step: here().hand.step })}
                />
              )}
            </Show>
          );
        }}
      </For>
    </div>
  );
};
