/** What is setting: the last application of every piece that cures, and what it waits for. */
import type { Plan } from '../../engine/plan/document.ts';
import type { Shop } from '../../engine/shop/index.ts';
import { minuteOf, type Minute } from '../clock/index.ts';
import type { ApplicationCure } from '../engine/index.ts';

export type Surface = 'wet' | 'tacky' | 'hard';

export interface Setting {
  readonly piece: string;
  readonly pieceName: string;
  /** The apply step. */
  readonly step: string;
  readonly applied: Minute;
  readonly opens: Minute | null;
  readonly closes: Minute | null;
  /** A finger found it hard, which has shut its window. */
  readonly isFoundHard: boolean;
  readonly surface: Surface;
  /** Whether another application goes over this one, so that its window matters. */
  readonly isAwaited: boolean;
  /** The next thing that cure allows, with its moment; null: nothing more, or never as the air is. */
  readonly next: { readonly what: 'demold' | 'machine' | 'finish'; readonly at: Minute } | null;
  /** Cure stands still now, for it is too cold. */
  readonly isStalled: boolean;
}

export const settingOf = (
  shop: Shop,
  plan: Plan,
  cures: readonly ApplicationCure[],
  now: Minute,
): readonly Setting[] => {
  const last = new Map<string, ApplicationCure>();
  const begun = new Set(
    plan.steps.filter((step) => step.state !== 'planned').map((step) => `${step.piece}/${step.step}`),
  );
  for (const cure of cures) {
    if (!begun.has(`${cure.piece}/${cure.step}`) || minuteOf(cure.applied) > now) continue;
    const known = last.get(cure.piece);
    if (!known || minuteOf(known.applied) <= minuteOf(cure.applied)) last.set(cure.piece, cure);
  }
  return [...last.values()]
    .flatMap((cure) => {
      const setting = oneSetting(shop, plan, cure, now);
      return setting ? [setting] : [];
    })
    .sort((a, b) => soonest(a, now) - soonest(b, now));
};

const soonest = (setting: Setting, now: Minute): Minute => {
  const { opens, closes, next, isAwaited } = setting;
  if (isAwaited && opens !== null && opens > now) return opens;
  if (isAwaited && closes !== null && closes > now) return closes;
  return next?.at ?? Number.MAX_SAFE_INTEGER;
};

const oneSetting = (shop: Shop, plan: Plan, cure: ApplicationCure, now: Minute): Setting | null => {
  const steps = plan.steps.filter((step) => step.piece === cure.piece);
  const isDone = (kind: string): boolean => steps.some((step) => step.kind === kind && step.state === 'done');
  if (isDone('finish') || isDone('ready')) return null;
  const opens = read(cure.opens);
  const closes = read(cure.closes);
  const piece = shop.pieces.find((one) => one.id === cure.piece);
  const surface: Surface = cure.isFoundHard
    ? 'hard'
    : opens === null || now < opens
      ? 'wet'
      : closes === null || now <= closes
        ? 'tacky'
        : 'hard';
  const next = steps.find(
    ({ kind, state }) => (kind === 'pour' || kind === 'coat' || kind === 'seal') && state === 'planned',
  );
  // What goes on over another says how that one is met.
  const isAwaited = next?.way !== undefined;
  const demold = read(cure.demold);
  const machinable = read(cure.machinable);
  const fullCure = read(cure.fullCure);
  const inForm = steps.some((step) => step.kind === 'demold' && step.state !== 'done');
  const toMachine = steps.some(
    (step) => (step.kind === 'flatten' || step.kind === 'sand') && step.state !== 'done',
  );
  const allowed =
    inForm && demold !== null
      ? ({ what: 'demold', at: demold } as const)
      : toMachine && machinable !== null
        ? ({ what: 'machine', at: machinable } as const)
        : fullCure !== null
          ? ({ what: 'finish', at: fullCure } as const)
          : null;
  return {
    piece: cure.piece,
    pieceName: piece?.name ?? cure.piece,
    step: cure.step,
    applied: minuteOf(cure.applied),
    opens,
    closes,
    isFoundHard: cure.isFoundHard,
    surface,
    isAwaited,
    next: allowed,
    isStalled: cure.stalls.some((stall) => minuteOf(stall.from) <= now && now < minuteOf(stall.to)),
  };
};

const read = (iso: string | null): Minute | null => (iso === null ? null : minuteOf(iso));
