/** What stands in the way of a start, in words that hold at the bench. */
import type { Blocker, Model } from '../schedule/index.ts';
import type { Crew, PieceRoute, Reason, RoutedBlock } from '../routing/index.ts';
import { formatMoment, formatTime, localParts, toMinute } from '../time/index.ts';
import type { Clock } from '../time/index.ts';
import type { Plan, PlanStep } from './document.ts';
import type { Answered } from './answered.ts';

/** What stands in the way of a start; `text` is shown as it is. */
export interface Obstacle {
  readonly kind:
    | 'window'
    | 'order'
    | 'cure'
    | 'hours'
    | 'hands'
    | 'form'
    | 'bench'
    | 'warm-box'
    | 'tool'
    | 'dust'
    | 'air'
    | 'working-time'
    | 'past'
    | 'pin';
  readonly text: string;
  /** Pieces that would have to move, when others stand in the way. */
  readonly others: readonly string[];
}

const KINDS: Readonly<Record<string, Obstacle['kind']>> = {
  order: 'order',
  bubbles: 'order',
  hours: 'hours',
  hands: 'hands',
  window: 'window',
  margin: 'window',
  unloved: 'hours',
  scuff: 'cure',
  cure: 'cure',
  air: 'air',
  form: 'form',
  fit: 'form',
  bench: 'bench',
  'warm-box': 'warm-box',
  tool: 'tool',
  dust: 'dust',
  pin: 'pin',
  actuals: 'past',
  earliest: 'past',
  time: 'past',
};

/** What tells most comes first. */
const TELLING: readonly Obstacle['kind'][] = [
  'past',
  'pin',
  'window',
  'cure',
  'order',
  'form',
  'bench',
  'warm-box',
  'tool',
  'dust',
  'hands',
  'air',
  'working-time',
  'hours',
];

/** "14:20" on the same day, else "Thu 26 Nov 14:20". */
export function whenWords(clock: Clock, minute: number, seenFrom: number): string {
  const sameDay = localParts(clock, minute).date === localParts(clock, seenFrom).date;
  return sameDay ? formatTime(clock, minute) : formatMoment(clock, minute);
}

interface Here {
  readonly route: PieceRoute;
  readonly routed: RoutedBlock;
  /** Who would do it; those of the plan when nobody else is named. */
  readonly crew?: Crew;
}

/** Steps of other pieces that overlap `[from, to)` and match. */
function stepsInTheWay(
  { ground }: Answered,
  plan: Plan,
  piece: string,
  from: number,
  to: number,
  matches: (step: PlanStep) => boolean,
): readonly PlanStep[] {
  const minute = (iso: string): number => toMinute(ground.clock, iso);
  return plan.steps.filter(
    (s) => s.piece !== piece && matches(s) && minute(s.start) < to && minute(s.end) > from,
  );
}

/** Holds of the same thing by other pieces at that moment: who, and until when. */
function holdersOf({ ground }: Answered, plan: Plan, piece: string, what: string, id: string, at: number) {
  const minute = (iso: string): number => toMinute(ground.clock, iso);
  const holds = plan.holds.filter(
    (h) => h.what === what && h.id === id && h.piece !== piece && minute(h.from) <= at && minute(h.to) > at,
  );
  return { pieces: holds.map((h) => h.piece), until: Math.min(...holds.map((h) => minute(h.to))) };
}

function lagText(
  revived: Answered,
  model: Model,
  blocker: Blocker,
  here: Here,
  reason: Reason,
  at: number,
): string {
  const { ground, answer } = revived;
  const lag = model.lags[blocker.index];
  const offset = here.routed.block.application?.mixMinutes ?? 0;
  if (lag.to !== here.routed.start) return reason.text;
  const bound = lag.map.at(answer.starts[lag.from]);
  const when = (minute: number): string => whenWords(ground.clock, minute, at);
  if (reason.rule === 'window' || reason.rule === 'margin') {
    const length = here.routed.block.application?.applyMinutes ?? 0;
    const whose = reason.rule === 'margin' ? 'the best of the window' : 'window';
    return lag.kind === 'least'
      ? `${whose} opens ${when(bound + offset)}`
      : `${whose} closes ${when(bound + offset + length)}`;
  }
  if (reason.rule === 'order') return `${reason.text}, done ${when(bound)}`;
  return lag.kind === 'least'
    ? `${reason.text}: from ${when(bound)}`
    : `${reason.text}: until ${when(bound)}`;
}

