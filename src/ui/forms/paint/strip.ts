/**
 * One piece in its lane, as a cut through the form along time: the floor and walls of the form, the wood in it, and
 * layer over layer of resin that goes from wet through tacky to hard as its cure says. Above the resin lies a lid; it
 * is cut open for as long as the next layer may go on.
 */
import { rowTop, xOf, type Band, type LaneBox, type Opening, type Strip } from '../model/index.ts';
import type { Scene } from './scene.ts';

interface Frame {
  readonly scene: Scene;
  readonly strip: Strip;
  readonly x0: number;
  readonly x1: number;
  readonly top: number;
  readonly height: number;
}

/** From so many minutes a pixel on, textures and the run of a gradient are too fine to be seen. */
const COARSE = 14;

/** Below this width a strip is a mark, not a picture. */
const LEAST_PX = 3;

export const paintStrip = (scene: Scene, box: LaneBox, strip: Strip): void => {
  const x0 = xOf(scene.scale, strip.from);
  const x1 = Math.max(x0 + LEAST_PX, xOf(scene.scale, strip.to));
  if (x1 < 0 || x0 > scene.width) return;
  const frame = { scene, strip, x0, x1, top: rowTop(box, strip.row) - scene.top, height: box.bodyHeight };
  if (strip.part === 'cast') paintCast(frame);
  else if (strip.part === 'bench') paintSlab(frame);
  else if (strip.part === 'work') paintWork(frame);
  else paintWarm(frame);
};

const paintCast = (frame: Frame): void => {
  const { scene, strip, x0, x1, top, height } = frame;
  const { pen, colours, textures } = scene;
  const firstPour = strip.bands[0]?.from ?? strip.outAt ?? strip.to;
  const out = strip.outAt ?? strip.to;
  // Inside of the form.
  pen.fillStyle = colours.sunk;
  fill(frame, x0, x1, top, height);
  // Wood laid in, from the preparation on; later it is seen through the resin.
  const woodTop = top + height * 0.42;
  anchored(
    frame,
    (dx) => {
      pen.fillStyle = textures.endGrain;
      const left = Math.max(x0, -40);
      const right = Math.min(xOf(scene.scale, out), scene.width + 40);
      if (right > left)
        pen.fillRect(left - dx, woodTop - (top + height - 40), right - left, top + height - woodTop);
    },
    top + height - 40,
  );
  for (const band of strip.bands) paintBand(frame, band, out);
  paintLid(frame, firstPour, out);
  if (strip.outAt !== null) paintEmptied(frame, out);
  // Walls and floor of the form.
  pen.strokeStyle = colours['wood-dark'];
  pen.lineWidth = 2.5;
  pen.beginPath();
  pen.moveTo(clampX(frame, x0 + 1), top);
  pen.lineTo(clampX(frame, x0 + 1), top + height);
  pen.lineTo(clampX(frame, x1 - 1), top + height);
  pen.lineTo(clampX(frame, x1 - 1), top);
  pen.stroke();
};

/** A piece out of its form: a slab, its coats on top. */
const paintSlab = (frame: Frame): void => {
  const { scene, strip, x0, x1, top, height } = frame;
  const { pen, colours, textures } = scene;
  const slabTop = top + height * 0.38;
  pen.fillStyle = colours['hard-pale'];
  fill(frame, x0, x1, slabTop, top + height - slabTop);
  anchored(
    frame,
    (dx) => {
      pen.fillStyle = textures.hard;
      const left = Math.max(x0, -40);
      const right = Math.min(x1, scene.width + 40);
      if (right > left) pen.fillRect(left - dx, 0, right - left, top + height - slabTop);
    },
    slabTop,
  );
  for (const band of strip.bands) paintBand(frame, band, strip.to);
  for (const opening of strip.openings) paintOpening(frame, opening);
  pen.strokeStyle = colours['wood-dark'];
  pen.lineWidth = 1.5;
  pen.strokeRect(
    clampX(frame, x0) + 0.5,
    slabTop,
    clampX(frame, x1) - clampX(frame, x0) - 1,
    top + height - slabTop,
  );
};

