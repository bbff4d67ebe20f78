/** A step as one says it in the shop: `pour layer 2`, `clean Long form 1`. */
import type { PlanStep } from '../../engine/index.ts';
import type { Names } from './names.ts';

/** `before` and `after` are the steps of the same piece around it: a warm box is left before a mix, entered after a pour. */
export function stepWords(
  step: PlanStep,
  names: Names,
  around: { readonly before?: PlanStep; readonly after?: PlanStep },
): string {
  const target = targetOf(step.step);
  const form = step.form === undefined ? 'the form' : names.form(step.form.id, step.form.unit);
  const resin = step.resin === undefined ? '' : ` (${names.resin(step.resin)})`;
  const words: Readonly<Record<PlanStep['kind'], string>> = {
    prepare: `prepare, in ${form}`,
    mix: `mix for ${target}${resin}`,
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
  const { before, after } = around;
  const outOf =
    before?.warmBox !== undefined && before.handsOnMinutes === 0
      ? `out of ${names.warmBox(before.warmBox)}; `
      : '';
  const into =
    after?.warmBox !== undefined && after.handsOnMinutes === 0
      ? `; then into ${names.warmBox(after.warmBox)}`
      : '';
  return `${outOf}${words[step.kind]}${into}`;
}

function targetOf(step: string): string {
  const [what, number] = step.split('-');
  if (what === 'layer') return `layer ${number}`;
  if (what === 'coat' || what === 'flip') return `coat ${number}`;
  return 'the seal';
}
