/** Paints the Forms picture: all but what is held, which lies over it. */
import { boxesIn, rowTop } from '../model/index.ts';
import { paintBackground } from './background.ts';
import { paintLabels } from './labels.ts';
import { paintLoad } from './load.ts';
import { paintNow } from './now-line.ts';
import { paintPlaces } from './places.ts';
import { paintRail } from './rail.ts';
import type { Scene } from './scene.ts';
import { paintStrip } from './strip.ts';

export const paintPicture = (scene: Scene): void => {
  const boxes = boxesIn(scene.layout, scene.top, scene.top + scene.height);
  scene.pen.textBaseline = 'alphabetic';
  paintBackground(scene);
  for (const box of boxes) {
    paintLoad(scene, box);
    for (const strip of box.lane.strips) paintStrip(scene, box, strip);
  }
  paintPlaces(scene);
  for (const box of boxes) {
    for (const strip of box.lane.strips) {
      paintRail(scene, box, strip);
      paintLabels(scene, box, strip, rowTop(box, strip.row) - scene.top);
    }
  }
  paintNow(scene);
};

export { AXIS_HEIGHT, paintAxis } from './axis.ts';
export { readPalette, type Palette } from './palette.ts';
export { airLineOf, type AirLine, type Places, type Scene } from './scene.ts';
export { makeTextures, type Textures } from './textures.ts';
