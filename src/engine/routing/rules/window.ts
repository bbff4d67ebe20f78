/**
 * The next layer or coat goes on inside the tack window of the one below, or that one is scuffed first.
 * Well inside is better than just inside: the outer sixths of a window are its edges.
 */
import { placedCures } from '../application-cure.ts';
import type { Application } from '../itinerary.ts';
import { no, yes } from '../model-builder.ts';
import { applicationWords } from '../step-words.ts';
import { eachPiece } from './rule.ts';

/** Share of a window's equivalent width at either end that counts as its edge. */
const EDGE_SHARE = 1 / 6;
const SCUFF_COST = 100;
const EDGE_COST = 10;

export const window = eachPiece((builder, ground, route) => {
  const { piece } = route.itinerary;
  for (const next of route.blocks) {
    const application = next.block.application;
    if (!application?.over || next.past) continue;
    const under = route.byId.get(
      application.over.startsWith('layer') ? `${application.over}-pour` : application.over,
    );
    const scuff = route.byId.get(`${application.id}-scuff`);
    const recoat = route.recoat.get(application.id);
    if (!under || !scuff || recoat === undefined) continue;
    const below = under.block.application as Application;
    const { mixMinutes, applyMinutes } = application;
    const name = next.block.id;
    const inside = builder.reason(
      'window',
      piece.id,
      name,
      `${applicationWords(below.id)} must still be tacky, or be scuffed first`,
    );
    const tacky = builder.reason(
      'window',
      piece.id,
      name,
      `${applicationWords(below.id)} must be tacky first`,
    );
    const margin = builder.reason('margin', piece.id, name, 'it is kept well inside its window');
    const hard = builder.reason(
      'scuff',
      piece.id,
      scuff.block.id,
      `${applicationWords(below.id)} must be hard before it is scuffed`,
    );
    const well = builder.wish(`${piece.id} ${name} well inside the window`);
    builder.cost('windows', { kind: 'choice', when: recoat ^ 1, weight: SCUFF_COST });
    builder.cost('windows', { kind: 'choice', when: no(well), weight: EDGE_COST });

    for (const cure of placedCures(ground, route, under)) {
      builder.least(under.start, next.start, cure.milestone('opens', -mixMinutes), cure.when, tacky);
      builder.most(
        under.start,
        next.start,
        cure.milestone('closes', -mixMinutes - applyMinutes),
        [recoat, ...cure.when],
        inside,
      );
      if (cure.standing.box) {
        // The next layer is poured outside of the box, and the room may be the warmer of the two.
        const out = cure.outOfBoxUntil(applyMinutes, -mixMinutes);
        builder.most(under.start, next.start, out, [recoat, ...cure.when], inside);
      }
      builder.least(under.start, scuff.start, cure.milestone('scuffable'), [recoat ^ 1, ...cure.when], hard);
      const comfortable = [recoat, yes(well), ...cure.when];
      builder.least(
        under.start,
        next.start,
        cure.intoWindow(EDGE_SHARE, 'reached', -mixMinutes),
        comfortable,
        margin,
      );
      builder.most(
        under.start,
        next.start,
        cure.intoWindow(1 - EDGE_SHARE, 'within', -mixMinutes - applyMinutes),
        comfortable,
        margin,
      );
    }
    const pinned = [...piece.pins]
      .reverse()
      .find((p) => p.way && (p.step === name || p.step.startsWith(`${application.id}-`)));
    if (pinned) {
      const reason = builder.reason('pin', piece.id, name, `you said to ${pinned.way} here`);
      builder.clause([pinned.way === 'recoat' ? recoat : recoat ^ 1], reason);
    }
    if (scuff.past) builder.clause([recoat ^ 1], hard);
  }
});
