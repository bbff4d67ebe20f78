import { describe, expect, test } from 'vitest';
import { minuteOf } from '../../../src/ui/clock/index.ts';
import {
  asPinned,
  DESK_SIZES,
  hitAt,
  lanesOf,
  layoutOf,
  rowTop,
  xOf,
  type Scale,
} from '../../../src/ui/forms/model/index.ts';
import { NOW, planned } from '../small-shop.ts';
import { isoOf } from '../../moments.ts';

const { shop, plan, cures } = planned();
const now = minuteOf(plan.now);
const lanes = lanesOf(shop, plan, cures, now);
const forms = lanes.filter((lane) => lane.what === 'form');
const cast = forms.flatMap((lane) => lane.strips);
const hold = (piece: string) => plan.holds.find((one) => one.piece === piece && one.what === 'form');

describe('lanes', () => {
  test('every form, alike ones counted, and every bench has a lane', () => {
    expect(lanes.map((lane) => lane.id)).toEqual([
      'form:tray:1',
      'form:tray:2',
      'form:slab:1',
      'bench:bench',
      'room:cellar',
    ]);
    expect(forms.map((lane) => lane.name)).toEqual(['Tray form 1', 'Tray form 2', 'Slab form']);
  });

  test('a strip lies in the lane of the form that holds the piece, as long as it is held', () => {
    expect(cast.map((strip) => strip.piece).sort()).toEqual(['robin', 'wren']);
    for (const strip of cast) {
      const held = hold(strip.piece);
      expect([strip.from, strip.to]).toEqual([minuteOf(held?.from ?? ''), minuteOf(held?.to ?? '')]);
      const lane = forms.find((one) => one.strips.includes(strip));
      expect(lane?.id).toBe(`form:${held?.id}:${held?.unit}`);
    }
  });

  test('layers lie on the seal and on each other, from the floor to below the rim', () => {
    for (const { bands } of cast) {
      expect(bands.map((band) => band.step)).toEqual(['seal', 'layer-1-pour', 'layer-2-pour']);
      expect(bands[0].bottom).toBe(0);
      bands.slice(1).forEach((band, index) => expect(band.bottom).toBeCloseTo(bands[index].top, 9));
      expect(bands[2].top).toBeLessThan(1);
      // 20 mm and 10 mm deep.
      expect((bands[1].top - bands[1].bottom) / (bands[2].top - bands[2].bottom)).toBeCloseTo(2, 6);
    }
  });

  test('each opening is the window that the plan gives the next layer, and the layer goes on in it', () => {
    for (const strip of cast) {
      for (const opening of strip.openings) {
        const step = plan.steps.find((one) => one.piece === strip.piece && one.step === opening.next);
        expect([opening.opens, opening.closes]).toEqual([
          minuteOf(step?.window?.opens ?? ''),
          minuteOf(step?.window?.closes ?? ''),
        ]);
        if (opening.way === 'recoat') {
          expect(opening.used).toBeGreaterThanOrEqual(opening.opens);
          expect(opening.used).toBeLessThanOrEqual(opening.closes);
        }
      }
      expect(strip.openings).toHaveLength(2);
    }
  });

  test('cure is drawn from the cure itself: it never runs back, and is hard by the time the window closes', () => {
    for (const band of cast.flatMap((strip) => strip.bands)) {
      band.cure
        .slice(1)
        .forEach((sample, index) => expect(sample.share).toBeGreaterThanOrEqual(band.cure[index].share));
      for (const { at, share } of band.cure) {
        if (band.closes !== null && at > band.closes) expect(share).toBeGreaterThanOrEqual(1 - 1e-6);
        if (band.opens !== null && at < band.opens) expect(share).toBeLessThan(1);
      }
    }
  });

  test('only attended steps can be picked up, and every one of them is in some lane', () => {
    const inLanes = lanes.flatMap((lane) =>
      lane.strips.flatMap((strip) => strip.hands.map((hand) => `${hand.piece}/${hand.step}`)),
    );
    const attended = plan.steps
      .filter((step) => step.handsOnMinutes > 0)
      .map((step) => `${step.piece}/${step.step}`);
    expect(attended.filter((step) => !inLanes.includes(step))).toEqual([]);
    expect(new Set(inLanes).size).toBe(inLanes.length);
  });

  test('a form that is held frees up at the end of its hold and says who comes next; a free one is free', () => {
    const during = minuteOf(hold('wren')?.from ?? '') + 60;
    const later = lanesOf(shop, plan, cures, during);
    const busy = later.find(
      (lane) => lane.strips.some((strip) => strip.piece === 'wren') && lane.what === 'form',
    );
    expect(busy?.freeAt).toBe(minuteOf(hold('wren')?.to ?? ''));
    const idle = later.find((lane) => lane.what === 'form' && lane.strips.length === 0);
    expect(idle?.freeAt).toBeNull();
  });

  test('a shop without a plan still shows its places', () => {
    const bare = lanesOf(shop, null, [], now);
    expect(bare.map((lane) => lane.id)).toEqual(['form:tray:1', 'form:tray:2', 'form:slab:1', 'bench:bench']);
    expect(bare.every((lane) => lane.strips.length === 0)).toBe(true);
  });
});

