/**
 * Keeps the calendar's entries in step with what is to be shown, touching only what changed: an entry that stays keeps
 * its element, and with it the focus and whatever the pointer does there.
 */
import type { Calendar } from '@fullcalendar/core';

export interface Shown {
  readonly id: string;
  /** Local clock texts. */
  readonly start: string;
  readonly end: string;
  readonly title?: string;
  readonly display?: 'background';
  readonly editable?: boolean;
  readonly classNames: readonly string[];
  readonly extendedProps?: Readonly<Record<string, unknown>>;
}

interface Known {
  /** Everything but the classes. */
  readonly core: string;
  readonly classes: string;
}

export interface Keeper {
  show(entries: readonly Shown[]): void;
  /** The entry lies elsewhere than was said; the next `show` puts it right. */
  doubt(id: string): void;
}

const knownOf = (entry: Shown): Known => {
  const { classNames, ...core } = entry;
  return { core: JSON.stringify(core), classes: classNames.join(' ') };
};

export const makeKeeper = (calendar: Calendar, board: HTMLElement): Keeper => {
  const known = new Map<string, Known>();
  return {
    show(entries) {
      const focused = calendar
        .getEvents()
        .find(({ id }) => board.querySelector('.fc-event:focus')?.getAttribute('data-entry') === id)?.id;
      calendar.batchRendering(() => {
        const wanted = new Map(entries.map((entry) => [entry.id, entry]));
        for (const event of calendar.getEvents()) {
          const entry = wanted.get(event.id);
          const was = known.get(event.id);
          const now = entry && knownOf(entry);
          if (entry && now && was && now.core === was.core) {
            if (now.classes !== was.classes) event.setProp('classNames', [...entry.classNames]);
            known.set(entry.id, now);
            wanted.delete(entry.id);
          } else {
            event.remove();
            known.delete(event.id);
          }
        }
        for (const entry of wanted.values()) {
          calendar.addEvent({ ...entry, classNames: [...entry.classNames] });
          known.set(entry.id, knownOf(entry));
        }
      });
      if (focused === undefined || board.contains(document.activeElement)) return;
      const again = [...board.querySelectorAll<HTMLElement>('.fc-event[data-entry]')];
      again.find((element) => element.dataset.entry === focused)?.focus();
    },
    doubt(id) {
      known.delete(id);
    },
  };
};
