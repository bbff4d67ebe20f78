/** A step as one says it in the shop: `pour layer 2`, `clean Long form 1`. */
import type { PlanStep } from '../../engine/index.ts';
import type { BoxMove } from './box-moves.ts';
import type { Names } from './names.ts';

export function stepWords(step: PlanStep, names: Names, move: BoxMove): string {
  const target = targetOf(step.step);
  const form = step.form === undefined ? 'the form' : names.form(step.form.id, step.form.unit);
  const words: Readonly<Record<PlanStep['kind'], string>> = {
    prepare: `prepare, in ${form}`,
    mix: step.resin === undefined ? `mix for ${target}` : `mix ${names.resin(step.resin)}, ${target}`,
    seal: 'brush the seal on',
    pour: `pour ${target}`,
    bubbles: `bubble pass, ${target}`,
    coat: `put ${target} on`,
    scuff: `scuff before ${target}`,
    set: `${target} sets`,
    cure: 'cures',
    demold: `demold from ${form}`,
    turnaround: `clean ${form}`,
    rest: 'rests',
    flatten: step.tool === undefined ? 'flatten' : `flatten, ${names.tool(step.tool)}`,
    sand: step.tool === undefined ? 'sand' : `sand, ${names.tool(step.tool)}`,
    flip: `turn over, for ${target}`,
    finish: 'finish',
    ready: 'ready',
  };
  const outOf = move.outOf === undefined ? '' : `out of ${names.warmBox(move.outOf)}; `;
  const into = move.into === undefined ? '' : `; then into ${names.warmBox(move.into)}`;
  return `${outOf}${words[step.kind]}${into}`;
}

function targetOf(step: string): string {
  const [what, number] = step.split('-');
  if (what === 'layer') return `layer ${number}`;
  if (what === 'coat' || what === 'flip') return `coat ${number}`;
  return 'seal';
}
