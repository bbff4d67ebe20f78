/** The piece goes into its form, either way round, with all its layers; and no layer is deeper than its maker allows. */
import { isPast } from '../evidence.ts';
import type { Broken, Evidence } from '../evidence.ts';
import { depthMm } from '../expected.ts';

export function fit(evidence: Evidence): Broken[] {
  const broken: Broken[] = [];
  for (const { piece, recipe, form, byId, applications } of evidence.pieces) {
    const prepare = byId.get('prepare');
    if (!form || !prepare || isPast(prepare)) continue;
    const wrong = (text: string): void =>
      void broken.push({ rule: 'fit', piece: piece.id, step: 'prepare', text });
    const { lengthMm, widthMm, depthMm: inside } = form.inside;
    const [long, short] = [Math.max(lengthMm, widthMm), Math.min(lengthMm, widthMm)];
    const [length, width] = [
      Math.max(piece.size.lengthMm, piece.size.widthMm),
      Math.min(piece.size.lengthMm, piece.size.widthMm),
    ];
    if (length > long || width > short)
      wrong(`${piece.id} is ${length} by ${width} mm; ${form.name} is ${long} by ${short} mm inside.`);
    const depths = recipe.layers.map((layer) => depthMm(layer, piece.size));
    const depth = depths.reduce((sum, each) => sum + each, 0);
    if (depth > inside + 1e-9)
      wrong(`${piece.id} has ${depth.toFixed(1)} mm of layers; ${form.name} is ${inside} mm deep.`);
    if (piece.forms && !piece.forms.includes(form.id))
      wrong(`${piece.id} is to be made in ${piece.forms.join(' or ')}, not in ${form.id}.`);
    const resins = applications.filter((each) => each.id.startsWith('layer-')).map((each) => each.resin);
    depths.forEach((each, i) => {
      const { largestDepthMm, smallestDepthMm, name } = resins[i];
      if (each > largestDepthMm + 1e-9 || each < smallestDepthMm - 1e-9)
        wrong(
          `layer ${i + 1} of ${piece.id} is ${each.toFixed(1)} mm; ${name} is poured ${smallestDepthMm} to ${largestDepthMm} mm deep.`,
        );
    });
  }
  return broken;
}
