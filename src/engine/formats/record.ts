/**
 * What was done to a piece, for making it again: batches, times, temperatures, touch tests. Facts only: what has been
 * entered as having happened; a step that has none is not in it.
 */
import { temperatureAt } from '../cure/index.ts';
import { cupsOf } from '../mix/index.ts';
import type { Plan } from '../plan/document.ts';
import { massText, temperatureText, volumeText, type Shop } from '../shop/index.ts';
import { formatMoment, toMinute } from '../time/index.ts';
import { columns, folded } from './text-page.ts';
import { namesOf, placeName, stepTitle, surfaceName } from './words.ts';

export interface RecordLine {
  readonly what: string;
  readonly started: string;
  /** Empty while it is under way. */
  readonly ended: string;
  readonly who: string;
  readonly where: string;
  /** Air of the room when it began; empty where nothing is known of it. */
  readonly air: string;
  /** "Tarn Slow Cast 630 mL: A 420 mL, B 210 mL, sea blue mica 1.8 g", or empty. */
  readonly batch: string;
}

export interface PieceRecord {
  readonly piece: string;
  readonly recipe: string;
  readonly size: string;
  readonly isFinished: boolean;
  readonly lines: readonly RecordLine[];
  /** "Thu 26 Nov 09:10: layer 1 tacky" */
  readonly touchTests: readonly string[];
}

/** @throws RangeError when the shop has no such piece */
export function pieceRecord(shop: Shop, plan: Plan, pieceId: string): PieceRecord {
  const piece = shop.pieces.find(({ id }) => id === pieceId);
  if (!piece) {
    const known = shop.pieces.map(({ id }) => id).join(', ');
    throw new RangeError(`piece: "${pieceId}" is not in the shop; its pieces are ${known || '(none)'}`);
  }
  const all = cupsOf(shop, plan);
  const names = namesOf(shop);
  const { clock, ground } = all;
  const moment = (iso: string): string => formatMoment(clock, toMinute(clock, iso));
  const lines = [...piece.actuals]
    .sort((a, b) => toMinute(clock, a.started) - toMinute(clock, b.started))
    .map((actual): RecordLine => {
      const step = plan.steps.find((s) => s.piece === pieceId && s.step === actual.step);
      const air = step && ground.temperature.get(step.room);
      return {
        what: step ? stepTitle(step) : actual.step,
        started: moment(actual.started),
        ended: actual.ended === undefined ? '' : moment(actual.ended),
        who:
          actual.person === undefined
            ? (step?.people ?? []).map(names.person).join(', ')
            : names.person(actual.person),
        where: step ? placeName(step, names) : '',
        air: air ? temperatureText(temperatureAt(air, toMinute(clock, actual.started)), shop.units) : '',
        batch: batchWords(shop, all, pieceId, actual.step),
      };
    });
  const last = plan.steps.filter((s) => s.piece === pieceId && s.kind !== 'ready' && s.handsOnMinutes > 0);
  const recorded = new Set(piece.actuals.filter(({ ended }) => ended !== undefined).map(({ step }) => step));
  const final = last.at(-1);
  return {
    piece: piece.name,
    recipe: shop.recipes.find(({ id }) => id === piece.recipe)?.name ?? piece.recipe,
    size: `${piece.size.lengthMm} x ${piece.size.widthMm} mm`,
    isFinished: final !== undefined && recorded.has(final.step),
    lines,
    touchTests: piece.touchTests.map(({ step, at, found }) => `${moment(at)}: ${surfaceName(step)} ${found}`),
  };
}

function batchWords(shop: Shop, { cups }: ReturnType<typeof cupsOf>, piece: string, step: string): string {
  const own = cups.filter((cup) =>
    cup.portions.some(({ pour }) => pour.piece === piece && pour.step === step),
  );
  return own
    .map(({ resin, measured, tint }) => {
      const { aMl, bMl, mixedMl } = measured.byVolume;
      const { aG, bG } = measured.byMass;
      const volume = (ml: number): string => volumeText(ml, shop.units);
      const tinted = tint ? `, ${tint.name} ${massText(tint.g, 3)}` : '';
      return `${resin.name} ${volume(mixedMl)}: A ${volume(aMl)} or ${massText(aG)}, B ${volume(bMl)} or ${massText(bG)}${tinted}`;
    })
    .join('; ');
}

/** Ends in a newline. */
export function recordText(record: PieceRecord, width: number): string {
  const { piece, recipe, size, isFinished, lines, touchTests } = record;
  const rows = lines.map(({ what, started, ended, who, where, air }) => [
    what,
    started,
    ended === '' ? 'under way' : `to ${ended}`,
    who,
    where,
    air,
  ]);
  const batches = lines
    .filter(({ batch }) => batch !== '')
    .flatMap(({ what, batch }) => folded(`${what}: ${batch}`, width, '  ', '    '));
  const parts = [
    [`${piece}: ${recipe}, ${size}`, isFinished ? 'finished' : 'not finished yet: what has happened so far'],
    rows.length === 0 ? ['  nothing has been entered as done'] : columns(rows, width, [0, 3, 4], '  '),
    batches.length === 0 ? [] : ['Batches, as the recipe has them', ...batches],
    touchTests.length === 0 ? [] : ['Touch tests', ...touchTests.map((text) => `  ${text}`)],
  ];
  return `${parts
    .filter((part) => part.length > 0)
    .map((part) => part.join('\n'))
    .join('\n\n')}\n`;
}
