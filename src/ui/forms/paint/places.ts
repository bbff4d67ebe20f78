/** While a step is in the hand: where it may go stays clear and framed, all else is crossed out. */
import { boxesIn, xOf } from '../model/index.ts';
import type { Scene } from './scene.ts';

export const paintPlaces = (scene: Scene): void => {
  const { pen, colours, places, scale, width } = scene;
  if (!places) return;
  for (const box of boxesIn(scene.layout, scene.top, scene.top + scene.height)) {
    const top = box.top - scene.top;
    const open = places.lanes.get(box.lane.id);
    if (!open) {
      // A lane that has nothing to do with it steps back.
      pen.globalAlpha = 0.6;
      pen.fillStyle = colours.ground;
      pen.fillRect(0, top, width, box.height);
      pen.globalAlpha = 1;
      continue;
    }
    let x = 0;
    const shut = (to: number): void => {
      const end = Math.min(width, to);
      if (end <= x) return;
      pen.globalAlpha = 0.4;
      pen.fillStyle = colours.ground;
      pen.fillRect(x, top, end - x, box.height);
      pen.globalAlpha = 1;
      pen.fillStyle = scene.textures.shut;
      pen.fillRect(x, top, end - x, box.height);
    };
    for (const [from, to] of open) {
      const x0 = Math.max(0, xOf(scale, from));
      // A start that is legal for one minute only is still seen.
      const x1 = Math.min(width, Math.max(x0 + 3, xOf(scale, to)));
      if (x1 <= 0 || x0 >= width) continue;
      shut(x0);
      pen.globalAlpha = 0.16;
      pen.fillStyle = colours['open-place'];
      pen.fillRect(x0, top, x1 - x0, box.height);
      pen.globalAlpha = 1;
      pen.strokeStyle = colours['open-place'];
      pen.lineWidth = 2.5;
      pen.strokeRect(x0 + 1, top + 1, Math.max(1, x1 - x0 - 2), box.height - 2);
      x = Math.max(x, x1);
    }
    shut(width);
  }
};
