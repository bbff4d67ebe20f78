/** Mouse and fingers on the picture: pan, pinch, wheel, point at, pick. */
import type { Accessor } from 'solid-js';
import type { Picked } from '../state/index.ts';
import { hitAt, panBy, zoomAt, type Layout, type Scale } from './model/index.ts';

export interface PointerParts {
  readonly scroller: HTMLElement;
  readonly canvas: HTMLCanvasElement;
  readonly scale: Accessor<Scale | null>;
  readonly layout: Accessor<Layout>;
  readonly top: Accessor<number>;
  readonly change: (scale: Scale) => void;
  readonly setPointed: (at: Picked | null) => void;
  readonly pick: (picked: Picked | null) => void;
}

/** A press that moves less than this is a click. */
const STILL_PX = 5;

/** Listens until the returned function is called. */
export const attachPointer = (parts: PointerParts): (() => void) => {
  const { scroller, canvas, scale, layout, top, change } = parts;
  const points = new Map<number, { x: number; y: number }>();
  let travelled = 0;
  let spread = 0;

  const place = (event: { clientX: number; clientY: number }): { x: number; y: number } => {
    const edge = canvas.getBoundingClientRect();
    return { x: event.clientX - edge.left, y: event.clientY - edge.top + top() };
  };
  const hit = (event: PointerEvent): ReturnType<typeof hitAt> => {
    const current = scale();
    const { x, y } = place(event);
    return current && hitAt(layout(), current, x, y);
  };
  const onDown = (event: PointerEvent): void => {
    if (event.button !== 0) return;
    points.set(event.pointerId, { x: event.clientX, y: event.clientY });
    travelled = 0;
    spread = spreadOf(points);
    scroller.setPointerCapture(event.pointerId);
  };
  const onMove = (event: PointerEvent): void => {
    const known = points.get(event.pointerId);
    const current = scale();
    if (!known || !current) {
      if (event.pointerType === 'mouse') {
        const hand = hit(event)?.hand ?? null;
        parts.setPointed(hand && { piece: hand.piece, step: hand.step });
        scroller.style.cursor = hand ? 'pointer' : 'grab';
      }
      return;
    }
    const dx = event.clientX - known.x;
    travelled += Math.abs(dx) + Math.abs(event.clientY - known.y);
    points.set(event.pointerId, { x: event.clientX, y: event.clientY });
    if (points.size === 1) change(panBy(current, -dx));
    else {
      const wider = spreadOf(points);
      const middle = [...points.values()].reduce((sum, point) => sum + point.x, 0) / points.size;
      const x = middle - canvas.getBoundingClientRect().left;
      if (spread > 0 && wider > 0) change(zoomAt(panBy(current, -dx / points.size), wider / spread, x));
      spread = wider;
    }
  };
  const onUp = (event: PointerEvent): void => {
    if (!points.delete(event.pointerId)) return;
    spread = spreadOf(points);
    if (event.type === 'pointerup' && points.size === 0 && travelled < STILL_PX) {
      const hand = hit(event)?.hand ?? null;
      parts.pick(hand && { piece: hand.piece, step: hand.step });
    }
  };
  const onLeave = (): void => parts.setPointed(null);
  const onWheel = (event: WheelEvent): void => {
    const current = scale();
    if (!current) return;
    if (event.ctrlKey || event.metaKey) {
      event.preventDefault();
      change(zoomAt(current, Math.exp(-event.deltaY * 0.004), place(event).x));
    } else if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) {
      event.preventDefault();
      change(panBy(current, event.deltaX || event.deltaY));
    }
  };
  scroller.addEventListener('pointerdown', onDown);
  scroller.addEventListener('pointermove', onMove);
  scroller.addEventListener('pointerup', onUp);
  scroller.addEventListener('pointercancel', onUp);
  scroller.addEventListener('pointerleave', onLeave);
  scroller.addEventListener('wheel', onWheel, { passive: false });
  return () => {
    scroller.removeEventListener('pointerdown', onDown);
    scroller.removeEventListener('pointermove', onMove);
    scroller.removeEventListener('pointerup', onUp);
    scroller.removeEventListener('pointercancel', onUp);
    scroller.removeEventListener('pointerleave', onLeave);
    scroller.removeEventListener('wheel', onWheel);
  };
};

const spreadOf = (points: ReadonlyMap<number, { x: number; y: number }>): number => {
  const [a, b] = [...points.values()];
  return a && b ? Math.hypot(a.x - b.x, a.y - b.y) : 0;
};