/** Work away from form and bench: a block of wood as long as it takes. */
const paintWork = (frame: Frame): void => {
  const { scene, x0, x1, top, height } = frame;
  const blockTop = top + height * 0.45;
  anchored(frame, (dx) => texture(frame, scene.textures.lid, x0, x1, dx, top + height - blockTop), blockTop);
  scene.pen.strokeStyle = scene.colours['wood-dark'];
  scene.pen.lineWidth = 1.5;
  scene.pen.strokeRect(
    clampX(frame, x0) + 0.5,
    blockTop,
    clampX(frame, x1) - clampX(frame, x0) - 1,
    top + height - blockTop,
  );
};

const paintWarm = (frame: Frame): void => {
  const { scene, x0, x1, top, height } = frame;
  const { pen, colours } = scene;
  pen.fillStyle = colours['tacky-pale'];
  fill(frame, x0, x1, top + height * 0.3, height * 0.7);
  pen.strokeStyle = colours.air;
  pen.lineWidth = 1.5;
  pen.strokeRect(
    clampX(frame, x0) + 0.5,
    top + height * 0.3,
    clampX(frame, x1) - clampX(frame, x0) - 1,
    height * 0.7,
  );
};

const fill = ({ scene }: Frame, from: number, to: number, top: number, height: number): void => {
  const left = Math.max(-4, from);
  const right = Math.min(scene.width + 4, to);
  if (right > left) scene.pen.fillRect(left, top, right - left, height);
};

const clampX = ({ scene }: Frame, x: number): number => Math.min(scene.width + 6, Math.max(-6, x));

/** Paints with textures anchored to the strip, so that they travel with it; `draw` gets the shift that was made. */
const anchored = ({ scene, x0 }: Frame, draw: (dx: number) => void, dy = 0): void => {
  // A whole number of tiles away from the strip's own edge, near the picture, to keep numbers small.
  const dx = x0 < -720 ? x0 + 720 * Math.floor(-x0 / 720) : x0;
  scene.pen.save();
  scene.pen.translate(dx, dy);
  draw(dx);
  scene.pen.restore();
};

const bandTop = (frame: Frame, band: { readonly top: number }): number =>
  frame.top + frame.height * (1 - band.top);

const paintBand = (frame: Frame, band: Band, end: number): void => {
  const { scene } = frame;
  const { pen, colours, textures, scale } = scene;
  const left = xOf(scale, band.from);
  const right = xOf(scale, end);
  if (right < 0 || left > scene.width || right <= left) return;
  const top = bandTop(frame, band);
  const height = Math.max(2, frame.height * (band.top - band.bottom));
  const opens = band.opens === null ? right : Math.min(right, xOf(scale, band.opens));
  const closes = band.closes === null ? right : Math.min(right, xOf(scale, band.closes));

  if (!band.isKnown) {
    pen.globalAlpha = 0.3;
    pen.fillStyle = colours.wet;
    fill(frame, left, right, top, height);
    pen.globalAlpha = 1;
    return;
  }
  // What lies in the resin is seen through it, best while it is liquid.
  pen.globalAlpha = band.what === 'layer' ? 0.82 : 1;
  if (opens > left) {
    pen.fillStyle = wetGradient(frame, band, left, opens);
    fill(frame, left, opens, top, height);
  }
  if (closes > opens) {
    const gradient = pen.createLinearGradient(opens, 0, Math.max(opens + 1, closes), 0);
    gradient.addColorStop(0, colours.tacky);
    gradient.addColorStop(1, colours['tacky-pale']);
    pen.fillStyle = gradient;
    fill(frame, opens, closes, top, height);
  }
  if (right > closes) {
    const gradient = pen.createLinearGradient(closes, 0, closes + Math.max(24, (closes - left) * 0.6), 0);
    gradient.addColorStop(0, colours.hard);
    gradient.addColorStop(1, colours['hard-pale']);
    pen.fillStyle = gradient;
    fill(frame, closes, right, top, height);
  }
  pen.globalAlpha = 1;
  if (height >= 5 && right - left > 8 && scale.minutesPerPixel < COARSE) {
    anchored(
      frame,
      (dx) => {
        texture(frame, textures.wet, left, opens, dx, height);
        texture(frame, textures.tacky, opens, closes, dx, height);
        texture(frame, textures.hard, closes, right, dx, height);
      },
      top,
    );
    paintFront(frame, band, left, right, top, height);
  }
  // The surface of the layer.
  pen.fillStyle = colours['wood-dark'];
  pen.globalAlpha = 0.5;
  fill(frame, left, right, top, 1);
  pen.globalAlpha = 1;
};

