/** Whether a resin's sheet makes sense: its times in order, its limits, its mix, its activation energy. */
import type { Draft } from '../draft.ts';
import type { Resin } from '../schema/shop.ts';
import type { Verdict } from './verdict.ts';

/** What was measured from gel times of amine-cured epoxies, kJ/mol; sources in defaults.ts. */
const USUAL_ENERGY = { least: 43, most: 60 };
const NARROW_WINDOW_MINUTES = 30;
const GAS_CONSTANT_KJ = 8.314462618e-3;
const KELVIN = 273.15;

export function judgeResins(draft: Draft, verdict: Verdict): void {
  for (const { index, entry } of draft.resins) {
    const at = ['resins', index] as const;
    judgeTimes(entry, at, verdict);
    judgeLimits(entry, at, verdict);
    judgeMix(entry, at, verdict);
    judgeEnergy(entry, at, verdict);
  }
}

type At = readonly ['resins', number];

/**
 * Only what no resin can do is wrong: a window that closes before it opens, hardness before tack, a full cure that
 * is not the last. Whether a surface may be scuffed before or after its window closes, and whether a piece may be
 * machined as soon as it leaves the form, is for the sheet to say.
 */
function judgeTimes(resin: Resin, at: At, { wrong, odd }: Verdict): void {
  const opens = resin.tackOpensMinutes;
  const closes = resin.tackClosesMinutes;
  if (closes <= opens) {
    wrong([...at, 'tackClosesMinutes'], closes, `must be more than tackOpensMinutes, which is ${opens}`);
  } else if (closes - opens < NARROW_WINDOW_MINUTES) {
    odd(
      [...at, 'tackClosesMinutes'],
      closes,
      `the tack window is only ${closes - opens} minutes long; look whether the sheet means hours`,
    );
  }
  for (const key of ['scuffableMinutes', 'demoldMinutes', 'machinableMinutes'] as const) {
    if (resin[key] < opens) {
      wrong([...at, key], resin[key], `must not be less than tackOpensMinutes, which is ${opens}`);
    } else if (resin[key] > resin.fullCureMinutes) {
      wrong(
        [...at, key],
        resin[key],
        `must not be more than fullCureMinutes, which is ${resin.fullCureMinutes}`,
      );
    }
  }
  if (resin.fullCureMinutes < closes) {
    wrong(
      [...at, 'fullCureMinutes'],
      resin.fullCureMinutes,
      `must not be less than tackClosesMinutes, ${closes}`,
    );
  }
  if (resin.machinableMinutes < resin.demoldMinutes) {
    odd(
      [...at, 'machinableMinutes'],
      resin.machinableMinutes,
      `less than demoldMinutes (${resin.demoldMinutes}): most resins keep their shape before they can be machined`,
    );
  }
  if (resin.workingTime.minutes >= opens) {
    odd(
      [...at, 'workingTime', 'minutes'],
      resin.workingTime.minutes,
      `not less than tackOpensMinutes (${opens}): a mix is usually stiff in its cup before its pour is tacky`,
    );
  }
}

function judgeLimits(resin: Resin, at: At, { wrong, odd }: Verdict): void {
  const { lowestDegC, highestDegC, referenceDegC } = resin;
  if (lowestDegC >= highestDegC) {
    wrong([...at, 'lowestDegC'], lowestDegC, `must be below highestDegC, which is ${highestDegC}`);
  } else if (referenceDegC < lowestDegC || referenceDegC > highestDegC) {
    odd(
      [...at, 'referenceDegC'],
      referenceDegC,
      `its times are stated for a temperature outside ${lowestDegC} to ${highestDegC} degC, where it may be used`,
    );
  }
  if (resin.smallestDepthMm > resin.largestDepthMm) {
    wrong(
      [...at, 'smallestDepthMm'],
      resin.smallestDepthMm,
      `must not be more than largestDepthMm, which is ${resin.largestDepthMm}`,
    );
  }
}

function judgeMix({ mix }: Resin, at: At, { odd }: Verdict): void {
  const ratio = mix.a / mix.b;
  const told = `${mix.a}:${mix.b}`;
  if (mix.by === 'mass' && ratio > 1 && ratio <= 5 && Number.isInteger(ratio)) {
    const byVolume = (ratio * mix.densityBGPerMl) / mix.densityAGPerMl;
    odd(
      [...at, 'mix', 'by'],
      'mass',
      mix.densityAGPerMl === mix.densityBGPerMl
        ? `${told} with equal densities: sheets that say ${told} mostly mean volume, and A and B seldom weigh the same`
        : `${told} by mass is ${byVolume.toFixed(2)}:1 by volume; sheets that say ${told} mostly mean volume`,
    );
  }
  if (ratio < 1 || ratio > 10) {
    odd(
      [...at, 'mix', 'a'],
      mix.a,
      `${told} is a rare ratio; look whether A (resin) and B (hardener) are swapped`,
    );
  }
}

function judgeEnergy(resin: Resin, at: At, { wrong, odd }: Verdict): void {
  const { activationEnergyKJPerMol: given, secondPoint, referenceDegC, tackOpensMinutes } = resin;
  const usual = `${USUAL_ENERGY.least} to ${USUAL_ENERGY.most} kJ/mol measured for epoxies with amines`;
  const isUsual = (energy: number): boolean => energy >= USUAL_ENERGY.least && energy <= USUAL_ENERGY.most;
  if (given !== undefined && !isUsual(given)) {
    odd([...at, 'activationEnergyKJPerMol'], given, `outside the ${usual}`);
  }
  if (!secondPoint) return;
  if (given !== undefined) {
    odd(
      [...at, 'secondPoint'],
      secondPoint,
      'not used, for activationEnergyKJPerMol is given; take one of them out',
    );
  }
  if (secondPoint.degC === referenceDegC) {
    wrong([...at, 'secondPoint', 'degC'], secondPoint.degC, 'must not be the reference temperature itself');
    return;
  }
  const energy =
    (GAS_CONSTANT_KJ * Math.log(tackOpensMinutes / secondPoint.tackOpensMinutes)) /
    (1 / (referenceDegC + KELVIN) - 1 / (secondPoint.degC + KELVIN));
  if (energy <= 0) {
    wrong(
      [...at, 'secondPoint', 'tackOpensMinutes'],
      secondPoint.tackOpensMinutes,
      `must be ${secondPoint.degC > referenceDegC ? 'less' : 'more'} than the ${tackOpensMinutes} minutes at ${referenceDegC} degC: warmer is faster`,
    );
  } else if (given === undefined && !isUsual(energy)) {
    odd(
      [...at, 'secondPoint', 'tackOpensMinutes'],
      secondPoint.tackOpensMinutes,
      `fits an activation energy of ${energy.toFixed(1)} kJ/mol, outside the ${usual}`,
    );
  }
}
