/**
 * What a maker may change in a shop between two plans: pins, forms, people and their hours, the weather, sheets, recipes,
 * places and orders. Some of it makes a file that is none; whoever tries a change out finds that.
 */
import type { Plan, PlanStep } from '../../src/engine/plan/index.ts';
import type { ShopFile } from '../../src/engine/shop/index.ts';
import { isoOf, minuteOf } from '../moments.ts';
import type { Dice } from './random-shop.ts';

export type File = ShopFile & Required<Pick<ShopFile, 'pieces' | 'closures' | 'warmBoxes' | 'tools'>>;
export type Piece = File['pieces'][number] &
  Required<Pick<File['pieces'][number], 'pins' | 'actuals' | 'touchTests'>>;
export type Actual = Piece['actuals'][number];

export const isAttended = ({ kind }: PlanStep): boolean => !['set', 'cure', 'rest', 'ready'].includes(kind);

/** Changes the file in place, for a plan made at `now`, a minute of the epoch; does nothing where there is nothing of the kind. */
type Change = (shop: File, plan: Plan, now: number, dice: Dice) => void;

const day = (now: number, days: number): string => isoOf(now + days * 1440).slice(0, 10);

export const CHANGES: readonly Change[] = [
  // A step is pinned, where it is planned or elsewhere.
  (shop, plan, now, { pick, whole, maybe }) => {
    const planned = plan.steps.filter((step) => step.state === 'planned' && isAttended(step));
    if (planned.length === 0) return;
    const step = pick(...planned);
    const piece = shop.pieces.find(({ id }) => id === step.piece) as Piece | undefined;
    const at = minuteOf(step.start) + pick(0, 0, whole(1, 40), whole(-600, 1500));
    if (!piece) return;
    piece.pins = [
      ...piece.pins.filter((pin) => pin.step !== step.step),
      { step: step.step, at: isoOf(maybe(90) ? Math.max(now, at) : at) },
    ];
  },
  (shop, _plan, _now, { pick, maybe }) => {
    const piece = pick(...shop.pieces) as Piece;
    piece.pins = maybe(50) ? [] : piece.pins.slice(1);
  },
  (shop, plan, _now, { pick }) => {
    const over = plan.steps.filter((step) => step.way !== undefined && step.state === 'planned');
    if (over.length === 0) return;
    const step = pick(...over);
    const piece = shop.pieces.find(({ id }) => id === step.piece) as Piece | undefined;
    if (piece)
      piece.pins = [
        ...piece.pins.filter((pin) => pin.step !== step.step),
        { step: step.step, way: pick('recoat', 'scuff') },
      ];
  },
  // A form breaks, or a new one comes.
  (shop, _plan, _now, { pick }) => {
    const form = pick(...shop.forms);
    if ((form.count ?? 1) > 1) form.count = 1;
    else shop.forms = shop.forms.filter((each) => each !== form);
  },
  (shop, _plan, _now, { pick, whole }) => {
    const form = pick(...shop.forms);
    pick<() => unknown>(
      () => (form.count = whole(1, 3)),
      () => (form.turnaroundMinutes = whole(5, 90)),
      () => (form.inside.lengthMm += 100),
    )();
  },
  // Somebody is away, comes at other hours, or has learned something.
  (shop, _plan, now, { pick, whole }) => {
    const person = pick(...shop.people);
    const from = whole(0, 3);
    person.off = [...(person.off ?? []), { from: day(now, from), to: day(now, from + whole(0, 3)) }];
  },
  (shop, _plan, now, { pick, whole }) => {
    const person = pick(...shop.people);
    const from = now + whole(0, 900);
    person.off = [...(person.off ?? []), { from: isoOf(from), to: isoOf(from + whole(30, 600)) }];
  },
  (shop, _plan, now, { whole }) => {
    const from = whole(0, 4);
    shop.closures = [...shop.closures, { from: day(now, from), to: day(now, from + whole(0, 2)) }];
  },
  (shop, _plan, _now, { pick }) => {
    const person = pick(...shop.people);
    person.hours = [
      { rule: 'FREQ=DAILY', from: pick('06:00', '12:30', '22:00'), to: pick('11:00', '17:45', '02:15') },
    ];
  },
  (shop, _plan, _now, { pick }) => {
    if (shop.people.length < 2) return;
    const person = pick(...shop.people.slice(1));
    person.can = pick(
      ['pour', 'demold'],
      ['prepare', 'sand', 'flatten'],
      ['prepare', 'pour', 'demold', 'flatten', 'sand', 'finish'],
    );
  },
  // The weather: measured, forecast, or another season.
  (shop, _plan, now, { pick, whole }) => {
    const { temperature } = pick(...shop.rooms);
    const readings = Array.from({ length: whole(1, 5) }, (_, i) => ({
      at: isoOf(now - i * whole(20, 400)),
      degC: whole(90, 300) / 10,
    }));
    temperature.measured = [...(temperature.measured ?? []), ...readings];
  },
  (shop, _plan, now, { pick, whole }) => {
    const { temperature } = pick(...shop.rooms);
    const [from, step] = [whole(-300, 600), whole(60, 900)];
    temperature.forecast = Array.from({ length: whole(1, 9) }, (_, i) => ({
      at: isoOf(now + from + i * step),
      degC: whole(90, 300) / 10,
    }));
  },
  (shop, _plan, _now, { pick, whole }) => {
    const { pattern } = pick(...shop.rooms).temperature;
    const by = whole(-80, 80) / 10;
    pattern.nightLowDegC += by;
    pattern.dayHighDegC += by;
  },
  (shop, _plan, _now, { pick, whole }) => {
    const room = pick(...shop.rooms);
    room.humidityPercent = pick(undefined, whole(20, 80));
    room.dustSettleMinutes = whole(0, 300);
  },
  (shop, _plan, _now, { pick, whole }) => {
    const [box] = shop.warmBoxes;
    if (!box) {
      shop.warmBoxes = [
        {
          id: 'tent',
          name: 'Tent',
          room: pick(...shop.rooms).id,
          setDegC: whole(220, 320) / 10,
          heatUpMinutes: whole(0, 120),
          spots: whole(1, 2),
        },
      ];
    } else
      pick<() => unknown>(
        () => (box.setDegC = whole(180, 350) / 10),
        () => (box.heatUpMinutes = whole(0, 120)),
        () => (shop.warmBoxes = []),
      )();
  },
  // The maker reads the sheet again.
  (shop, _plan, _now, { pick, whole }) => {
    const resin = pick(...shop.resins);
    const factor = whole(60, 160) / 100;
    const times = [
      'tackOpensMinutes',
      'tackClosesMinutes',
      'scuffableMinutes',
      'demoldMinutes',
      'machinableMinutes',
      'fullCureMinutes',
    ] as const;
    for (const time of times) resin[time] = Math.round(resin[time] * factor);
  },
  (shop, _plan, _now, { pick, whole }) => {
    const resin = pick(...shop.resins);
    pick<() => unknown>(
      () => (resin.lowestDegC = whole(60, 160) / 10),
      () => (resin.highestDegC = whole(240, 350) / 10),
      () => (resin.largestBatchMl = whole(200, 4000)),
      () => (resin.workingTime.minutes = whole(30, 120)),
    )();
  },
  (shop, _plan, _now, { pick, whole, maybe }) => {
    const recipe = pick(...shop.recipes);
    const layer = pick(...recipe.layers);
    pick<() => unknown>(
      () => (layer.pour = { minutes: whole(2, 12), minutesPerM2: 0, hands: 1 }),
      () => (layer.mixMinutes = whole(1, 9)),
      () =>
        (layer.bubblePasses = maybe(50)
          ? []
          : [{ fromMinutes: whole(0, 10), toMinutes: whole(10, 40), minutes: whole(1, 6) }]),
      () =>
        (recipe.finish = maybe(50)
          ? undefined
          : { work: { minutes: whole(5, 60), minutesPerM2: 0, hands: 1 }, split: maybe(50) }),
      () =>
        (recipe.sand = {
          work: { minutes: whole(5, 90), minutesPerM2: 0, hands: 1 },
          split: maybe(50),
          dust: maybe(80),
        }),
      () => (recipe.coats = (recipe.coats ?? []).slice(1)),
    )();
  },
  // Benches and tools.
  (shop, _plan, _now, { pick, whole }) => {
    const bench = pick(...shop.benches);
    if (bench.spots !== undefined) bench.spots = whole(1, 4);
    else bench.areaCm2 = whole(5000, 16000);
  },
  (shop, _plan, _now, { pick, whole }) => {
    shop.benches = [
      ...shop.benches,
      {
        id: `bench-${shop.benches.length + 1}`,
        name: 'Another',
        room: pick(...shop.rooms).id,
        spots: whole(1, 3),
      },
    ];
  },
  // Orders.
  (shop, _plan, now, { pick, whole }) => {
    const piece = pick(...shop.pieces) as Piece;
    pick<() => unknown>(
      () => (piece.due = isoOf(now + whole(0, 9 * 1440))),
      () => (piece.weight = whole(1, 9)),
      () => (piece.earliest = isoOf(now + whole(0, 2880))),
      () => (piece.forms = [pick(...shop.forms).id]),
      () => (piece.recipe = pick(...shop.recipes).id),
      () => (piece.size = { lengthMm: whole(200, 600), widthMm: whole(100, 400) }),
    )();
  },
  (shop, _plan, now, { pick, whole }) => {
    const { recipe, size } = pick(...shop.pieces);
    const id = `piece-${shop.pieces.length + 1}`;
    if (shop.pieces.some((piece) => piece.id === id)) return;
    shop.pieces = [...shop.pieces, { id, name: id, recipe, size, due: isoOf(now + whole(1440, 9 * 1440)) }];
  },
  (shop, _plan, _now, { pick }) => {
    const gone = pick(...shop.pieces);
    if (shop.pieces.length > 1) shop.pieces = shop.pieces.filter((piece) => piece !== gone);
  },
  (shop, _plan, _now, { pick }) => {
    const piece = pick(...shop.pieces) as Piece;
    piece.actuals = piece.actuals.slice(0, -1);
    piece.touchTests = [];
  },
];
