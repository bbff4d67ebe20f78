/** Mouse and fingers on the picture: pan, pinch, wheel, point at, pick, and take a step into the hand. */
import type { Accessor } from 'solid-js';
import type { Minute } from '../clock/index.ts';
import type { Picked } from '../state/index.ts';
import { hitAt, minuteAt, panBy, zoomAt, type Hit, type Layout, type Scale } from './model/index.ts';

export interface PointerParts {
  readonly scroller: HTMLElement;
  readonly canvas: HTMLCanvasElement;
  readonly scale: Accessor<Scale | null>;
  readonly layout: Accessor<Layout>;
  readonly top: Accessor<number>;
  readonly change: (scale: Scale) => void;
  readonly setPointed: (at: Picked | null) => void;
  readonly picked: Accessor<Picked | null>;
  readonly pick: (picked: Picked | null) => void;
  /** A step is taken up; false when it stays where it is. */
  readonly takeUp: (hit: Hit) => boolean;
  /** What is held is over this minute and this lane (null: over none). */
  readonly carry: (
    minute: Minute,
    laneId: string | null,
    spot: { readonly x: number; readonly y: number },
  ) => void;
  readonly letGo: () => void;
  readonly putBack: () => void;
}

interface Point {
  readonly x: number;
  readonly y: number;
}

/** A press that moves less than this is a click. */
const STILL_PX = 5;
/** A finger that rests this long on a step takes it up. */
const REST_MS = 380;
/** Near an edge, what is held pulls the picture along. */
const EDGE_PX = 44;
const EDGE_STEP_PX = 9;

