/** Names and times above a strip, written only where they fit. */
import { xOf, type LaneBox, type Strip } from '../model/index.ts';
import type { Scene } from './scene.ts';

interface Taken {
  from: number;
  to: number;
}

export const paintLabels = (scene: Scene, box: LaneBox, strip: Strip, top: number): void => {
  const { pen, colours, scale, width, clock } = scene;
  const x0 = xOf(scale, strip.from);
  const x1 = xOf(scale, strip.to);
  if (x1 < 0 || x0 > width) return;
  const baseline = top - 9;
  const taken: Taken[] = [];
  const write = (text: string, x: number, font: string, colour: string): boolean => {
    pen.font = font;
    const length = pen.measureText(text).width;
    if (x < 0 || x + length > width || taken.some((other) => x < other.to + 8 && x + length > other.from - 8))
      return false;
    pen.fillStyle = colour;
    pen.fillText(text, x, baseline);
    taken.push({ from: x, to: x + length });
    return true;
  };
  // The name stays in sight while any of its strip is.
  const nameX = Math.max(6, x0 + 3);
  const small = `600 13.5px ${colours.type}`;
  const late = strip.lateMinutes > 0;
  const name = late ? `${strip.name}, late` : strip.name;
  const room = Math.min(x1, width) - nameX;
  pen.font = small;
  const fitted = fit(pen, name, room);
  if (fitted !== '') write(fitted, nameX, small, late ? colours.late : colours.ink);
  if (box.lane.what !== 'form') return;
  for (const opening of strip.openings) {
    const opens = xOf(scale, opening.opens);
    const closes = xOf(scale, opening.closes);
    if (closes < 0 || opens > width || opening.opens >= opening.closes) continue;
    pen.font = `500 12.5px ${colours.type}`;
    const both = `${clock.time(opening.opens)} – ${clock.time(opening.closes)}`;
    const length = pen.measureText(both).width;
    // Both times, centred on the window where it is narrower than its words.
    const x = closes - opens >= length ? opens + 2 : (opens + closes - length) / 2;
    if (scale.minutesPerPixel <= 14) write(both, x, `500 12.5px ${colours.type}`, colours['ink-soft']);
  }
};

/** As much of `text` as fits into `room` pixels, with an ellipsis; nothing when not even a few letters do. */
const fit = (pen: CanvasRenderingContext2D, text: string, room: number): string => {
  if (pen.measureText(text).width <= room) return text;
  if (room < 40) return '';
  let length = text.length - 1;
  while (length > 2 && pen.measureText(`${text.slice(0, length)}…`).width > room) length -= 1;
  return `${text.slice(0, length).trimEnd()}…`;
};
