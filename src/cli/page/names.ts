/** What the maker called things, by id. */
import type { Shop } from '../../engine/index.ts';

export interface Names {
  piece(id: string): string;
  person(id: string): string;
  /** With its number where the form is one of several alike: `Long form 2`. */
  form(id: string, unit?: number): string;
  warmBox(id: string): string;
  tool(id: string): string;
  resin(id: string): string;
  readonly severalPeople: boolean;
}

interface Named {
  readonly id: string;
  readonly name: string;
}

export function namesOf(shop: Shop): Names {
  const by = (things: readonly Named[]) => {
    const names = new Map(things.map(({ id, name }) => [id, name]));
    return (id: string) => names.get(id) ?? id;
  };
  const form = by(shop.forms);
  const several = new Set(shop.forms.filter(({ count }) => count > 1).map(({ id }) => id));
  return {
    piece: by(shop.pieces),
    person: by(shop.people),
    form: (id, unit) => (unit !== undefined && several.has(id) ? `${form(id)} ${unit}` : form(id)),
    warmBox: by(shop.warmBoxes),
    tool: by(shop.tools),
    resin: by(shop.resins),
    severalPeople: shop.people.length > 1,
  };
}
