/** The shop that the program shows when it is started without one. */
import { join, relative } from 'node:path';
import { forTheWeekOf } from '../demo/index.ts';
import type { Shop } from '../engine/index.ts';
import { PACKAGE_ROOT } from './app.ts';
import { readShopText, shopOf } from './files.ts';
import type { Terminal } from './terminal.ts';

const DEMO_FILE = join(PACKAGE_ROOT, 'examples', 'market-week.shop.json');

/** The same example that the app opens first, moved to the same week: that of `now` (an ISO moment). */
export const demoShop = (now: string, terminal: Terminal): Shop =>
  shopOf(forTheWeekOf(readShopText(DEMO_FILE), Date.parse(now)), relative(PACKAGE_ROOT, DEMO_FILE), terminal);
