/** When one surface outlasts another that lies under it. */
import { describe, expect, test } from 'vitest';
import { outlasts, placedCures } from '../../../src/engine/routing/application-cure.ts';
import { routeShop } from '../../../src/engine/routing/index.ts';
import { shopWhere } from '../check/plan-builder.ts';

/** Whether a layer outlasts its seal: the seal's sheet is the layer's with some changes, the room swings by day and night. */
function layerOutlasts(seal: object, [nightLowDegC, dayHighDegC]: readonly [number, number]): boolean {
  const shop = shopWhere({
    room: { temperature: { pattern: { nightLowDegC, dayHighDegC } } },
    recipe: { seal: { resin: 'other', work: { minutes: 5 } }, layers: [{ resin: 'clear', depthMm: 5 }] },
  });
  const other = { ...shop.resins[0], id: 'other', name: 'Other', ...seal };
  const { ground, pieces } = routeShop(
    { ...shop, resins: [...shop.resins, other] },
    { now: '2026-03-02T06:00', horizonMinutes: 20 * 1440 },
  );
  const [route] = pieces;
  const cureOf = (step: string) => placedCures(ground, route, route.byId.get(step)!)[0];
  return outlasts(ground, cureOf('layer-1-pour'), cureOf('seal'));
}

describe('a layer outlasts the seal under it', () => {
  test('when it closes no sooner by the sheet, and follows the weather in the same way', () => {
    expect(layerOutlasts({ tackClosesMinutes: 480 }, [16, 24])).toBe(true);
    expect(layerOutlasts({ tackClosesMinutes: 481 }, [16, 24])).toBe(false);
  });

  test('only where it does so at the coldest and at the warmest the room gets', () => {
    // At 23 degC both close after 480 minutes; the seal is the slower one below that, the layer above it.
    expect(layerOutlasts({ activationEnergyKJPerMol: 60 }, [23, 29])).toBe(true);
    expect(layerOutlasts({ activationEnergyKJPerMol: 60 }, [16, 29])).toBe(false);
    expect(layerOutlasts({ activationEnergyKJPerMol: 45 }, [16, 23])).toBe(true);
    expect(layerOutlasts({ activationEnergyKJPerMol: 45 }, [16, 29])).toBe(false);
  });

  test('not when the seal stands still in a cold in which the layer goes on', () => {
    expect(layerOutlasts({ tackClosesMinutes: 300, lowestDegC: 15 }, [12, 20])).toBe(true);
    expect(layerOutlasts({ tackClosesMinutes: 300, lowestDegC: 18 }, [12, 20])).toBe(false);
  });
});