/** Listens until the returned function is called. */
export const attachPointer = (parts: PointerParts): (() => void) => {
  const { scroller, canvas, scale, layout, top, change } = parts;
  const points = new Map<number, Point>();
  let travelled = 0;
  let spread = 0;
  /** The step under the press, until it is clear what the press is. */
  let pressed: Hit | null = null;
  let resting: ReturnType<typeof setTimeout> | undefined;
  /** While a step is held: minutes between its start and the pointer, and where the pointer is. */
  let grip: Minute | null = null;
  let last: Point = { x: 0, y: 0 };
  let pulling = 0;

  const place = ({ x, y }: Point): Point => {
    const edge = canvas.getBoundingClientRect();
    return { x: x - edge.left, y: y - edge.top + top() };
  };
  const pointOf = (event: PointerEvent | WheelEvent): Point => ({ x: event.clientX, y: event.clientY });
  const hit = (point: Point, picked: Picked | null = null): Hit | null => {
    const current = scale();
    const { x, y } = place(point);
    return current && hitAt(layout(), current, x, y, picked);
  };

  const carry = (point: Point): void => {
    const current = scale();
    if (!current || grip === null) return;
    last = point;
    parts.carry(minuteAt(current, place(point).x) - grip, hit(point)?.box.lane.id ?? null, point);
  };
  const pull = (): void => {
    pulling = 0;
    const current = scale();
    if (!current || grip === null) return;
    const { x } = place(last);
    const by = x < EDGE_PX ? -EDGE_STEP_PX : x > current.width - EDGE_PX ? EDGE_STEP_PX : 0;
    if (by === 0) return;
    change(panBy(current, by));
    carry(last);
    pulling = requestAnimationFrame(pull);
  };
  const takeUp = (point: Point): void => {
    clearTimeout(resting);
    const current = scale();
    if (!pressed?.hand || !current || !parts.takeUp(pressed)) {
      pressed = null;
      return;
    }
    grip = minuteAt(current, place(point).x) - pressed.hand.from;
    pressed = null;
    parts.setPointed(null);
    carry(point);
  };
  const release = (): void => {
    grip = null;
    cancelAnimationFrame(pulling);
    pulling = 0;
  };

  const onDown = (event: PointerEvent): void => {
    if (event.button !== 0 || (event.target instanceof Element && event.target.closest('button, a'))) return;
    const point = pointOf(event);
    points.set(event.pointerId, point);
    travelled = 0;
    spread = spreadOf(points);
    scroller.setPointerCapture(event.pointerId);
    clearTimeout(resting);
    pressed = points.size === 1 ? hit(point, parts.picked()) : null;
    if (pressed?.hand && event.pointerType !== 'mouse') resting = setTimeout(() => takeUp(point), REST_MS);
  };
  const onMove = (event: PointerEvent): void => {
    const known = points.get(event.pointerId);
    const current = scale();
    const point = pointOf(event);
    if (!known || !current) {
      if (event.pointerType === 'mouse') {
        const hand = hit(point)?.hand ?? null;
        parts.setPointed(hand && { piece: hand.piece, step: hand.step });
        scroller.style.cursor = hand ? 'pointer' : 'grab';
      }
      return;
    }
    const dx = point.x - known.x;
    travelled += Math.abs(dx) + Math.abs(point.y - known.y);
    points.set(event.pointerId, point);
    if (grip !== null) {
      carry(point);
      pulling ||= requestAnimationFrame(pull);
      return;
    }
    if (travelled > STILL_PX && pressed) {
      if (event.pointerType === 'mouse' && pressed.hand) {
        takeUp(known);
        carry(point);
        return;
      }
      clearTimeout(resting);
      pressed = null;
    }
    if (points.size === 1) change(panBy(current, -dx));
    else {
      const wider = spreadOf(points);
      const middle = [...points.values()].reduce((sum, one) => sum + one.x, 0) / points.size;
      const x = middle - canvas.getBoundingClientRect().left;
      if (spread > 0 && wider > 0) change(zoomAt(panBy(current, -dx / points.size), wider / spread, x));
      spread = wider;
    }
  };
  const onUp = (event: PointerEvent): void => {
    if (!points.delete(event.pointerId)) return;
    clearTimeout(resting);
    spread = spreadOf(points);
    pressed = null;
    if (grip !== null) {
      release();
      if (event.type === 'pointerup') parts.letGo();
      else parts.putBack();
      return;
    }
    if (event.type === 'pointerup' && points.size === 0 && travelled < STILL_PX) {
      const hand = hit(pointOf(event))?.hand ?? null;
      parts.pick(hand && { piece: hand.piece, step: hand.step });
    }
  };
  const onLeave = (): void => parts.setPointed(null);
  const onWheel = (event: WheelEvent): void => {
    const current = scale();
    if (!current) return;
    if (event.ctrlKey || event.metaKey) {
      event.preventDefault();
      change(zoomAt(current, Math.exp(-event.deltaY * 0.004), place(pointOf(event)).x));
    } else if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) {
      event.preventDefault();
      change(panBy(current, event.deltaX || event.deltaY));
    }
  };
  // While a finger holds a step, the page must not scroll under it.
  const onTouchMove = (event: TouchEvent): void => {
    if (grip !== null && event.cancelable) event.preventDefault();
  };
  const onKey = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || grip === null) return;
    release();
    parts.putBack();
  };
  const noMenu = (event: Event): void => {
    if (grip !== null || pressed?.hand) event.preventDefault();
  };
  scroller.addEventListener('pointerdown', onDown);
  scroller.addEventListener('pointermove', onMove);
  scroller.addEventListener('pointerup', onUp);
  scroller.addEventListener('pointercancel', onUp);
  scroller.addEventListener('pointerleave', onLeave);
  scroller.addEventListener('contextmenu', noMenu);
  scroller.addEventListener('wheel', onWheel, { passive: false });
  scroller.addEventListener('touchmove', onTouchMove, { passive: false });
  window.addEventListener('keydown', onKey);
  return () => {
    clearTimeout(resting);
    cancelAnimationFrame(pulling);
    scroller.removeEventListener('pointerdown', onDown);
    scroller.removeEventListener('pointermove', onMove);
    scroller.removeEventListener('pointerup', onUp);
    scroller.removeEventListener('pointercancel', onUp);
    scroller.removeEventListener('pointerleave', onLeave);
    scroller.removeEventListener('contextmenu', noMenu);
    scroller.removeEventListener('wheel', onWheel);
    scroller.removeEventListener('touchmove', onTouchMove);
    window.removeEventListener('keydown', onKey);
  };
};

const spreadOf = (points: ReadonlyMap<number, Point>): number => {
  const [a, b] = [...points.values()];
  return a && b ? Math.hypot(a.x - b.x, a.y - b.y) : 0;
};
