/** A tool serves as many pieces at a time as there are of it, in the room where it stands. */
import { brokenAt, isPast, nameOf } from '../evidence.ts';
import type { Broken, Evidence, Timed } from '../evidence.ts';

const RULE = 'tool';

export function tool(evidence: Evidence): Broken[] {
  const broken: Broken[] = [];
  const users = new Map<string, Timed[]>();
  for (const { recipe, byId } of evidence.pieces) {
    for (const kind of ['flatten', 'sand'] as const) {
      const timed = byId.get(kind);
      const needed = recipe[kind]?.tool;
      if (!timed) continue;
      if (needed !== undefined) users.set(needed, [...(users.get(needed) ?? []), timed]);
      if (isPast(timed)) continue;
      const { tool: said, room } = timed.step;
      const place = evidence.shop.tools.find((each) => each.id === needed);
      const wrong = (text: string): void =>
        void broken.push(brokenAt(RULE, timed, `${nameOf(timed)} ${text}`));
      if (said !== needed) wrong(`uses ${said ?? 'no tool'}; the recipe asks for ${needed ?? 'none'}.`);
      if (place && place.room !== room) wrong(`is in ${room}; ${needed} stands in ${place.room}.`);
    }
  }
  for (const each of evidence.shop.tools) {
    const uses = (users.get(each.id) ?? []).sort((a, b) => a.start - b.start);
    for (const use of uses) {
      const others = uses.filter(
        (other) => other !== use && other.start <= use.start && use.start < other.end,
      );
      if (others.length < each.count || others.every((other) => isPast(other, use))) continue;
      const names = others.map((other) => nameOf(other)).join(', ');
      const text = `${nameOf(use)} starts ${evidence.say(use.start)}, while ${each.name} is used for ${names}.`;
      broken.push(brokenAt(RULE, use, text));
    }
  }
  return broken;
}
