/** The shop's lists, drawings and beginnings, without a screen. */
export {
  freshForm,
  freshHours,
  freshLayer,
  freshPerson,
  freshRecipe,
  freshResin,
  freshRoom,
  freshWork,
} from './fresh.ts';
