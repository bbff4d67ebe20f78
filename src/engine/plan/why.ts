/** What holds a step where it is: the chain back to its cause, one sentence a link. */
import type { Blocker } from '../schedule/index.ts';
import type { Shop } from '../shop/index.ts';
import { formatMoment } from '../time/index.ts';
import { stepWords } from '../routing/index.ts';
import type { PieceRoute, RoutedBlock } from '../routing/index.ts';
import type { Plan } from './document.ts';
import { obstacles, whenWords } from './obstacles.ts';
import type { Obstacle } from './obstacles.ts';
import { findBlock } from './places.ts';
import { isPresent } from './reading.ts';
import { revive } from './revived.ts';
import type { Answered } from './answered.ts';

const LONGEST_CHAIN = 16;

interface Link {
  readonly route: PieceRoute;
  readonly routed: RoutedBlock;
}

const byStart = ({ pieces }: Answered, start: number): Link | undefined => {
  for (const route of pieces) {
    const routed = route.blocks.find((b) => b.start === start);
    if (routed) return { route, routed };
  }
  return undefined;
};

/** The last minute before `minute` at which the step's calendars allow it to begin. */
function calendarBefore({ model }: Answered, start: number, minute: number): number {
  let latest = minute - 1;
  for (let changed = true; changed;) {
    changed = false;
    for (const { start: of, allowed, when } of model.openings) {
      if (of !== start || (when?.length ?? 0) > 0) continue;
      let before = -1;
      for (let i = 0; i < allowed.length && allowed[i] <= latest; i += 2)
        before = Math.min(latest, allowed[i + 1] - 1);
      if (before < latest) {
        latest = before;
        changed = true;
      }
    }
  }
  return latest;
}

/**
 * The sentences, from the step back to what nothing of the plan can change.
 * @throws RangeError for a piece or step that the plan does not have
 */
export function whyStep(shop: Shop, plan: Plan, piece: string, step: string): readonly string[] {
  const revived = revive(shop, plan);
  const { ground, model, answer } = revived;
  const lines: string[] = [];
  const seen = new Set<number>();
  let link: Link | undefined = findBlock(revived, piece, step);
  if (!isPresent(answer, link.routed))
    return [`${stepWords(step)} is not needed: what is below is met inside its window`];
  while (link && lines.length < LONGEST_CHAIN && !seen.has(link.routed.start)) {
    const { route, routed }: Link = link;
    const { start } = routed;
    seen.add(start);
    const at = answer.starts[start];
    const name = `${route.itinerary.piece.name}, ${stepWords(routed.block.id)}`;
    const when = formatMoment(ground.clock, at);
    if (routed.past) {
      lines.push(`${name}: ${routed.past.state} since ${when}. What has happened does not move`);
      break;
    }
    const oracle = revived.oracle();
    const before = (minute: number): readonly Blocker[] =>
      telling(revived, oracle.blockers(start, minute), start);
    let blockers = before(at - 1);
    let tried = at - 1;
    const said = words(obstacles(revived, plan, link, blockers, tried, model));
    if (blockers.length > 0 && blockers.every((b) => b.kind === 'opening')) {
      tried = calendarBefore(revived, start, at);
      blockers = tried < 0 ? [] : before(tried);
      const earlier = obstacles(revived, plan, link, blockers, tried, model).filter(
        (o) => o.kind !== 'hours',
      );
      if (earlier.length > 0) {
        said.push(`at ${whenWords(ground.clock, tried, at)}, the time before that, ${earlier[0].text}`);
      }
    }
    lines.push(
      said.length > 0
        ? `${name}: ${when}. Not earlier: ${said.join('; ')}`
        : `${name}: ${when}. Nothing forbids it earlier; it is here for the sake of the whole plan`,
    );
    link = nextLink(revived, blockers, start);
  }
  return lines;
}

/** The most telling obstacle of each kind. */
const words = (found: readonly Obstacle[]): string[] =>
  found.filter((o, i) => found.findIndex((other) => other.kind === o.kind) === i).map((o) => o.text);

/** Without the bounds that its own followers set, unless nothing else speaks: they would come along. */
function telling({ model }: Answered, blockers: readonly Blocker[], start: number): readonly Blocker[] {
  const others = blockers.filter((b) => b.kind !== 'lag' || model.lags[b.index].to === start);
  return others.length > 0 ? others : blockers;
}

/** The step behind the first blocker that has one: the other end of a lag, or whoever uses the thing until then. */
function nextLink(revived: Answered, blockers: readonly Blocker[], start: number): Link | undefined {
  for (const { kind, others } of blockers) {
    if (kind === 'opening' || kind === 'domain') continue;
    for (const other of others) {
      const link = other === start ? undefined : byStart(revived, other);
      if (link) return link;
    }
  }
  return undefined;
}
