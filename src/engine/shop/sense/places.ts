/** Whether forms, benches and warm boxes fit each other and the resins. */
import { entryOf, type Draft } from '../draft.ts';
import type { Form } from '../schema/shop.ts';
import type { Verdict } from './verdict.ts';

/** What stands over on each side of a form when its outside is not given, mm. */
const RIM_MM = 40;

/** Area that a form takes on a bench, cm2. */
function footprintCm2(form: Form): number {
  const { lengthMm, widthMm } = form.outside ?? {
    lengthMm: form.inside.lengthMm + 2 * RIM_MM,
    widthMm: form.inside.widthMm + 2 * RIM_MM,
  };
  return (lengthMm * widthMm) / 100;
}

export function judgePlaces(draft: Draft, verdict: Verdict): void {
  judgeSpace(draft, verdict);
  judgeForms(draft, verdict);
  judgeWarmBoxes(draft, verdict);
}

function judgeSpace(draft: Draft, { wrong }: Verdict): void {
  for (const section of ['benches', 'warmBoxes'] as const) {
    for (const { index, entry } of draft[section]) {
      if (entry.areaCm2 === undefined && entry.spots === undefined) {
        wrong([section, index], entry, 'must say how much it takes: "areaCm2", or "spots"');
      } else if (entry.areaCm2 !== undefined && entry.spots !== undefined) {
        wrong(
          [section, index, 'spots'],
          entry.spots,
          'must not stand beside "areaCm2"; take one of them out',
        );
      }
    }
  }
}

function judgeForms(draft: Draft, { wrong }: Verdict): void {
  for (const { index, entry: form } of draft.forms) {
    const { inside, outside } = form;
    if (outside && (outside.lengthMm < inside.lengthMm || outside.widthMm < inside.widthMm)) {
      wrong(
        ['forms', index, 'outside'],
        `${outside.lengthMm} x ${outside.widthMm} mm`,
        `must not be smaller than the inside, ${inside.lengthMm} x ${inside.widthMm} mm`,
      );
    }
    const areas = draft.benches.map(({ entry }) =>
      entry.spots === undefined ? (entry.areaCm2 ?? Infinity) : Infinity,
    );
    const needs = footprintCm2(form);
    if (draft.whole('benches') && areas.length > 0 && areas.every((area) => area < needs)) {
      wrong(
        ['forms', index],
        `a form that takes ${Math.ceil(needs)} cm2`,
        `must stand on a bench, but the largest has ${Math.max(...areas)} cm2`,
      );
    }
  }
}

function judgeWarmBoxes(draft: Draft, { odd }: Verdict): void {
  const cast = new Set(draft.recipes.flatMap(({ entry }) => entry.layers.map((layer) => layer.resin)));
  for (const { index, entry: box } of draft.warmBoxes) {
    const at = ['warmBoxes', index] as const;
    for (const id of cast) {
      const resin = entryOf(draft.resins, id);
      if (resin && box.setDegC > resin.highestDegC) {
        odd(
          [...at, 'setDegC'],
          box.setDegC,
          `above the highest temperature of "${id}", ${resin.highestDegC} degC`,
        );
      } else if (resin && box.setDegC < resin.lowestDegC) {
        odd(
          [...at, 'setDegC'],
          box.setDegC,
          `below the lowest temperature of "${id}", ${resin.lowestDegC} degC`,
        );
      }
    }
    if (draft.whole('benches') && !draft.benches.some(({ entry }) => entry.room === box.room)) {
      odd([...at, 'room'], box.room, 'no bench stands in its room, so no form can come to it');
    }
    const { areaCm2, spots } = box;
    const sizes = draft.forms.map(({ entry }) => footprintCm2(entry));
    if (
      draft.whole('forms') &&
      areaCm2 !== undefined &&
      spots === undefined &&
      sizes.every((size) => size > areaCm2)
    ) {
      odd(
        [...at, 'areaCm2'],
        areaCm2,
        `no form fits in it; the smallest takes ${Math.ceil(Math.min(...sizes))} cm2`,
      );
    }
  }
}
