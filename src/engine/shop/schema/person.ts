/** The people of the shop, their hours and what they can do. */
import * as v from 'valibot';
import { id, recurringHours, text, timeOff } from './basics.ts';

export const skill = v.picklist(
  ['prepare', 'pour', 'demold', 'flatten', 'sand', 'finish'],
  'must be one of "prepare", "pour", "demold", "flatten", "sand", "finish"',
);

export const person = v.strictObject({
  id,
  name: text,
  hours: v.pipe(v.array(recurringHours), v.minLength(1, 'must hold at least one line of hours')),
  off: v.optional(v.array(timeOff), []),
  /** Hours that count as work hours but are not loved: the plan avoids them where it costs nothing else. */
  unloved: v.optional(v.array(recurringHours), []),
  can: v.optional(v.array(skill), ['prepare', 'pour', 'demold', 'flatten', 'sand', 'finish']),
});
