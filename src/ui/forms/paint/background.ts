/** What runs behind the strips: days, nights, hours with nobody there, the air of the room. */
import { boxesIn, xOf } from '../model/index.ts';
import type { AirLine, Scene } from './scene.ts';

export const paintBackground = (scene: Scene): void => {
  const { pen, colours, scale, width, height } = scene;
  pen.fillStyle = colours.ground;
  pen.fillRect(0, 0, width, height);
  for (const box of boxesIn(scene.layout, scene.top, scene.top + height)) {
    pen.fillStyle = colours.panel;
    pen.fillRect(0, box.top - scene.top, width, box.height);
  }
  paintStretches(scene, scene.nights, colours.night);
  paintClosed(scene);
  pen.fillStyle = colours.line;
  for (const day of scene.axis.days) {
    const x = Math.round(xOf(scale, day.start));
    if (scene.axis.dayStyle === 'monday' && day.weekdayNumber !== 1) continue;
    pen.globalAlpha = day.weekdayNumber === 1 ? 0.9 : 0.55;
    pen.fillRect(x, 0, day.weekdayNumber === 1 ? 2 : 1, height);
  }
  pen.globalAlpha = 0.22;
  for (const tick of scene.axis.hours) pen.fillRect(Math.round(xOf(scale, tick.at)), 0, 1, height);
  pen.globalAlpha = 1;
  for (const box of boxesIn(scene.layout, scene.top, scene.top + height)) {
    const line = box.lane.room === null ? undefined : scene.air.get(box.lane.room);
    if (line) paintAir(scene, line, box.bodyTop - scene.top, box.lane.rows * box.rowHeight);
  }
};

const paintStretches = (scene: Scene, stretches: Scene['nights'], colour: string): void => {
  const { pen, scale, width, height } = scene;
  pen.fillStyle = colour;
  for (const [from, to] of stretches) {
    const x0 = Math.max(0, xOf(scale, from));
    const x1 = Math.min(width, xOf(scale, to));
    if (x1 > x0) pen.fillRect(x0, 0, x1 - x0, height);
  }
};

/** Below this many minutes a pixel the slant lines would only be noise. */
const HATCH_LIMIT = 12;

const paintClosed = (scene: Scene): void => {
  const { pen, scale, width } = scene;
  if (scale.minutesPerPixel > HATCH_LIMIT) return;
  pen.save();
  // The hatch is anchored to time, so that it travels with the picture.
  const anchor = -(((scale.from / scale.minutesPerPixel) % 12) + 12) % 12;
  pen.translate(anchor, -(scene.top % 12));
  pen.fillStyle = scene.textures.closed;
  for (const [from, to] of scene.closed) {
    const x0 = Math.max(0, xOf(scale, from)) - anchor;
    const x1 = Math.min(width, xOf(scale, to)) - anchor;
    if (x1 > x0) pen.fillRect(x0, 0, x1 - x0, scene.height + 12);
  }
  pen.restore();
};

/** The scale of the air line: 0 degC at the floor of a lane, 32 at its top. */
const COLDEST = 0;
const WARMEST = 32;

const paintAir = (scene: Scene, line: AirLine, top: number, height: number): void => {
  const { pen, colours, scale, width } = scene;
  const y = (degC: number): number =>
    top + height - ((Math.min(WARMEST, Math.max(COLDEST, degC)) - COLDEST) / (WARMEST - COLDEST)) * height;
  pen.beginPath();
  let begun = false;
  for (let index = 0; index < line.at.length; index += 1) {
    const x = xOf(scale, line.at[index]);
    if (x < -60 && index + 1 < line.at.length && xOf(scale, line.at[index + 1]) < 0) continue;
    if (begun) pen.lineTo(x, y(line.degC[index]));
    else pen.moveTo(x, y(line.degC[index]));
    begun = true;
    if (x > width) break;
  }
  pen.strokeStyle = colours.air;
  pen.globalAlpha = 0.75;
  pen.lineWidth = 1.5;
  pen.setLineDash([2, 3]);
  pen.stroke();
  pen.setLineDash([]);
  pen.globalAlpha = 1;
};
