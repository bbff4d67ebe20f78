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
  /** What was chosen. */
  readonly theme: Accessor<Theme>;
  /** Dark by choice, or as the device is now. */
  readonly isDark: Accessor<boolean>;
  setTheme(theme: Theme): void;
  /** Cautions read and put away for good; null until what this device keeps is known. */
  readonly putAway: Accessor<readonly string[] | null>;
  putAwayCaution(id: string): void;
  /** Takes over what this device kept. */
  restore(kept: KeptView): void;
}

export interface KeptView {
  readonly theme: Theme;
  readonly putAway: readonly string[];
}

/** @param device tells whether the device is dark, and when that changes */
export const makeView = (keep: (text: string) => void, device: MediaQueryList): View => {
  const [from, setFrom] = createSignal<Minute | null>(null);
  const [minutesPerPixel, setMinutesPerPixel] = createSignal<number | null>(null);
  const [picked, pick] = createSignal<Picked | null>(null);
  const [theme, setTheme] = createSignal<Theme>('system');
  const [putAway, setPutAway] = createSignal<readonly string[] | null>(null);
  const [isDeviceDark, setIsDeviceDark] = createSignal(device.matches);
  device.addEventListener('change', () => setIsDeviceDark(device.matches));
  const keepAll = (): void => keep(JSON.stringify({ theme: theme(), putAway: putAway() ?? [] }));
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
    isDark: () => (theme() === 'system' ? isDeviceDark() : theme() === 'dark'),
    setTheme(next) {
      setTheme(next);
      keepAll();
    },
    putAway,
    putAwayCaution(id) {
      setPutAway((known) => [...new Set([...(known ?? []), id])]);
      keepAll();
    },
    restore(kept) {
      setTheme(kept.theme);
      setPutAway(kept.putAway);
    },
  };
};

/** What a kept text says; as on a first visit where it says nothing that can be read. */
export const keptView = (text: string | null): KeptView => {
  const first: KeptView = { theme: 'system', putAway: [] };
  if (text === null) return first;
  try {
    const read: unknown = JSON.parse(text);
    if (typeof read !== 'object' || read === null) return first;
    const theme = 'theme' in read ? read.theme : null;
    const putAway = 'putAway' in read && Array.isArray(read.putAway) ? read.putAway : [];
    return {
      theme: theme === 'light' || theme === 'dark' ? theme : 'system',
      putAway: putAway.filter((id): id is string => typeof id === 'string'),
    };
  } catch {
    return first;
  }
};
