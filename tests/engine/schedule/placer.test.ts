import { expect, test } from 'vitest';
import { Chance } from '../../../src/engine/schedule/chance.ts';
import type { Model } from '../../../src/engine/schedule/index.ts';
import { partsOf } from '../../../src/engine/schedule/parts.ts';
import { Placer } from '../../../src/engine/schedule/placer.ts';
import { tinyModel } from './tiny-models.ts';
import { workshop } from './workshop.ts';

const models = (): Model[] => [
  ...Array.from({ length: 200 }, (_, k) => tinyModel(k + 1)),
  ...Array.from({ length: 10 }, (_, k) => workshop(10, k + 1)),
];

/** All of them, nothing laid down yet. */
const placers = () =>
  models().map((model) => {
    const parts = partsOf(model);
    return { model, parts, placer: new Placer(model, parts, new Chance(1)) };
  });

test('what a part in the making costs at least, it costs in the end', () => {
  let told = 0;
  for (const { model, parts, placer } of placers()) {
    parts.forEach((_, p) => {
      const share = new Float64Array(model.levels.length);
      const seen: Float64Array[] = [placer.costsAlone[p]];
      if (!placer.place(p, { mayCost: (least) => seen.push(least.slice()) > 0 })) return;
      placer.tally.share(p, share);
      for (const least of seen) least.forEach((cost, k) => expect(cost).toBeLessThanOrEqual(share[k] + 1e-9));
      told += seen.length;
    });
  }
  expect(told).toBeGreaterThan(500);
});

test('a part that may not cost what it must is given up, and leaves nothing behind', () => {
  const model = workshop(10, 3);
  const parts = partsOf(model);
  const plan = (isTried: boolean): unknown => {
    const placer = new Placer(model, parts, new Chance(1));
    parts.forEach((_, p) => {
      if (isTried) expect(placer.place(p, { mayCost: () => false })).toBe(false);
      expect(placer.place(p)).toBe(true);
    });
    return [placer.assignment(), [...placer.tally.values]];
  };
  expect(plan(true)).toEqual(plan(false));
});

test('what a part costs at least beside what stands, it costs there in the end', () => {
  let more = 0;
  for (const { model, parts, placer } of placers()) {
    parts.forEach((_, p) => {
      const [least, share] = [new Float64Array(model.levels.length), new Float64Array(model.levels.length)];
      const hasPlace = placer.leastBeside(p, {}, least);
      if (!placer.place(p)) return;
      expect(hasPlace).toBe(true);
      placer.tally.share(p, share);
      least.forEach((cost, k) => expect(cost).toBeLessThanOrEqual(share[k] + 1e-9));
      if (least.some((cost, k) => cost > placer.costsAlone[p][k])) more++;
    });
  }
  expect(more).toBeGreaterThan(20);
});

test('what must not be paid is denied from the beginning, and only that', () => {
  let denied = 0;
  let forced = 0;
  for (const { model, parts, placer } of placers()) {
    const paying = new Set(
      model.levels.flatMap(({ costs }) =>
        costs.flatMap((cost) => (cost.kind === 'choice' && cost.weight > 0 ? [cost.when] : [])),
      ),
    );
    parts.forEach((_, p) => {
      const alone = placer.costsAlone[p];
      const asAlone = (least: Float64Array): boolean => least.every((cost, k) => cost <= alone[k]);
      expect(placer.tooDear(p, alone.slice(), () => true)).toEqual([]);
      const given = placer.tooDear(p, alone.slice(), asAlone);
      for (const literal of given) {
        expect(paying.has(literal ^ 1)).toBe(true);
        expect(placer.isForced(literal ^ 1)).toBe(false);
      }
      for (const literal of paying) if (placer.isForced(literal)) forced++;
      if (!placer.place(p, { given })) return;
      const { choices } = placer.assignment();
      for (const literal of given) expect(choices[literal >> 1]).toBe((literal & 1) === 0);
      denied += given.length;
    });
  }
  expect(denied).toBeGreaterThan(20);
  expect(forced).toBeGreaterThan(5);
});
