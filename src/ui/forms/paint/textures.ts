/**
 * What the colours say, said again by texture: ripples are wet, the whorl of a fingertip is tacky, close grain is
 * hard, long grain is wood, rings are end grain, slant lines are hours with nobody there.
 */
import type { Palette } from './palette.ts';

export interface Textures {
  readonly wet: CanvasPattern;
  readonly tacky: CanvasPattern;
  readonly hard: CanvasPattern;
  readonly lid: CanvasPattern;
  readonly endGrain: CanvasPattern;
  readonly closed: CanvasPattern;
  readonly shut: CanvasPattern;
}

type Draw = (pen: CanvasRenderingContext2D, size: number) => void;

const tile = (target: CanvasRenderingContext2D, size: number, ratio: number, draw: Draw): CanvasPattern => {
  const canvas = document.createElement('canvas');
  canvas.width = canvas.height = Math.round(size * ratio);
  const pen = canvas.getContext('2d');
  if (!pen) throw new Error('this browser cannot draw the picture (no 2D canvas)');
  pen.scale(canvas.width / size, canvas.height / size);
  draw(pen, size);
  const pattern = target.createPattern(canvas, 'repeat');
  if (!pattern) throw new Error('this browser cannot draw the picture (no canvas patterns)');
  pattern.setTransform(new DOMMatrix().scale(size / canvas.width));
  return pattern;
};

export const makeTextures = (
  target: CanvasRenderingContext2D,
  colours: Palette,
  ratio: number,
): Textures => ({
  wet: tile(target, 24, ratio, (pen, size) => {
    pen.strokeStyle = 'rgb(255 255 255 / 0.34)';
    pen.lineWidth = 1.2;
    for (const y of [4, 12, 20]) {
      pen.beginPath();
      for (let x = 0; x <= size; x += 1) {
        const wave = y + 1.6 * Math.sin((x / size) * 2 * Math.PI + y);
        if (x === 0) pen.moveTo(x, wave);
        else pen.lineTo(x, wave);
      }
      pen.stroke();
    }
  }),
  tacky: tile(target, 18, ratio, (pen) => {
    pen.strokeStyle = colours['wood-dark'];
    pen.globalAlpha = 0.42;
    pen.lineWidth = 1;
    for (const radius of [1.2, 3.6, 6]) {
      pen.beginPath();
      pen.ellipse(9, 10, radius * 0.8, radius, 0, Math.PI * 0.85, Math.PI * 2.15);
      pen.stroke();
    }
  }),
  hard: tile(target, 10, ratio, (pen, size) => {
    pen.strokeStyle = colours['wood-dark'];
    pen.globalAlpha = 0.2;
    pen.lineWidth = 1;
    pen.beginPath();
    pen.moveTo(0, 2.5);
    pen.lineTo(size * 0.7, 2.5);
    pen.moveTo(size * 0.3, 7.5);
    pen.lineTo(size, 7.5);
    pen.stroke();
  }),
  lid: tile(target, 48, ratio, (pen, size) => {
    pen.fillStyle = colours['wood-pale'];
    pen.fillRect(0, 0, size, size);
    pen.strokeStyle = colours.wood;
    pen.globalAlpha = 0.6;
    pen.lineWidth = 1;
    for (const y of [3.5, 10.5, 16.5, 24.5, 31.5, 39.5, 45.5]) {
      pen.beginPath();
      pen.moveTo(0, y);
      pen.bezierCurveTo(size * 0.3, y - 1.5, size * 0.6, y + 1.5, size, y);
      pen.stroke();
    }
  }),
  endGrain: tile(target, 40, ratio, (pen, size) => {
    pen.fillStyle = colours['wood-pale'];
    pen.fillRect(0, 0, size, size);
    pen.strokeStyle = colours.wood;
    pen.lineWidth = 1.4;
    for (let radius = 4; radius < 60; radius += 5) {
      pen.beginPath();
      pen.arc(size / 2, size + 8, radius, 0, 2 * Math.PI);
      pen.stroke();
    }
    pen.strokeStyle = colours['wood-deep'];
    pen.strokeRect(-1, -2, size + 0.5, size + 4);
  }),
  closed: tile(target, 12, ratio, (pen, size) => {
    pen.strokeStyle = colours.closed;
    pen.lineWidth = 1.6;
    pen.beginPath();
    pen.moveTo(-2, size + 2);
    pen.lineTo(size + 2, -2);
    pen.moveTo(-2, 2);
    pen.lineTo(2, -2);
    pen.moveTo(size - 2, size + 2);
    pen.lineTo(size + 2, size - 2);
    pen.stroke();
  }),
  shut: tile(target, 14, ratio, (pen, size) => {
    pen.strokeStyle = colours.ink;
    pen.globalAlpha = 0.3;
    pen.lineWidth = 1.2;
    pen.beginPath();
    pen.moveTo(0, 0);
    pen.lineTo(size, size);
    pen.moveTo(size, 0);
    pen.lineTo(0, size);
    pen.stroke();
  }),
});
