/** The time axis above the picture: days first, hours where they fit, and the present. */
import { DAY } from '../../clock/index.ts';
import { xOf } from '../model/index.ts';
import type { Scene } from './scene.ts';

export const AXIS_HEIGHT = 50;

interface Flag {
  readonly text: string;
  readonly x: number;
  readonly left: number;
  readonly length: number;
}

const flagFont = (type: string): string => `750 15px ${type}`;

export const paintAxis = (scene: Scene): void => {
  const { pen, colours, scale, axis, width } = scene;
  pen.fillStyle = colours.ground;
  pen.fillRect(0, 0, width, AXIS_HEIGHT);
  pen.textBaseline = 'alphabetic';
  for (const [index, day] of axis.days.entries()) {
    const x = xOf(scale, day.start);
    const next = xOf(scale, day.end);
    const monday = day.weekdayNumber === 1;
    if (axis.dayStyle === 'monday' && !monday && index > 0) continue;
    pen.fillStyle = colours.line;
    pen.fillRect(Math.round(x), monday ? 0 : 6, monday ? 2 : 1, AXIS_HEIGHT);
    const text =
      axis.dayStyle === 'long'
        ? `${day.weekday} ${day.dayOfMonth} ${day.month}`
        : axis.dayStyle === 'short'
          ? `${day.weekday} ${day.dayOfMonth}`
          : axis.dayStyle === 'number'
            ? String(day.dayOfMonth)
            : `${day.dayOfMonth} ${day.month}`;
    const isToday = scene.now >= day.start && scene.now < day.end;
    pen.font = `${isToday ? 750 : 600} 16px ${colours.type}`;
    pen.fillStyle = isToday ? colours.now : colours.ink;
    const length = pen.measureText(text).width;
    // The day's name stays in sight while the day is.
    const end = axis.dayStyle === 'monday' ? x + (7 * DAY) / scale.minutesPerPixel : next;
    const at = Math.max(Math.min(Math.max(x + 6, 6), end - length - 6), x + 3);
    const isRoomy = end - x >= length + 8 || axis.dayStyle === 'number';
    if (isRoomy && at >= 0 && at + length <= width) pen.fillText(text, at, 20);
  }
  pen.font = `500 13.5px ${colours.type}`;
  pen.fillStyle = colours['ink-soft'];
  const flag = flagOf(scene);
  for (const tick of axis.hours) {
    const x = xOf(scale, tick.at);
    const half = pen.measureText(tick.text).width / 2;
    // A time that is cut by the edge or by the present is no time that can be read.
    const isWhole = x - half >= 0 && x + half <= width;
    const isFree = flag === null || x + half < flag.left || x - half > flag.left + flag.length;
    if (isWhole && isFree) pen.fillText(tick.text, x - half, 41);
    pen.fillRect(Math.round(x), 45, 1, 5);
  }
  if (flag) paintFlag(scene, flag);
};

/** The time of the present in its drop, where it stands on the axis; null when the present is not in sight. */
const flagOf = ({ pen, colours, scale, width, clock, now }: Scene): Flag | null => {
  const x = xOf(scale, now);
  if (x < 0 || x > width) return null;
  const text = clock.time(now);
  pen.save();
  pen.font = flagFont(colours.type);
  const length = pen.measureText(text).width + 12;
  pen.restore();
  return { text, x, length, left: Math.min(width - length, Math.max(0, x - length / 2)) };
};

const paintFlag = ({ pen, colours }: Scene, { text, x, left, length }: Flag): void => {
  pen.font = flagFont(colours.type);
  pen.fillStyle = colours.now;
  // A drop that hangs from the time and runs into the line below.
  pen.beginPath();
  pen.roundRect(left, 25, length, 21, 5);
  pen.moveTo(x - 5, 44);
  pen.lineTo(x + 5, 44);
  pen.lineTo(x, AXIS_HEIGHT);
  pen.closePath();
  pen.fill();
  pen.fillStyle = colours.panel;
  pen.fillText(text, left + 6, 41);
};