const texture = (
  frame: Frame,
  pattern: CanvasPattern,
  from: number,
  to: number,
  dx: number,
  height: number,
): void => {
  const left = Math.max(-4, from);
  const right = Math.min(frame.scene.width + 4, to);
  if (right <= left) return;
  frame.scene.pen.fillStyle = pattern;
  frame.scene.pen.fillRect(left - dx, 0, right - left, height);
};

/** Deep while liquid, paler as it gels: as fast as the cure really goes, so a cold night shows as a long deep stretch. */
const wetGradient = (frame: Frame, band: Band, left: number, right: number): CanvasGradient | string => {
  const { pen, colours, scale } = frame.scene;
  if (right - left < 2 || scale.minutesPerPixel >= COARSE) return colours.wet;
  const gradient = pen.createLinearGradient(left, 0, right, 0);
  gradient.addColorStop(0, colours['wet-deep']);
  const opening = band.opens === null ? 1 : shareAt(band, band.opens);
  for (const { at, share } of band.cure) {
    const where = (xOf(scale, at) - left) / (right - left);
    if (where <= 0 || where >= 1) continue;
    gradient.addColorStop(where, mix(colours['wet-deep'], colours.wet, Math.min(1, share / opening)));
  }
  gradient.addColorStop(1, colours.wet);
  return gradient;
};

const shareAt = (band: Band, minute: number): number => {
  const after = band.cure.findIndex((sample) => sample.at >= minute);
  if (after < 0) return band.cure.at(-1)?.share ?? 1;
  if (after === 0) return band.cure[0].share || 1;
  const a = band.cure[after - 1];
  const b = band.cure[after];
  return a.share + ((b.share - a.share) * (minute - a.at)) / Math.max(1, b.at - a.at);
};

/** How far it has hardened, as a line that climbs through the layer: flat where the cold makes it wait. */
const paintFront = (
  frame: Frame,
  band: Band,
  left: number,
  right: number,
  top: number,
  height: number,
): void => {
  const { pen, colours, scale } = frame.scene;
  if (band.cure.length < 2) return;
  pen.beginPath();
  pen.moveTo(left, top + height);
  for (const { at, share } of band.cure) {
    const x = xOf(scale, at);
    if (x > right) break;
    pen.lineTo(x, top + height * (1 - Math.min(1, share)));
    if (share >= 1) break;
  }
  pen.strokeStyle = colours.panel;
  pen.globalAlpha = 0.85;
  pen.lineWidth = 1.5;
  pen.stroke();
  pen.globalAlpha = 1;
};

/** The lid over the resin, with an opening for every window, and the surface of whatever lies below it. */
const paintLid = (frame: Frame, from: number, to: number): void => {
  const { scene, strip, top, height } = frame;
  const { scale } = scene;
  const end = xOf(scale, to);
  for (const [index, band] of strip.bands.entries()) {
    const left = Math.max(xOf(scale, from), xOf(scale, band.from));
    const next = strip.bands[index + 1];
    const right = next ? xOf(scale, next.from) : end;
    const surface = bandTop(frame, band);
    const opening = strip.openings.find((one) => one.of === band.step);
    const cut = opening ? Math.min(right, Math.max(left, xOf(scale, opening.opens))) : right;
    const shut = opening ? Math.min(right, Math.max(left, xOf(scale, opening.closes))) : right;
    anchored(
      frame,
      (dx) => {
        texture(frame, scene.textures.lid, left, cut, dx, surface - top);
        texture(frame, scene.textures.lid, shut, right, dx, surface - top);
      },
      top,
    );
    // The room behind is seen through the opening.
    if (shut > cut) {
      scene.pen.fillStyle = scene.colours.panel;
      fill(frame, cut, shut, top - 1, surface - top + 1);
    }
    if (opening) paintOpening(frame, opening);
  }
  scene.pen.fillStyle = scene.colours['wood-dark'];
  scene.pen.globalAlpha = 0.25;
  fill(frame, xOf(scale, strip.from), end, top + height - 1, 1);
  scene.pen.globalAlpha = 1;
};

