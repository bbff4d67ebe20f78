/** One line or two for each entry of the shop, as it stands on the screen. */
import type { Bench, Form, Person, Recipe, Resin, Shop, Tool, WarmBox } from '../../../engine/shop/index.ts';
import { durationText } from '../../clock/index.ts';
import { volumeText } from '../../words/index.ts';
import { measureText, sizeText } from '../../fields/index.ts';
import { andList, hoursText, offText, weeklyMinutes } from '../hours/index.ts';

type Units = Shop['units'];
type Space = Pick<Bench, 'areaCm2' | 'spots'>;

const roomName = (shop: Shop, id: string): string => shop.rooms.find((room) => room.id === id)?.name ?? id;

/** `3 spots`, `6500 cm²`. */
const spaceText = ({ areaCm2, spots }: Space, units: Units): string => {
  if (areaCm2 !== undefined) return measureText(areaCm2, 'area', units);
  return spots === 1 ? 'one spot' : `${spots ?? 0} spots`;
};

export const formLines = (form: Form, units: Units): readonly string[] => [
  `${sizeText(form.inside, units)} inside, ${measureText(form.inside.depthMm, 'depth', units)} deep`,
  `${form.count === 1 ? 'one of them' : `${form.count} alike`}; ${durationText(form.turnaroundMinutes)} to clean`,
];

export const benchLines = (bench: Bench, shop: Shop): readonly string[] => [
  `${spaceText(bench, shop.units)} in ${roomName(shop, bench.room)}`,
];

export const warmBoxLines = (box: WarmBox, shop: Shop): readonly string[] => [
  `kept at ${measureText(box.setDegC, 'warmth', shop.units)}, ${spaceText(box, shop.units)} in ${roomName(shop, box.room)}`,
];

export const toolLines = (tool: Tool, shop: Shop): readonly string[] => [
  `${tool.count === 1 ? 'one' : tool.count} in ${roomName(shop, tool.room)}`,
];

/** Hours line by line, the week's sum where there is one, and the next days off from `today` on. */
export const personLines = (person: Person, today: string): readonly string[] => {
  const sum = weeklyMinutes(person.hours);
  return [
    ...person.hours.map(hoursText),
    ...(sum === null || person.hours.length === 0 ? [] : [`${durationHours(sum)} a week`]),
    ...person.off.filter(({ to }) => to.slice(0, 10) >= today).map((off) => `away ${offText(off)}`),
  ];
};

const durationHours = (minutes: number): string => `${Math.round(minutes / 6) / 10} h`;

export const resinLines = (resin: Resin, units: Units): readonly string[] => [
  `window ${durationText(resin.tackOpensMinutes)} to ${durationText(resin.tackClosesMinutes)} after the pour at ${measureText(resin.referenceDegC, 'warmth', units)}`,
  `A : B ${resin.mix.a} : ${resin.mix.b} by ${resin.mix.by === 'mass' ? 'weight' : 'volume'}; pours ${measureText(resin.smallestDepthMm, 'depth', units)} to ${measureText(resin.largestDepthMm, 'depth', units)} deep`,
  ...(resin.stock ? [`${volumeText(resin.stock.ml, units)} in stock`] : []),
];

export const recipeLines = (recipe: Recipe): readonly string[] => {
  const after = [
    ...(recipe.flatten ? ['flattened'] : []),
    ...(recipe.sand ? ['sanded'] : []),
    ...(recipe.coats.length === 0
      ? []
      : [recipe.coats.length === 1 ? 'one coat' : `${recipe.coats.length} coats`]),
    ...(recipe.finish ? ['finished by hand'] : []),
  ];
  return [after.length === 0 ? 'ready when it is out of the form' : andList(after)];
};
