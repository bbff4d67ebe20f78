/**
 * What becomes of any shop after it was planned: time passes, steps are written down early, late, in part or not at
 * all, fingers touch surfaces, the maker pins and unpins, and the shop itself changes: a form breaks, somebody is away,
 * the forecast turns.
 */
import type { GeneratorValue } from 'fast-check';
import type { Plan } from '../../src/engine/plan/index.ts';
import { readShop } from '../../src/engine/shop/index.ts';
import type { Shop } from '../../src/engine/shop/index.ts';
import { makeClock, toIso, toMinute } from '../../src/engine/time/index.ts';
import { isoOf, minuteOf } from '../moments.ts';
import { CHANGES, isAttended } from './random-changes.ts';
import type { Actual, File, Piece } from './random-changes.ts';
import { diceOf } from './random-shop.ts';
import type { Dice, Occasion } from './random-shop.ts';

/** The moment at which the next plan is made: mostly close to where some step begins or ends, now and then days later. */
function laterThan(now: number, plan: Plan, { pick, whole, maybe }: Dice): number {
  const moments = plan.steps.flatMap((step) => [minuteOf(step.start), minuteOf(step.end)]);
  const ahead = moments.filter((each) => each >= now).sort((a, b) => a - b);
  if (ahead.length === 0 || maybe(15)) return now + pick(whole(0, 60), whole(0, 1440), whole(0, 7200));
  const soon = ahead.slice(0, pick(4, 12, 60));
  return Math.max(now, pick(...soon) + pick(0, 0, whole(-9, 9), whole(-60, 240)));
}

/** The maker's own record of a piece, not quite as planned. */
function recordsOf(piece: Piece, plan: Plan, now: number, shop: File, dice: Dice): readonly Actual[] {
  const { pick, whole, maybe } = dice;
  const steps = plan.steps.filter((step) => step.piece === piece.id && isAttended(step));
  const known = new Map(piece.actuals.map((actual) => [actual.step, actual]));
  const skips = pick(0, 0, 0, 10, 40);
  let drift = 0;
  for (const step of steps) {
    if (maybe(30)) drift += pick(whole(-5, 15), whole(-60, 300));
    const before = known.get(step.step);
    if (before?.ended !== undefined) continue;
    const started = before ? minuteOf(before.started) : minuteOf(step.start) + drift;
    const isEarly = started > now;
    if (isEarly && !maybe(4)) break;
    if (maybe(skips)) continue;
    const from = before || !isEarly ? started : now - whole(0, 20);
    const to =
      from + Math.max(0, minuteOf(step.end) - minuteOf(step.start) + pick(0, whole(-3, 3), whole(-20, 60)));
    const isOver = to <= now && !maybe(12);
    const places = maybe(60)
      ? {
          ...(step.form ? { form: step.form.id } : {}),
          ...(step.bench ? { bench: step.bench } : {}),
          ...(step.warmBox ? { warmBox: step.warmBox } : {}),
          ...(step.people[0] && maybe(50) ? { person: step.people[0] } : {}),
        }
      : {};
    const elsewhere = maybe(4)
      ? pick<Partial<Actual>>(
          { form: pick(...shop.forms).id },
          { bench: pick(...shop.benches).id },
          ...shop.warmBoxes.map(({ id }) => ({ warmBox: id })),
        )
      : {};
    known.set(step.step, {
      ...places,
      ...elsewhere,
      ...before,
      step: step.step,
      started: before?.started ?? isoOf(from),
      ...(isOver ? { ended: isoOf(to) } : {}),
    });
    if (!isOver && !maybe(15)) break;
  }
  return [...known.values()];
}

function touched(piece: Piece, now: number, { pick, whole, maybe }: Dice): Piece['touchTests'] {
  const applied = piece.actuals.filter(({ step }) => /^(seal|layer-\d+-pour|coat-\d+)$/.test(step));
  if (applied.length === 0 || !maybe(25)) return piece.touchTests;
  const { step, started } = pick(...applied.slice(-2));
  const at = now - pick(0, whole(0, 600));
  if (at <= minuteOf(started)) return piece.touchTests;
  return [...piece.touchTests, { step, at: isoOf(at), found: pick('wet', 'tacky', 'hard') }];
}

const copyOf = (shop: Shop): File => JSON.parse(JSON.stringify(shop)) as File;

/** The shop as it is when it is next planned, and when that is. Changes that would make it no shop are not made. */
export function laterOccasion({ shop, now }: Occasion, plan: Plan, g: GeneratorValue): Occasion {
  const dice = diceOf(g);
  const { pick, whole, maybe } = dice;
  const clock = makeClock(shop.zone, now);
  // Now and then a device's clock runs behind the record.
  const then =
    laterThan(minuteOf(toIso(clock, toMinute(clock, now))), plan, dice) - (maybe(1) ? whole(1, 500) : 0);
  let current = shop;
  const tryOut = (change: (file: File) => void): void => {
    const file = copyOf(current);
    change(file);
    const read = readShop(JSON.parse(JSON.stringify(file)));
    if (read.ok) current = read.shop;
  };
  for (const index of shop.pieces.keys()) {
    tryOut((file) => {
      const piece = file.pieces[index] as Piece;
      piece.actuals = [...recordsOf(piece, plan, then, file, dice)];
      const begun = new Set(piece.actuals.map(({ step }) => step));
      piece.pins = piece.pins.filter((pin) => !begun.has(pin.step) || pin.at === undefined);
    });
    tryOut((file) => {
      const piece = file.pieces[index] as Piece;
      piece.touchTests = touched(piece, then, dice);
    });
  }
  const changes = pick(0, 0, 1, 1, 2, 4);
  for (let i = 0; i < changes; i++) tryOut((file) => pick(...CHANGES)(file, plan, then, dice));
  return { shop: current, now: isoOf(then) };
}
