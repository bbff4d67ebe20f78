/** Whether a recipe asks of its resins and of the people's hands what they can give. */
import { entryOf, type Draft } from '../draft.ts';
import type { PathKey } from '../faults.ts';
import type { Coat, Layer, Recipe, Resin, Work } from '../schema/shop.ts';
import type { Verdict } from './verdict.ts';

type Thin = Omit<Coat, 'face'>;

export function judgeRecipes(draft: Draft, verdict: Verdict): void {
  for (const { index, entry: recipe } of draft.recipes) {
    const at = ['recipes', index] as const;
    recipe.layers.forEach((layer, k) => {
      judgeLayer(layer, entryOf(draft.resins, layer.resin), [...at, 'layers', k], verdict);
    });
    recipe.coats.forEach((coat, k) => {
      judgeThin(coat, entryOf(draft.resins, coat.resin), [...at, 'coats', k], verdict);
    });
    if (recipe.seal) {
      judgeThin(recipe.seal, entryOf(draft.resins, recipe.seal.resin), [...at, 'seal'], verdict);
    }
    judgeWork(recipe, at, verdict);
  }
}

function judgeLayer(layer: Layer, resin: Resin | undefined, at: readonly PathKey[], verdict: Verdict): void {
  const { wrong, odd } = verdict;
  const { depthMm, volumeMl, wood } = layer;
  if (depthMm === undefined && volumeMl === undefined) {
    wrong(at, layer, 'must say how much is poured: "depthMm", or "volumeMl"');
  } else if (depthMm !== undefined && volumeMl !== undefined) {
    wrong([...at, 'volumeMl'], volumeMl, 'must not stand beside "depthMm"; take one of them out');
  } else if (depthMm !== undefined && resin) {
    const message = depthFault(depthMm, resin);
    if (message !== undefined) wrong([...at, 'depthMm'], depthMm, message);
  }
  if (wood && 'coverPercent' in wood && wood.coverPercent === 100) {
    odd([...at, 'wood', 'coverPercent'], 100, 'the wood fills the whole layer, so no resin is poured');
  }
  layer.bubblePasses.forEach((pass, k) => {
    if (pass.toMinutes < pass.fromMinutes) {
      wrong(
        [...at, 'bubblePasses', k, 'toMinutes'],
        pass.toMinutes,
        `must not be less than fromMinutes, which is ${pass.fromMinutes}`,
      );
    }
  });
  if (resin?.kind === 'seal') {
    odd(
      [...at, 'resin'],
      layer.resin,
      'this resin is a seal; a layer is mostly poured of a casting or table-top one',
    );
  }
  judgeHaste(layer.mixMinutes + layer.pour.minutes, resin, at, verdict);
}

/** What is wrong with a pour of this depth; undefined when the resin's maker allows it. */
export function depthFault(depthMm: number, resin: Resin): string | undefined {
  const { largestDepthMm, smallestDepthMm } = resin;
  if (depthMm > largestDepthMm) {
    const layers = Math.ceil(depthMm / largestDepthMm);
    return (
      `must be at most ${largestDepthMm} mm, the largest depth per pour (largestDepthMm) of "${resin.id}": deeper it can overheat; ` +
      `split it into ${layers} layers of ${Math.floor((depthMm / layers) * 10 + 0.999) / 10} mm`
    );
  }
  if (depthMm < smallestDepthMm) {
    return `must be at least ${smallestDepthMm} mm, the smallest depth per pour (smallestDepthMm) of "${resin.id}"`;
  }
  return undefined;
}

function judgeThin(thin: Thin, resin: Resin | undefined, at: readonly PathKey[], verdict: Verdict): void {
  if (!resin) return;
  // One litre on a square metre stands one millimetre deep.
  const depthMm = thin.coverMlPerM2 / 1000;
  if (depthMm > resin.largestDepthMm) {
    verdict.wrong(
      [...at, 'coverMlPerM2'],
      thin.coverMlPerM2,
      `must be at most ${resin.largestDepthMm * 1000} mL per square metre, for "${resin.id}" may be ${resin.largestDepthMm} mm deep at most`,
    );
  }
  if (resin.kind === 'casting') {
    verdict.odd(
      [...at, 'resin'],
      thin.resin,
      'this resin is for casting; thin applications mostly take a table-top or seal one',
    );
  }
  judgeHaste(thin.mixMinutes + thin.work.minutes, resin, at, verdict);
}

/** Mixing and pouring must end within the working time; warmth shortens it, a cool room leaves more. */
function judgeHaste(
  handsOnMinutes: number,
  resin: Resin | undefined,
  at: readonly PathKey[],
  { odd }: Verdict,
): void {
  if (!resin || handsOnMinutes <= resin.workingTime.minutes) return;
  odd(
    at,
    `${handsOnMinutes} minutes to mix and pour`,
    `more than the working time of "${resin.id}", ${resin.workingTime.minutes} minutes at ${resin.referenceDegC} degC; only a cooler room leaves so much`,
  );
}

function judgeWork(recipe: Recipe, at: readonly PathKey[], { odd }: Verdict): void {
  const works: readonly (readonly [readonly PathKey[], Work | undefined])[] = [
    [['prepare', 'work'], recipe.prepare.work],
    [['seal', 'work'], recipe.seal?.work],
    ...recipe.layers.map((layer, k) => [['layers', k, 'pour'], layer.pour] as const),
    [['demold', 'work'], recipe.demold.work],
    [['flatten', 'work'], recipe.flatten?.work],
    [['sand', 'work'], recipe.sand?.work],
    ...recipe.coats.map((coat, k) => [['coats', k, 'work'], coat.work] as const),
    [['finish', 'work'], recipe.finish?.work],
  ];
  for (const [path, work] of works) {
    if (work && work.minutes === 0 && work.minutesPerM2 === 0) {
      odd([...at, ...path], work, 'takes no time at all; give "minutes", or "minutesPerM2", or both');
    }
  }
}
