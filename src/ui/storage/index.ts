/** What this device keeps between visits. Only texts: whoever reads one parses it like any foreign file. */
import { getMany, setMany } from 'idb-keyval';

const SHOP = 'pourwright.shop';
const PLAN = 'pourwright.plan';
const VIEW = 'pourwright.view';
const EXAMPLE = 'pourwright.example';

export interface Kept {
  readonly shop: string | null;
  readonly plan: string | null;
  readonly view: string | null;
  /** The shop is an example that nobody has touched yet. */
  readonly isExample: boolean;
}

const asText = (value: unknown): string | null => (typeof value === 'string' ? value : null);

/** Everything kept, in one transaction; rejects when the browser refuses storage. */
export const readKept = async (): Promise<Kept> => {
  const [shop, plan, view, example] = await getMany<unknown>([SHOP, PLAN, VIEW, EXAMPLE]);
  return { shop: asText(shop), plan: asText(plan), view: asText(view), isExample: example === true };
};

/** Keeps shop and plan together, so that a reload never meets one without the other. */
export const keepShop = async (shop: string, plan: string | null, isExample: boolean): Promise<void> => {
  await setMany([
    [SHOP, shop],
    [PLAN, plan],
    [EXAMPLE, isExample],
  ]);
};

export const keepView = async (view: string): Promise<void> => {
  await setMany([[VIEW, view]]);
};
