/** A form holds one piece from its preparation until it is clean again, and the piece stays in the one form. */
import { brokenAt, nameOf } from '../evidence.ts';
import type { Broken, Evidence, PieceCase } from '../evidence.ts';
import { overloadOf } from '../stays.ts';
import type { Stay } from '../stays.ts';

const RULE = 'form';

export function form(evidence: Evidence, stays: readonly Stay[]): Broken[] {
  const broken: Broken[] = evidence.pieces.flatMap((of) => oneForm(of));
  const held = stays.filter((stay) => stay.what === 'form');
  for (const each of evidence.shop.forms) {
    const holders = held.filter((stay) => stay.id === each.id);
    const units = [...new Set(holders.map((stay) => stay.unit))];
    const groups = [
      { name: each.name, among: holders, capacity: each.count },
      ...units.map((unit) => ({
        name: `${each.name} number ${unit}`,
        among: holders.filter((stay) => stay.unit === unit),
        capacity: 1,
      })),
    ];
    for (const { name, among, capacity } of groups) {
      const over = overloadOf(among, capacity);
      if (!over) continue;
      const pieces = over.holders.map((stay) => stay.piece).join(', ');
      const text = `${name} holds ${pieces} at ${evidence.say(over.at)}; there ${capacity === 1 ? 'is' : 'are'} ${capacity}.`;
      broken.push({ rule: RULE, piece: over.holders[over.holders.length - 1].piece, text });
      break;
    }
  }
  return broken;
}

function oneForm({ steps, piece, form: own, byId, expected }: PieceCase): Broken[] {
  const broken: Broken[] = [];
  if (!own) return [{ rule: RULE, piece: piece.id, text: `${piece.id} is in no form that the shop has.` }];
  const unit = byId.get('prepare')?.step.form?.unit;
  const inForm = new Set(['seal', 'pour', 'demold', 'turnaround', 'prepare']);
  const needsForm = new Set(expected.filter((step) => inForm.has(step.kind)).map((step) => step.id));
  for (const timed of steps) {
    const { form: said, step } = timed.step;
    if (!said) {
      if (needsForm.has(step)) broken.push(brokenAt(RULE, timed, `${nameOf(timed)} names no form.`));
    } else if (said.id !== own.id || said.unit !== unit) {
      const text = `${nameOf(timed)} is in ${said.id} number ${said.unit}; the piece was prepared in ${own.id} number ${unit}.`;
      broken.push(brokenAt(RULE, timed, text));
    } else if (step === 'prepare' && (said.unit < 1 || (said.unit > own.count && !timed.started))) {
      broken.push(brokenAt(RULE, timed, `${nameOf(timed)}: there is no ${own.id} number ${said.unit}.`));
    }
  }
  return broken;
}
