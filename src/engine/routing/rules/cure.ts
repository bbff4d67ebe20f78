/** Hard enough first: before demolding, machining, turning over, finishing and shipping. */
import { reachMap } from '../../cure/index.ts';
import { missingAfterDemold, placedCures } from '../application-cure.ts';
import type { Resin } from '../../shop/index.ts';
import type { Ground, MilestoneName, Standing } from '../ground.ts';
import type { Block } from '../itinerary.ts';
import { shifted } from '../shift.ts';
import { standingAge } from '../standing-age.ts';
import type { ModelBuilder } from '../model-builder.ts';
import type { Past, PieceRoute, RoutedBlock } from '../piece-route.ts';
import { applicationWords } from '../step-words.ts';
import { eachPiece } from './rule.ts';

const WORDS: Record<MilestoneName, string> = {
  opens: 'tacky',
  closes: 'past its window',
  scuffable: 'hard enough to abrade',
  demold: 'hard enough to demold',
  machinable: 'hard enough to machine',
  fullCure: 'fully cured',
};

export const cure = eachPiece((builder, ground, route) => {
  const { blocks, byId } = route;
  const layers = blocks.filter((b) => b.block.kind === 'pour');
  const coats = blocks.filter((b) => b.block.kind === 'coat');
  const lastLayer = layers[layers.length - 1];
  const demold = byId.get('demold') as RoutedBlock;
  const afterDemold = blocks.slice(blocks.indexOf(demold) + 2);
  const ready = blocks[blocks.length - 1];

  wait(builder, ground, route, lastLayer, demold, 'demold');
  layers.slice(0, -1).forEach((layer, i) => {
    waitUnderLayers(builder, ground, route, layer, layers[i + 1], lastLayer, demold);
  });
  const machining = afterDemold[0];
  waitOutOfForm(builder, ground, route, lastLayer, demold, machining, 'machinable');
  for (const flip of blocks.filter((b) => b.block.kind === 'flip')) {
    const before = coats[Number(flip.block.id.slice('flip-'.length)) - 2];
    wait(builder, ground, route, before, flip, 'scuffable');
  }
  const end = byId.get('finish') ?? ready;
  if (coats.length > 0) for (const coat of coats) wait(builder, ground, route, coat, end, 'fullCure');
  else waitOutOfForm(builder, ground, route, lastLayer, demold, end, 'fullCure');
  // Where it was worked on too soon, the layer under the coats may be the last to harden.
  if (coats.length > 0 && machining.past)
    waitOutOfForm(builder, ground, route, lastLayer, demold, end, 'machinable');
});

function reasonFor(
  builder: ModelBuilder,
  route: PieceRoute,
  of: RoutedBlock,
  step: RoutedBlock,
  name: MilestoneName,
) {
  const id = of.block.application?.id ?? of.block.id;
  return builder.reason(
    'cure',
    route.itinerary.piece.id,
    step.block.id,
    `${applicationWords(id)} must be ${WORDS[name]}`,
  );
}

/** The milestone is reached where the application stands. */
function wait(
  builder: ModelBuilder,
  ground: Ground,
  route: PieceRoute,
  of: RoutedBlock,
  step: RoutedBlock,
  name: MilestoneName,
): void {
  if (step.past) return;
  const reason = reasonFor(builder, route, of, step, name);
  for (const placed of placedCures(ground, route, of)) {
    builder.least(of.start, step.start, placed.milestone(name), placed.when, reason);
  }
}

/**
 * A layer under others is hard enough to demold. In a box it was out of it for every layer since, so the bound counts
 * from the last pour only: by then it had its tack at least, and from then on it stands as the last layer does. By a record
 * out of order it may have been poured after that.
 */
function waitUnderLayers(
  builder: ModelBuilder,
  ground: Ground,
  route: PieceRoute,
  of: RoutedBlock,
  next: RoutedBlock,
  last: RoutedBlock,
  demold: RoutedBlock,
): void {
  if (demold.past) return;
  const reason = reasonFor(builder, route, of, demold, 'demold');
  const over = placedCures(ground, route, last);
  for (const placed of placedCures(ground, route, of)) {
    const { box } = placed.standing;
    const standing = over.find((each) => box !== null && each.standing.box === box)?.standing;
    if (!standing) {
      builder.least(of.start, demold.start, placed.milestone('demold'), placed.when, reason);
      continue;
    }
    const gathered = next.past ? 0 : placed.ageOf('opens');
    const lead = leadOfLast(ground, standing, placed.resin, of, last);
    const missing = Math.max(0, placed.ageOf('demold') - gathered) + lead;
    const reached = shifted(
      ground.reach(standing, placed.resin, missing),
      last.block.application?.mixMinutes ?? 0,
      0,
    );
    builder.least(last.start, demold.start, reached, placed.when, reason);
  }
}

/** Equivalent minutes for which the last layer had stood when this one was poured: by a record out of order; else none. */
function leadOfLast(
  ground: Ground,
  standing: Standing,
  resin: Resin,
  of: RoutedBlock,
  last: RoutedBlock,
): number {
  if (!of.past || !last.past) return 0;
  const applied = (past: Past, block: Block): number => past.start + (block.application?.mixMinutes ?? 0);
  const [poured, over] = [applied(of.past, of.block), applied(last.past, last.block)];
  return over < poured ? standingAge(ground, standing, resin, over, poured) : 0;
}

/** The milestone is reached after the piece has left its form: in the same room, but no longer in a box. */
function waitOutOfForm(
  builder: ModelBuilder,
  ground: Ground,
  route: PieceRoute,
  of: RoutedBlock,
  demold: RoutedBlock,
  step: RoutedBlock,
  name: MilestoneName,
): void {
  if (step.past) return;
  const reason = reasonFor(builder, route, of, step, name);
  for (const placed of placedCures(ground, route, of)) {
    if (!placed.standing.box) {
      builder.least(of.start, step.start, placed.milestone(name), placed.when, reason);
      continue;
    }
    const missing = missingAfterDemold(ground, placed, of, demold, placed.ageOf(name));
    const rest = reachMap(ground.age(placed.standing.room, placed.resin), missing);
    builder.least(demold.start, step.start, rest, placed.when, reason);
  }
}
