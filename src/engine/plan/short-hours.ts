/**
 * Steps for which nobody's hours ever suffice, whatever else moves. The scheduler proves as much, but by any rule that
 * fails; here it is told whose hours they are, how long the step takes and what would be right.
 */
import { stepWords } from '../routing/index.ts';
import type { Crew, Ground, PieceRoute, RoutedBlock } from '../routing/index.ts';
import { clip, formatDay, formatDuration, totalMinutes } from '../time/index.ts';
import type { Intervals } from '../time/index.ts';

/** So many pieces are named of those that share a line. */
const NAMED = 3;

/** The longest stretch without a break, minutes. */
function longestStretch(open: Intervals): number {
  let longest = 0;
  for (let i = 0; i < open.length; i += 2) longest = Math.max(longest, open[i + 1] - open[i]);
  return longest;
}

/** A line each, such as "Wren - preparing takes 1 h …"; pieces that lack the same share one. Empty when hours suffice for each step by itself. */
export function shortHours(ground: Ground, routes: readonly PieceRoute[]): string[] {
  const piecesOf = new Map<string, string[]>();
  for (const route of routes) {
    const { name } = route.itinerary.piece;
    for (const routed of route.blocks) {
      const text = shortage(ground, route, routed);
      if (text !== null) piecesOf.set(text, [...(piecesOf.get(text) ?? []), name]);
    }
  }
  return [...piecesOf].map(([text, names]) => {
    const more = names.length > NAMED ? ` and ${names.length - NAMED} more` : '';
    return `${names.slice(0, NAMED).join(', ')}${more} - ${text}`;
  });
}

function shortage(
  ground: Ground,
  { forms }: PieceRoute,
  { block, past, present, crews }: RoutedBlock,
): string | null {
  if (past || present.length > 0 || crews.length === 0) return null;
  // What fits no form is to be told of that.
  if (forms.length === 0 && block.kind === 'turnaround') return null;
  const needed =
    block.kind === 'turnaround'
      ? Math.min(...forms.map(({ value }) => value.turnaroundMinutes))
      : block.minutes;
  const minutesOf = ({ open }: Crew): number => {
    const ahead = clip(open, ground.now, ground.horizon);
    return block.split ? totalMinutes(ahead) : longestStretch(ahead);
  };
  let best = crews[0].value;
  for (const { value } of crews) if (minutesOf(value) > minutesOf(best)) best = value;
  const most = minutesOf(best);
  if (most >= needed) return null;
  const mixing = (block.application?.mixMinutes ?? 0) > 0 ? ' with its mixing' : '';
  const takes = `${stepWords(block.id)}${mixing} takes ${formatDuration(needed)} ${block.split ? 'in all' : 'at a stretch'}`;
  const end = formatDay(ground.clock, ground.horizon);
  return `${takes}, ${presence(best, crews.length, most, block.split ? end : null)}; right would be ${remedy(block.hands, block.split)}`;
}

/** @param until for work in parts: the day up to which minutes are counted */
function presence({ people }: Crew, crews: number, most: number, until: string | null): string {
  const names = people.map(({ name }) => name).join(' and ');
  const among = crews > 1 ? 'of those who can do it ' : '';
  const are = people.length > 1 ? 'are' : 'is';
  const together = people.length > 1 ? ' together' : '';
  if (most === 0)
    return people.length > 1 ? `and ${names} are never there together` : `and ${names} is never there`;
  const least = crews > 1 ? ' and no one longer' : '';
  return until === null
    ? `and ${among}${names} ${are} there${together} for ${formatDuration(most)} at most${least}`
    : `and ${among}${names} ${are} there${together} for ${formatDuration(most)} until ${until}${least}`;
}

const remedy = (hands: number, split: boolean): string =>
  [
    hands > 1 ? 'hours that they share' : 'longer hours',
    split ? 'less work' : 'less work at a time',
    hands > 1 ? 'or others who can do it' : 'or someone else who can do it',
  ].join(', ');
