/**
 * The picture of lanes over time: a canvas that is painted, a scroller that moves it up and down, and a layer of
 * unseen buttons, one for every attended step in sight, for the keyboard and for those who hear the screen.
 */
import {
  createEffect,
  createMemo,
  createSignal,
  Index,
  on,
  onCleanup,
  onMount,
  Show,
  untrack,
  type JSX,
} from 'solid-js';
import { DAY, WEEK, type Minute } from '../clock/index.ts';
import { HeldNote, snapTo, verdictWords, type Hand, type Spot } from '../drag/index.ts';
import { useSession, useView, type Picked } from '../state/index.ts';
import { planWords } from '../words/index.ts';
import { HeldGhost } from './held-ghost.tsx';
import { formOfLane, placesScene } from './held-scene.ts';
import { LaneNames } from './lane-names.tsx';
import {
  axisOf,
  DESK_SIZES,
  endOf,
  layoutOf,
  lookAround,
  nightsOf,
  PHONE_SIZES,
  reveal,
  spanMinutes,
  xOf,
  zoomAt,
  type Lane,
  type Scale,
} from './model/index.ts';
import {
  AXIS_HEIGHT,
  makeTextures,
  paintAxis,
  paintPicture,
  readPalette,
  type Palette,
  type Scene,
  type Textures,
} from './paint/index.ts';
import { attachPointer } from './pointer.ts';
import { StepButtons } from './step-buttons.tsx';
import { createSurroundings } from './surroundings.ts';

export interface PictureHandle {
  zoom(factor: number): void;
  /** Shows this many minutes around what is in the middle. */
  show(minutes: number): void;
  showNow(): void;
  showMinute(minute: Minute): void;
  shownMinutes(): number;
  /** Takes a step into the hand, to be moved by keys or buttons. */
  take(picked: Picked): void;
}

const PHONE = 700;

