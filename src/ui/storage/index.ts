/** What this device keeps between visits. Only texts: whoever reads one parses it like any foreign file. */
import { delMany, getMany, setMany } from 'idb-keyval';

const SHOP = 'pourwright.shop';
const PLAN = 'pourwright.plan';
const VIEW = 'pourwright.view';

export interface Kept {
  readonly shop: string | null;
  readonly plan: string | null;
  readonly view: string | null;
}

const asText = (value: unknown): string | null => (typeof value === 'string' ? value : null);

/** Everything kept, in one transaction; rejects when the browser refuses storage. */
export const readKept = async (): Promise<Kept> => {
  const [shop, plan, view] = await getMany<unknown>([SHOP, PLAN, VIEW]);
  return { shop: asText(shop), plan: asText(plan), view: asText(view) };
};

/** Keeps shop and plan together, so that a reload never meets one without the other. */
export const keepShop = async (shop: string, plan: string | null): Promise<void> => {
  await setMany([
    [SHOP, shop],
    [PLAN, plan],
  ]);
};

export const keepView = async (view: string): Promise<void> => {
  await setMany([[VIEW, view]]);
};

export const forgetAll = async (): Promise<void> => {
  await delMany([SHOP, PLAN, VIEW]);
};