function resourceObstacle(revived: Answered, plan: Plan, here: Here, reason: Reason, at: number): Obstacle {
  const { ground } = revived;
  const { route, routed } = here;
  const piece = route.itinerary.piece.id;
  const end = at + Math.max(1, routed.block.minutes);
  const when = (minute: number): string => whenWords(ground.clock, minute, at);
  const nameOf = (id: string): string => ground.shop.pieces.find((p) => p.id === id)?.name ?? id;
  const kind = KINDS[reason.rule] ?? 'order';
  const own = plan.steps.find((s) => s.piece === piece && s.step === routed.block.steps[0].id);
  const crew = here.crew?.people.map(({ id }) => id) ?? own?.people ?? [];
  if (kind === 'hands' || kind === 'tool') {
    const busy = stepsInTheWay(revived, plan, piece, at, end, (s) =>
      kind === 'tool' ? s.tool === routed.block.tool : s.people.some((p) => crew.includes(p)),
    )[0];
    if (busy) {
      const until = when(toMinute(ground.clock, busy.end));
      const who =
        kind === 'tool'
          ? ground.shop.tools.find((t) => t.id === busy.tool)?.name
          : nameOfPerson(revived, busy, crew);
      return { kind, text: `${who} is on ${nameOf(busy.piece)} until ${until}`, others: [busy.piece] };
    }
  }
  if (kind === 'form' || kind === 'bench' || kind === 'warm-box') {
    const id = kind === 'form' ? own?.form?.id : kind === 'bench' ? own?.bench : own?.warmBox;
    const holders = id === undefined ? undefined : holdersOf(revived, plan, piece, kind, id, at);
    if (id !== undefined && holders && holders.pieces.length > 0) {
      const list = { form: ground.shop.forms, bench: ground.shop.benches, 'warm-box': ground.shop.warmBoxes }[
        kind
      ];
      const name = list.find((t) => t.id === id)?.name ?? id;
      return { kind, text: `${name} is full until ${when(holders.until)}`, others: holders.pieces };
    }
  }
  return { kind, text: reason.text, others: [] };
}

function nameOfPerson({ ground }: Answered, busy: PlanStep, crew: readonly string[]): string {
  const id = busy.people.find((p) => crew.includes(p)) ?? busy.people[0];
  return ground.shop.people.find((p) => p.id === id)?.name ?? id;
}

function openingText(
  revived: Answered,
  model: Model,
  blocker: Blocker,
  { routed }: Here,
  reason: Reason,
  at: number,
): string {
  const { allowed, when = [] } = model.openings[blocker.index];
  let next: number | undefined;
  for (let i = 0; i < allowed.length && next === undefined; i += 2) if (allowed[i] > at) next = allowed[i];
  const until = next === undefined ? '' : ` until ${whenWords(revived.ground.clock, next, at)}`;
  if (reason.rule === 'unloved') return `${reason.text}${until}`;
  if (reason.rule !== 'hours') return `${reason.text}: not${until}`;
  // The hours of those who are to do it; others may be there.
  const crew = routed.crews.find((each) => each.when.some((literal) => when.includes(literal)));
  if (!crew) return `nobody is there for it${until}`;
  const { people } = crew.value;
  const names = people.map(({ name }) => name).join(' and ');
  return `${names} ${people.length > 1 ? 'are' : 'is'} not there for it${until}`;
}

/** The blockers of a start in words, each said once. */
export function obstacles(
  revived: Answered,
  plan: Plan,
  here: Here,
  blockers: readonly Blocker[],
  at: number,
  model: Model,
): readonly Obstacle[] {
  const { reasons, ground } = revived;
  const found: Obstacle[] = [];
  for (const blocker of blockers) {
    const reason = blocker.reason === undefined ? undefined : reasons[blocker.reason];
    if (!reason) continue;
    const kind = KINDS[reason.rule] ?? 'order';
    // Where nobody is there at all, it does not matter who else is not.
    if (reason.rule === 'hours' && found.some((o) => o.kind === 'hours')) continue;
    let obstacle: Obstacle;
    if (blocker.kind === 'lag')
      obstacle = { kind, text: lagText(revived, model, blocker, here, reason, at), others: [] };
    else if (blocker.kind === 'opening')
      obstacle = { kind, text: openingText(revived, model, blocker, here, reason, at), others: [] };
    else if (blocker.kind === 'resource') obstacle = resourceObstacle(revived, plan, here, reason, at);
    else if (blocker.kind === 'exclusion') {
      const text = here.routed.block.dust
        ? 'a surface in the room is still open'
        : 'dust is in the air of the room';
      obstacle = { kind: 'dust', text, others: [] };
    } else obstacle = { kind, text: at < ground.now ? 'that time has passed' : reason.text, others: [] };
    if (!found.some((o) => o.text === obstacle.text)) found.push(obstacle);
  }
  return found.sort((a, b) => TELLING.indexOf(a.kind) - TELLING.indexOf(b.kind));
}