describe('what lies where', () => {
  const layout = layoutOf(lanes, DESK_SIZES);
  const scale: Scale = { from: now, minutesPerPixel: 2, width: 1200 };

  test('lanes lie one under the other and never meet', () => {
    layout.boxes
      .slice(1)
      .forEach((box, index) =>
        expect(box.top).toBeGreaterThan(layout.boxes[index].top + layout.boxes[index].height),
      );
    const last = layout.boxes[layout.boxes.length - 1];
    expect(layout.height).toBeGreaterThanOrEqual(last.top + last.height);
  });

  test('a press on a step finds it, also a finger that is 20 pixels off', () => {
    for (const box of layout.boxes.filter((one) => one.lane.what === 'form')) {
      for (const strip of box.lane.strips.slice(0, 1)) {
        const hand = strip.hands[0];
        const y = rowTop(box, strip.row) + box.bodyHeight + 4;
        expect(hitAt(layout, scale, xOf(scale, hand.from) - 20, y)?.hand?.step).toBe(hand.step);
        expect(hitAt(layout, scale, xOf(scale, hand.from) - 23, y)?.hand ?? null).toBeNull();
      }
    }
  });

  test('of steps side by side the one that was picked is taken, though another is nearer', () => {
    const far: Scale = { ...scale, minutesPerPixel: 10 };
    let taken = 0;
    for (const box of layout.boxes.filter((one) => one.lane.what === 'form')) {
      for (const strip of box.lane.strips.slice(0, 1)) {
        const y = rowTop(box, strip.row) + box.bodyHeight + 4;
        strip.hands.slice(1).forEach((hand, k) => {
          const before = strip.hands[k];
          const x = xOf(far, before.from);
          if (xOf(far, hand.from) - x > 8 || xOf(far, hand.from) - x < 1) return;
          const at = (picked: typeof hand | null) => hitAt(layout, far, x, y, picked)?.hand?.step;
          expect(at(hand)).toBe(hand.step);
          expect(at(null)).not.toBe(hand.step);
          taken++;
        });
      }
    }
    expect(taken).toBeGreaterThan(2);
  });

  test('between lanes and under the last one there is nothing', () => {
    expect(hitAt(layout, scale, 100, layout.height + 50)).toBeNull();
    expect(hitAt(layout, scale, 100, 2)).toBeNull();
  });
});

describe('a step that was just put down', () => {
  const read = (text: string): number => minuteOf(text);

  test('stands at its pin before the next plan is made, the mix together with its pour', () => {
    const mix = plan.steps.find((step) => step.piece === 'wren' && step.step === 'layer-2-mix');
    const at = isoOf(minuteOf(mix?.start ?? '') + 30);
    const pinned = {
      ...shop,
      pieces: shop.pieces.map((piece) =>
        piece.id === 'wren' ? { ...piece, pins: [{ step: 'layer-2-mix', at }] } : piece,
      ),
    };
    const shown = asPinned(pinned, plan, read, isoOf);
    const start = (name: string, of = shown): number =>
      minuteOf(of.steps.find((step) => step.piece === 'wren' && step.step === name)?.start ?? '');
    expect(start('layer-2-mix')).toBe(minuteOf(at));
    expect(start('layer-2-pour') - start('layer-2-pour', plan)).toBe(30);
    expect(start('layer-1-pour')).toBe(start('layer-1-pour', plan));
  });

  test('with nothing newly pinned the plan is the very same', () => {
    expect(asPinned(shop, plan, read, isoOf)).toBe(plan);
    expect(plan.now.startsWith(NOW)).toBe(true);
  });
});