export const Picture = (props: {
  readonly lanes: readonly Lane[];
  readonly hand: Hand;
  readonly ready: (handle: PictureHandle) => void;
}): JSX.Element => {
  const session = useSession();
  const view = useView();
  let frame!: HTMLDivElement;
  let scroller!: HTMLDivElement;
  let canvas!: HTMLCanvasElement;
  let axisCanvas!: HTMLCanvasElement;

  const [size, setSize] = createSignal({ width: 0, height: 0, phone: false });
  const [scale, setScale] = createSignal<Scale | null>(null);
  const [top, setTop] = createSignal(0);
  const [ink, setInk] = createSignal<{ colours: Palette; textures: Textures; ratio: number } | null>(null);
  /** Where the pointer is that holds a step; null: keys hold it. */
  const [spot, setSpot] = createSignal<Spot | null>(null);
  const [pointed, setPointed] = createSignal<{ piece: string; step: string } | null>(null);

  const layout = createMemo(() => layoutOf(props.lanes, size().phone ? PHONE_SIZES : DESK_SIZES));
  const axis = createMemo(() => {
    const current = scale();
    return current && axisOf(current, session.clock());
  });
  const around = createSurroundings(session, () => {
    const current = scale();
    return current && [current.from, endOf(current)];
  });

  /** Enough to see the first work that is coming. */
  const firstSpan = (width: number): number => {
    const coming = props.lanes
      .flatMap((lane) => lane.strips.map((strip) => strip.to))
      .filter((to) => to > session.now());
    const least = width < PHONE ? 2.5 * DAY : WEEK;
    const first = Math.min(...coming) - session.now();
    return Number.isFinite(first) ? Math.min(2 * WEEK, Math.max(least, first * 1.25)) : least;
  };

  const change = (next: Scale): void => {
    setScale(next);
    view.look(next.from, next.minutesPerPixel);
  };

  onMount(() => {
    const measure = new ResizeObserver(() => {
      const width = canvas.clientWidth;
      const height = scroller.clientHeight;
      setSize({ width, height, phone: window.innerWidth < PHONE });
      const known = untrack(scale);
      if (known) change({ ...known, width });
      else if (width > 0) {
        const from = view.from();
        const perPixel = view.minutesPerPixel();
        change(
          from !== null && perPixel !== null
            ? { from, minutesPerPixel: perPixel, width }
            : lookAround(session.now(), firstSpan(width), width),
        );
      }
    });
    measure.observe(frame);
    onCleanup(() => measure.disconnect());
    const keyboardZoom = (factor: number): void => {
      const current = scale();
      if (current) change(zoomAt(current, factor, current.width / 2));
    };
    props.ready({
      zoom: keyboardZoom,
      show(minutes) {
        const current = scale();
        if (!current) return;
        const nowX = xOf(current, session.now());
        // The present stays where it is when it is in sight.
        change(spanMinutes(current, minutes, nowX >= 0 && nowX <= current.width ? nowX : current.width / 2));
      },
      showNow() {
        const current = scale();
        if (current)
          change({ ...current, from: session.now() - current.width * current.minutesPerPixel * 0.14 });
      },
      showMinute(minute) {
        const current = scale();
        if (current) change(reveal(current, minute, minute));
      },
      take({ piece, step }) {
        const current = scale();
        if (!current) return;
        setSpot(null);
        setRefused(props.hand.pickUp(piece, step, [current.from, endOf(current)]));
        if (props.hand.held()) change(reveal(current, props.hand.at(), props.hand.at()));
      },
      shownMinutes() {
        const current = scale();
        return current ? current.width * current.minutesPerPixel : 0;
      },
    });
    onCleanup(
      attachPointer({
        scroller,
        canvas,
        scale,
        layout,
        top,
        change,
        setPointed,
        picked: view.picked,
        pick: view.pick,
        takeUp({ hand }) {
          const current = scale();
          if (!hand || !current) return false;
          view.pick({ piece: hand.piece, step: hand.step });
          const why = props.hand.pickUp(hand.piece, hand.step, [current.from, endOf(current)]);
          setRefused(why);
          return why === '';
        },
        carry(minute, laneId, at) {
          const current = scale();
          if (!current) return;
          const form = formOfLane(layout(), props.hand, laneId);
          const day = session.clock().dayOf(Math.round(minute)).start;
          props.hand.aim(snapTo(minute, current.minutesPerPixel, props.hand.places(form), day), form);
          setSpot(at);
        },
        letGo() {
          setSpot(null);
          props.hand.letGo();
        },
        putBack() {
          setSpot(null);
          props.hand.putBack();
        },
      }),
    );
  });

  // Colours and textures follow the theme.
  createEffect(
    on([view.isDark, size], () => {
      queueMicrotask(() => {
        const pen = canvas.getContext('2d');
        if (!pen) return;
        const ratio = Math.min(2, window.devicePixelRatio || 1);
        const colours = readPalette(canvas);
        setInk({ colours, textures: makeTextures(pen, colours, ratio), ratio });
      });
    }),
  );

  const [refused, setRefused] = createSignal('');
  /** Told as keys carry it; whoever carries it by a pointer sees it. */
  const heard = (): string => {
    if (spot() !== null) return '';
    if (!props.hand.held()) return refused();
    return `${session.clock().near(props.hand.at(), session.now())}: ${verdictWords(props.hand)}`;
  };

  /** Changes only when what the engine said does, not with every move. */
  const places = createMemo(() => placesScene(layout(), props.hand));
  let requested = 0;
  const paint = (): void => {
    requested = 0;
    const current = scale();
    const currentAxis = axis();
    const tools = ink();
    const { width, height } = size();
    if (!current || !currentAxis || !tools || width === 0) return;
    const pen = prepared(canvas, width, height, tools.ratio);
    const axisPen = prepared(axisCanvas, width, AXIS_HEIGHT, tools.ratio);
    if (!pen || !axisPen) return;
    const scene: Scene = {
      pen,
      ...tools,
      scale: current,
      axis: currentAxis,
      clock: session.clock(),
      layout: layout(),
      top: top(),
      width,
      height,
      now: session.now(),
      nights: current.minutesPerPixel > 40 ? [] : nightsOf(currentAxis.days, session.clock()),
      closed: around().closed,
      air: around().air,
      picked: view.picked(),
      pointed: pointed(),
      places: places(),
    };
    paintPicture(scene);
    paintAxis({ ...scene, pen: axisPen });
  };
  createEffect(() => {
    // Whatever the picture is made of: one frame, however much changed.
    void [
      scale(),
      top(),
      ink(),
      size(),
      layout(),
      around(),
      session.now(),
      view.picked(),
      pointed(),
      places(),
    ];
    requested ||= requestAnimationFrame(() => untrack(paint));
  });
  onCleanup(() => cancelAnimationFrame(requested));

  return (
    <div
      class="picture"
      classList={{ 'picture-held': props.hand.held() !== null }}
      ref={(it) => (frame = it)}
    >
      <div class="picture-axis">
        <div class="picture-corner" />
        <canvas
          class="axis"
          ref={(it) => (axisCanvas = it)}
          aria-hidden="true"
          style={{ height: `${AXIS_HEIGHT}px` }}
        />
        <div class="picture-corner picture-corner-right">frees up</div>
      </div>
      <div class="scroller" ref={(it) => (scroller = it)} onScroll={() => setTop(scroller.scrollTop)}>
        <div class="board" style={{ height: `${layout().height}px` }}>
          <div class="sheet" style={{ height: `${size().height}px` }}>
            <canvas
              class="lanes"
              ref={(it) => (canvas = it)}
              aria-hidden="true"
              style={{ height: `${size().height}px` }}
            />
            <HeldGhost hand={props.hand} layout={layout()} scale={scale()} top={top()} />
          </div>
          <LaneNames layout={layout()} />
          <Show when={scale()}>
            {(current) => (
              <StepButtons
                layout={layout()}
                scale={current()}
                reveal={(from, to) => change(reveal(current(), from, to))}
                scroller={scroller}
                hand={props.hand}
                refused={setRefused}
              />
            )}
          </Show>
          <Show when={session.planned() === null}>
            <p class="picture-note">{planWords(session.phase(), false)}</p>
          </Show>
          <Index each={layout().headings}>
            {(heading) => (
              <h2 class="lane-heading" style={{ top: `${heading().top}px` }}>
                {heading().text}
              </h2>
            )}
          </Index>
        </div>
      </div>
      <p class="unseen" aria-live="polite">
        {heard()}
      </p>
      <HeldNote hand={props.hand} spot={spot()} />
    </div>
  );
};

/** A cleared pen in CSS pixels; the canvas is resized only when it must be. */
const prepared = (
  canvas: HTMLCanvasElement,
  width: number,
  height: number,
  ratio: number,
): CanvasRenderingContext2D | null => {
  const wide = Math.round(width * ratio);
  const high = Math.round(height * ratio);
  if (canvas.width !== wide || canvas.height !== high) {
    canvas.width = wide;
    canvas.height = high;
  }
  const pen = canvas.getContext('2d');
  pen?.setTransform(ratio, 0, 0, ratio, 0, 0);
  return pen;
};
