/** Whether somebody, and enough of them at once, can do what the recipes of the shop's pieces ask for. */
import type { Draft } from '../draft.ts';
import type { PathKey } from '../faults.ts';
import type { Recipe, Skill } from '../schema/shop.ts';
import type { Verdict } from './verdict.ts';

interface Need {
  readonly skill: Skill;
  readonly hands: number;
  /** Where inside the recipe the need arises. */
  readonly path: readonly PathKey[];
}

/** What a recipe cannot do without; a scuff can be avoided, so it is no need. */
function needsOf(recipe: Recipe): Need[] {
  const { prepare, seal, layers, demold, flatten, sand, coats, finish } = recipe;
  const flips = coats.some((coat, k) => k > 0 && coat.face !== coats[k - 1].face);
  return [
    { skill: 'prepare', hands: prepare.work.hands, path: ['prepare'] },
    ...(seal ? [{ skill: 'pour' as const, hands: seal.work.hands, path: ['seal'] }] : []),
    ...layers.map((layer, k) => ({
      skill: 'pour' as const,
      hands: layer.pour.hands,
      path: ['layers', k, 'pour'],
    })),
    { skill: 'demold', hands: demold.work.hands, path: ['demold'] },
    ...(flatten ? [{ skill: 'flatten' as const, hands: flatten.work.hands, path: ['flatten'] }] : []),
    ...(sand ? [{ skill: 'sand' as const, hands: sand.work.hands, path: ['sand'] }] : []),
    ...coats.map((coat, k) => ({ skill: 'pour' as const, hands: coat.work.hands, path: ['coats', k] })),
    ...(flips ? [{ skill: 'pour' as const, hands: recipe.flip.work.hands, path: ['flip'] }] : []),
    ...(finish ? [{ skill: 'finish' as const, hands: finish.work.hands, path: ['finish'] }] : []),
  ];
}

export function judgePeople(draft: Draft, { wrong, odd }: Verdict): void {
  draft.people.forEach(({ index, entry: person }) => {
    if (person.can.length === 0) odd(['people', index, 'can'], person.can, 'this person can do nothing');
  });
  if (!draft.whole('people') || draft.people.length === 0) return;
  const able = (skill: Skill): number => draft.people.filter(({ entry }) => entry.can.includes(skill)).length;
  const wanted = new Set(draft.pieces.map(({ entry }) => entry.recipe));
  for (const { index, entry: recipe } of draft.recipes) {
    // A recipe that no piece is made by may wait for the person who can.
    const say = wanted.has(recipe.id) ? wrong : odd;
    const told = new Set<Skill>();
    for (const { skill, hands, path } of needsOf(recipe)) {
      const there = able(skill);
      if (there >= hands || told.has(skill)) continue;
      told.add(skill);
      say(
        ['recipes', index, ...path],
        hands === 1 ? `a step that needs "${skill}"` : `a step that needs ${hands} people with "${skill}"`,
        there === 0
          ? `nobody has "${skill}" among what they can do; add it to someone's "can"`
          : `only ${there === 1 ? 'one person has' : `${there} people have`} "${skill}"; lower "hands", or add it to someone's "can"`,
      );
    }
    const scuffs = recipe.layers.length + recipe.coats.length + (recipe.seal ? 1 : 0) > 1;
    if (scuffs && able('sand') === 0 && !told.has('sand')) {
      odd(['recipes', index, 'scuff'], 'nobody with "sand"', 'a missed tack window can then not be scuffed');
    }
  }
}
