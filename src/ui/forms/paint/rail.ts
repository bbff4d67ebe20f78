/** The attended steps beneath a strip: what takes hands, and what can be picked up. */
import { rowTop, xOf, type Hand, type LaneBox, type Strip } from '../model/index.ts';
import type { Scene } from './scene.ts';

const HEIGHT = 9;

export const paintRail = (scene: Scene, box: LaneBox, strip: Strip): void => {
  const top = rowTop(box, strip.row) - scene.top + box.bodyHeight + 2;
  for (const hand of strip.hands) {
    const x0 = xOf(scene.scale, hand.from);
    const x1 = Math.max(x0 + 4, xOf(scene.scale, hand.to));
    if (x1 < 0 || x0 > scene.width) continue;
    paintHand(scene, hand, x0, x1, top);
  }
};

const isSame = (hand: Hand, other: Scene['picked']): boolean =>
  other !== null && other.piece === hand.piece && other.step === hand.step;

const paintHand = (scene: Scene, hand: Hand, x0: number, x1: number, top: number): void => {
  const { pen, colours } = scene;
  const done = hand.state === 'done';
  pen.fillStyle = done ? colours.line : hand.state === 'begun' ? colours.act : colours.ink;
  pen.fillRect(x0, top, x1 - x0, HEIGHT);
  if (hand.pinned) {
    // A pin: a head above the rail and a point into it.
    const x = x0 + 2;
    pen.fillStyle = colours.late;
    pen.beginPath();
    pen.arc(x, top - 3, 4, 0, 2 * Math.PI);
    pen.fill();
    pen.fillRect(x - 0.75, top - 3, 1.5, 8);
  }
  if (isSame(hand, scene.picked) || isSame(hand, scene.pointed)) {
    pen.strokeStyle = colours.act;
    pen.lineWidth = 3;
    pen.strokeRect(x0 - 3, top - 3, x1 - x0 + 6, HEIGHT + 5);
  }
};
