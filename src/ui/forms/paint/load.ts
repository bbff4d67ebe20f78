/** How full a bench or warm box is, as a step line under its strips; over the brim is hatched and said. */
import { xOf, type LaneBox } from '../model/index.ts';
import type { Scene } from './scene.ts';

export const paintLoad = (scene: Scene, box: LaneBox): void => {
  const { capacity, load } = box.lane;
  if (capacity === null || box.loadHeight === 0) return;
  const { pen, colours, scale, width } = scene;
  const floor = box.loadTop - scene.top + box.loadHeight - 4;
  const full = box.loadHeight - 10;
  pen.fillStyle = colours.sunk;
  pen.fillRect(0, floor - full, width, full);
  for (let index = 0; index < load.length; index += 1) {
    const x0 = Math.max(0, xOf(scale, load[index].at));
    const x1 = Math.min(width, index + 1 < load.length ? xOf(scale, load[index + 1].at) : width);
    if (x1 <= x0) continue;
    const share = load[index].amount / capacity;
    const height = Math.min(1, share) * full;
    pen.fillStyle = colours.wood;
    pen.fillRect(x0, floor - height, x1 - x0, height);
    if (share > 1 + 1e-6) {
      pen.fillStyle = scene.textures.shut;
      pen.fillRect(x0, floor - full, x1 - x0, full);
    }
  }
  pen.fillStyle = colours['wood-dark'];
  pen.fillRect(0, floor - full, width, 1);
  pen.fillRect(0, floor, width, 1);
};
