/** The present: a thread that runs down through everything. */
import { xOf } from '../model/index.ts';
import type { Scene } from './scene.ts';

export const paintNow = (scene: Scene): void => {
  const x = Math.round(xOf(scene.scale, scene.now));
  if (x < -2 || x > scene.width + 2) return;
  const { pen, colours } = scene;
  pen.fillStyle = colours.panel;
  pen.fillRect(x - 2, 0, 5, scene.height);
  pen.fillStyle = colours.now;
  pen.fillRect(x - 1, 0, 3, scene.height);
};
