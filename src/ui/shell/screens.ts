/** The screens, in the order in which they are offered. Adding one is adding a line. */
import { lazy, type Component } from 'solid-js';

export interface Screen {
  /** Its address after the `#`. */
  readonly path: string;
  readonly name: string;
  /** An SVG path on a 24 by 24 board, drawn in strokes. */
  readonly mark: string;
  /** Fetches what it is made of; again costs nothing once that is there. */
  readonly load: () => Promise<{ readonly default: Component }>;
  readonly view: Component;
}

const OFFERED: readonly Omit<Screen, 'view'>[] = [
  {
    path: '/today',
    name: 'Today',
    mark: 'M12 3a9 9 0 1 0 .01 0zM12 7v5l4 2',
    load: async () => ({ default: (await import('../today/index.ts')).TodayScreen }),
  },
  {
    path: '/forms',
    name: 'Forms',
    mark: 'M3 5v14h18V5M3 15h18M3 11h11',
    load: async () => ({ default: (await import('../forms/index.ts')).FormsScreen }),
  },
  {
    path: '/week',
    name: 'Week',
    mark: 'M4 5h16v15H4zM4 10h16M9 10v10M15 10v10M8 3v4M16 3v4',
    load: async () => ({ default: (await import('../week/index.ts')).WeekScreen }),
  },
  {
    path: '/pieces',
    name: 'Pieces',
    mark: 'M4 8h16v4H4zM4 12h16v4H4zM7 4h10v4M9 20h6',
    load: async () => ({ default: (await import('../pieces/index.ts')).PiecesScreen }),
  },
  {
    path: '/paper',
    name: 'Paper',
    mark: 'M6 3h9l4 4v14H6zM15 3v4h4M9 12h7M9 16h7',
    load: async () => ({ default: (await import('../paper/index.ts')).PaperScreen }),
  },
  {
    path: '/shop',
    name: 'Shop',
    mark: 'M3 21V9l9-5 9 5v12M8 21v-7h8v7',
    load: async () => ({ default: (await import('../shop/index.ts')).ShopScreen }),
  },
];

export const SCREENS: readonly Screen[] = OFFERED.map((screen) => ({ ...screen, view: lazy(screen.load) }));

/** What an empty address shows. */
export const FIRST_SCREEN = '/forms';
