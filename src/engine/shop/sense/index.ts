/** Whether what stands in the shop file makes sense: each file here judges one part of it. */
import type { Draft } from '../draft.ts';
import { judgeCalendar } from './calendar.ts';
import { judgePeople } from './people.ts';
import { judgePieces } from './pieces.ts';
import { judgePlaces } from './places.ts';
import { judgeRecipes } from './recipes.ts';
import { judgeResins } from './resins.ts';
import type { Verdict } from './verdict.ts';

export function judge(draft: Draft, verdict: Verdict): void {
  judgeCalendar(draft, verdict);
  judgePeople(draft, verdict);
  judgePlaces(draft, verdict);
  judgeResins(draft, verdict);
  judgeRecipes(draft, verdict);
  judgePieces(draft, verdict);
}
