/**
 * What can hurt, said where it matters and once. Each names the public source it rests on (docs/safety.md tells more);
 * the words are ours. They remind, they certify nothing: sheets of the makers, local codes and licensed practice come
 * first.
 */
import type { Plan, PlanStep } from '../plan/document.ts';
import { cupsOf, mixedMl, type CupsOfPlan } from './cups.ts';
import { heatRemark } from './depth.ts';
import type { Shop } from '../shop/index.ts';

export type CautionId = 'sheets' | 'skin' | 'heat' | 'torch' | 'dust' | 'rags' | 'food';

export interface Caution {
  readonly id: CautionId;
  readonly title: string;
  readonly text: string;
  readonly source: string;
  /** May be put away for good once read; the others come back with every piece of work that they concern. */
  readonly isDismissible: boolean;
}

/** In the order in which they are shown. */
export const CAUTIONS: readonly Caution[] = [
  {
    id: 'sheets',
    title: "The makers' sheets come first",
    text: 'This plans time; it certifies nothing. Safety data sheets and technical sheets of your products, local codes and licensed practice come before anything said here.',
    source: '29 CFR 1910.1200 (safety data sheets)',
    isDismissible: true,
  },
  {
    id: 'skin',
    title: 'Uncured resin and hardener make skin and airways allergic',
    text: 'Gloves, eye protection, moving air; no resin on skin, and never solvent to wash it off. An allergy to it stays.',
    source: 'HSE RR079; EU-OSHA OSHwiki, occupational exposure to epoxy resins',
    isDismissible: false,
  },
  {
    id: 'heat',
    title: 'A deep or large mix can run away in heat',
    text: 'Pour at once, do not leave it in the cup. If a cup smokes or grows hot: outdoors, spread thin on the ground if you can do so unharmed, never a lid on it. Keep to the depth and batch of the maker.',
    source: 'common practice, no source; limits as the maker of each resin states them',
    isDismissible: false,
  },
  {
    id: 'torch',
    title: 'Flame near vapour or paper burns',
    text: 'Clear the bench of solvent, paper and wet cups before the torch is lit; extinguisher within reach; short passes.',
    source: '29 CFR 1910.106 (vapour and sources of ignition)',
    isDismissible: false,
  },
  {
    id: 'dust',
    title: 'Dust of wood and of half-cured resin',
    text: 'Extraction at the tool and a respirator; sand only what is machinable. Fine dust in the air can burn at once.',
    source: 'HSE WIS 23; OSHA and NIOSH limits for wood dust; NFPA 660',
    isDismissible: false,
  },
  {
    id: 'rags',
    title: 'Rags with drying oil can light themselves',
    text: 'Spread them flat outdoors until stiff, or under water in a closed metal can; never in a heap, never in the bin.',
    source: '29 CFR 1910.106(h)(8)(iii); 30 CFR 57.4104',
    isDismissible: false,
  },
  {
    id: 'food',
    title: 'No food before full cure',
    text: "Whether food may touch it at all is for the sheets of the resin's and the finish's makers to say, and only after full cure.",
    source: '21 CFR 175.300',
    isDismissible: false,
  },
];

/** The cautions that concern these steps, each once, in their order. `cups` tells which pours are deep or large. */
export function cautionsFor(steps: readonly PlanStep[], { cups }: CupsOfPlan): Caution[] {
  const kinds = new Set(steps.map(({ kind }) => kind));
  const applied = steps.filter(({ kind }) => kind === 'pour' || kind === 'seal' || kind === 'coat');
  const isHot = cups.some((cup) =>
    cup.portions.some(
      ({ pour }) =>
        applied.some((step) => step.piece === pour.piece && step.step === pour.step) &&
        heatRemark(cup.resin, { depthMm: pour.depthMm, batchMl: mixedMl(cup.resin, cup.measured) }) !== null,
    ),
  );
  const concerns: Readonly<Record<CautionId, boolean>> = {
    sheets: steps.length > 0,
    skin: kinds.has('mix') || applied.length > 0 || kinds.has('demold') || kinds.has('bubbles'),
    heat: isHot,
    torch: kinds.has('bubbles'),
    dust: kinds.has('flatten') || kinds.has('sand') || kinds.has('scuff'),
    rags: kinds.has('finish'),
    food: kinds.has('finish') || kinds.has('ready'),
  };
  return CAUTIONS.filter(({ id }) => concerns[id]);
}

/** The cautions of a whole plan, for the first start. */
export const cautionsOf = (shop: Shop, plan: Plan): Caution[] => cautionsFor(plan.steps, cupsOf(shop, plan));

export interface FoodContact {
  /** Whether the plan's time of full cure has passed at `plan.now`, and the last application is done. */
  readonly isFullyCured: boolean;
  /** ISO moment before which nothing may be said of food; null when the piece is not in the plan. */
  readonly notBefore: string | null;
  readonly text: string;
}

/** All that may be said of food and this piece. There is no input for which it says that food may touch it. */
export function foodContact(plan: Plan, piece: string): FoodContact {
  const own = plan.steps.filter((step) => step.piece === piece);
  const cured =
    own.find(({ step }) => step === 'full-cure')?.end ?? own.find(({ kind }) => kind === 'ready')?.start;
  if (cured === undefined) {
    return {
      isFullyCured: false,
      notBefore: null,
      text: 'No food contact: when it is fully cured is not known.',
    };
  }
  const applications = own.filter(({ kind }) => kind === 'pour' || kind === 'seal' || kind === 'coat');
  const isFullyCured =
    Date.parse(cured) <= Date.parse(plan.now) &&
    applications.length > 0 &&
    applications.every(({ state }) => state === 'done');
  return {
    isFullyCured,
    notBefore: cured,
    text: isFullyCured
      ? 'Fully cured by the calculation. Whether food may touch it only the sheets of the resin and finish makers can say.'
      : 'No food contact: it is not fully cured.',
  };
}
