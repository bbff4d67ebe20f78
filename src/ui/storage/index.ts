/** What this device keeps between visits. Only texts: whoever reads one parses it like any foreign file. */
import { get, getMany, setMany } from 'idb-keyval';

const SHOP = 'pourwright.shop';
const PLAN = 'pourwright.plan';
const VIEW = 'pourwright.view';
const EXAMPLE = 'pourwright.example';
const LINE = 'pourwright.line';
const STATE = 'pourwright.state';

/** States of the shop that are kept for undo and redo, the present one among them; each takes the place of one so many before it. */
export const KEPT_STATES = 60;

export interface Kept {
  readonly shop: string | null;
  readonly plan: string | null;
  readonly view: string | null;
  /** The shop is an example that nobody has touched yet. */
  readonly isExample: boolean;
  /** What was changed, in words, before and after the shop as it is. */
  readonly line: string | null;
}

/** Which state of the shop, counted from its first, and what led to it. */
export interface StateName {
  readonly position: number;
  readonly says: string;
}

const asText = (value: unknown): string | null => (typeof value === 'string' ? value : null);

/** Everything kept but the shop's other states, in one transaction; rejects when the browser refuses storage. */
export const readKept = async (): Promise<Kept> => {
  const [shop, plan, view, example, line] = await getMany<unknown>([SHOP, PLAN, VIEW, EXAMPLE, LINE]);
  return {
    shop: asText(shop),
    plan: asText(plan),
    view: asText(view),
    isExample: example === true,
    line: asText(line),
  };
};

/** Keeps the shop with its plan and its line of states, so that a reload never meets one without the other. */
export const keepShop = async (
  shop: string,
  plan: string | null,
  isExample: boolean,
  line: string,
  { position, says }: StateName,
): Promise<void> => {
  await setMany([
    [SHOP, shop],
    [PLAN, plan],
    [EXAMPLE, isExample],
    [LINE, line],
    [placeOf(position), { position, says, shop }],
  ]);
};

/** The text of another state of the shop; null when this device does not keep it (any more). */
export const readState = async ({ position, says }: StateName): Promise<string | null> => {
  const found: unknown = await get(placeOf(position));
  if (typeof found !== 'object' || found === null || !('shop' in found)) return null;
  // Another page of this browser may have written here since.
  const isMeant =
    'position' in found && found.position === position && 'says' in found && found.says === says;
  return isMeant ? asText(found.shop) : null;
};

const placeOf = (position: number): string => `${STATE}.${position % KEPT_STATES}`;

export const keepView = async (view: string): Promise<void> => {
  await setMany([[VIEW, view]]);
};