/** The cut's two cheeks down to the surface, and a rule above it from opening to closing. */
const paintOpening = (frame: Frame, opening: Opening): void => {
  const { scene, top, height } = frame;
  const { pen, colours, scale } = scene;
  const opens = xOf(scale, opening.opens);
  const closes = xOf(scale, opening.closes);
  if (closes < 0 || opens > scene.width) return;
  const surface = top + height * (1 - opening.surface);
  pen.fillStyle = colours['wood-dark'];
  if (opening.used > opening.opens) pen.fillRect(opens - 1, top - 3, 2, surface - top + 3);
  if (opening.used >= opening.closes) pen.fillRect(closes - 1, top - 3, 2, surface - top + 3);
  // The whole window, also the part that is not used any more.
  pen.fillStyle = colours.tacky;
  pen.fillRect(opens, top - 5, Math.max(2, closes - opens), 3);
  pen.fillStyle = colours['wood-dark'];
  pen.fillRect(opens - 1, top - 8, 2, 8);
  pen.fillRect(closes - 1, top - 8, 2, 8);
  if (opening.way === 'scuff') {
    // Saw teeth where the surface is scuffed before the pour.
    const used = xOf(scale, opening.used);
    pen.strokeStyle = colours.late;
    pen.lineWidth = 2;
    pen.beginPath();
    for (let tooth = 0; tooth < 4; tooth += 1) {
      pen.moveTo(used - 18 + tooth * 5, surface);
      pen.lineTo(used - 15 + tooth * 5, surface - 5);
      pen.lineTo(used - 13 + tooth * 5, surface);
    }
    pen.stroke();
  }
};

/** Out of the form: what is left is to clean it. */
const paintEmptied = (frame: Frame, out: number): void => {
  const { scene, x1, top, height } = frame;
  const { pen, colours, scale } = scene;
  const left = xOf(scale, out);
  pen.fillStyle = colours.sunk;
  fill(frame, left, x1, top, height);
  pen.strokeStyle = colours.wood;
  pen.lineWidth = 1.5;
  pen.save();
  pen.beginPath();
  pen.rect(Math.max(-4, left), top, Math.min(scene.width + 4, x1) - Math.max(-4, left), height);
  pen.clip();
  pen.beginPath();
  for (let x = left - height; x < x1; x += 7) {
    pen.moveTo(x, top + height);
    pen.lineTo(x + height * 0.5, top + height * 0.5);
  }
  pen.stroke();
  pen.restore();
  pen.fillStyle = colours['wood-dark'];
  pen.fillRect(left - 1, top + 2, 2, height - 2);
};

const channels = new Map<string, readonly [number, number, number]>();

/** A colour between two of the palette's six-digit ones. */
export const mix = (from: string, to: string, share: number): string => {
  const a = channelsOf(from);
  const b = channelsOf(to);
  return `rgb(${a.map((value, index) => Math.round(value + (b[index] - value) * share)).join(' ')})`;
};

const channelsOf = (colour: string): readonly [number, number, number] => {
  const known = channels.get(colour);
  if (known) return known;
  const number = Number.parseInt(colour.slice(1), 16);
  const read = [(number >> 16) & 255, (number >> 8) & 255, number & 255] as const;
  channels.set(colour, read);
  return read;
};
