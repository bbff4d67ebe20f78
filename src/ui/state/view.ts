/** How the shop is looked at: stretch of time, what is picked, light or dark. Nothing here is part of the shop. */
import { createSignal, type Accessor } from 'solid-js';
import type { Minute } from '../clock/index.ts';

export interface Picked {
  readonly piece: string;
  readonly step: string;
}

export type Theme = 'system' | 'light' | 'dark';

export interface View {
  /** Left edge of the Forms picture; null until the picture has chosen one. */
  readonly from: Accessor<Minute | null>;
  readonly minutesPerPixel: Accessor<number | null>;
  look(from: Minute, minutesPerPixel: number): void;
  readonly picked: Accessor<Picked | null>;
  pick(picked: Picked | null): void;
  readonly theme: Accessor<Theme>;
  setTheme(theme: Theme): void;
}

export const makeView = (keep: (text: string) => void): View => {
  const [from, setFrom] = createSignal<Minute | null>(null);
  const [minutesPerPixel, setMinutesPerPixel] = createSignal<number | null>(null);
  const [picked, pick] = createSignal<Picked | null>(null);
  const [theme, setTheme] = createSignal<Theme>('system');
  return {
    from,
    minutesPerPixel,
    look(nextFrom, nextScale) {
      setFrom(nextFrom);
      setMinutesPerPixel(nextScale);
    },
    picked,
    pick,
    theme,
    setTheme(next) {
      setTheme(next);
      keep(JSON.stringify({ theme: next }));
    },
  };
};

/** The theme in a kept view; "system" when there is none or it cannot be read. */
export const keptTheme = (text: string | null): Theme => {
  if (text === null) return 'system';
  try {
    const read: unknown = JSON.parse(text);
    const theme = typeof read === 'object' && read !== null && 'theme' in read ? read.theme : 'system';
    return theme === 'light' || theme === 'dark' ? theme : 'system';
  } catch {
    return 'system';
  }
};
