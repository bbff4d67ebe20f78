/** The calendar library, behind this one component: hands in what to show, hands out what is touched and carried. */
import { Calendar, type CalendarOptions } from '@fullcalendar/core';
import interaction from '@fullcalendar/interaction';
import list from '@fullcalendar/list';
import timeGrid from '@fullcalendar/timegrid';
import { createEffect, on, onCleanup, onMount, type JSX } from 'solid-js';
import type { Minute } from '../clock/index.ts';
import type { Opening, Stretch } from './backdrop.ts';
import { makeKeeper, type Shown } from './keep-in-step.ts';
import { keepLabels } from './keep-labels.ts';
import { visitBody } from './visit-body.ts';
import type { Sitting } from './visits.ts';

export type CalendarView = 'day' | 'three' | 'week' | 'list';

const VIEWS: Readonly<Record<CalendarView, string>> = {
  day: 'timeGridDay',
  three: 'timeGridThree',
  week: 'timeGridWeek',
  list: 'listWeek',
};

export interface Carried {
  readonly piece: string;
  readonly step: string;
}

/** Local clock texts of the shop, such as `2026-11-25T14:30`, and back. */
export interface LocalClock {
  readonly text: (minute: Minute) => string;
  readonly minute: (text: string) => Minute | null;
}

export interface CalendarProps {
  readonly clock: LocalClock;
  readonly now: () => Minute;
  readonly view: CalendarView;
  /** The day that has to be in sight. */
  readonly day: string;
  readonly hours: { readonly from: number; readonly to: number };
  readonly sittings: readonly Sitting[];
  readonly closed: readonly Stretch[];
  readonly unloved: readonly Stretch[];
  readonly openings: readonly (Opening & { readonly words: string })[];
  /** While something is held: where it may start. */
  readonly places: readonly Stretch[] | null;
  readonly picked: Carried | null;
  readonly ranged: (from: Minute, to: Minute, title: string) => void;
  readonly touched: (carried: Carried) => void;
  /** False when it stays where it is. */
  readonly takeUp: (carried: Carried) => boolean;
  readonly carry: (to: Minute) => void;
  /** False when it goes back to where it was. */
  readonly drop: (to: Minute) => boolean;
  readonly putBack: () => void;
}

const keyOf = ({ piece, step }: Carried): string => `${piece} ${step}`;
const carriedOf = (id: string): Carried => {
  const [piece, step] = id.split(' ');
  return { piece, step };
};

/** `13:00:00` of `2026-11-25T14:30`: what is on now is in sight. */
const hourBefore = (local: string): string => two(Math.max(0, Number(local.slice(11, 13)) - 1));

const two = (hour: number): string => `${String(hour).padStart(2, '0')}:00:00`;

export const CalendarBoard = (props: CalendarProps): JSX.Element => {
  let board: HTMLDivElement | undefined;
  onMount(() => {
    if (!board) return;
    const entries = (): readonly Shown[] => {
      const { text } = props.clock;
      const behind = ({ from, to }: Stretch, className: string, more = ''): Shown => ({
        id: `${className} ${from} ${to} ${more}`,
        start: text(from),
        end: text(to),
        display: 'background',
        classNames: [className],
      });
      return [
        ...props.closed.map((span) => behind(span, 'week-closed')),
        ...props.unloved.map((span) => behind(span, 'week-unloved')),
        ...(props.places ?? []).map((span) => behind(span, 'week-place')),
        ...props.openings.map((opening) => ({
          ...behind(opening, 'week-window', `${opening.piece} ${opening.step}`),
          title: opening.words,
          classNames: [
            'week-window',
            `week-rail-${opening.rail % RAILS}`,
            ...(props.picked?.piece === opening.piece ? ['week-window-picked'] : []),
          ],
        })),
        ...props.sittings.map(({ visit, number, from, to }) => ({
          id: `${keyOf(visit)} ${number}`,
          start: text(from),
          end: text(to),
          title: `${visit.title}, ${visit.pieceName}`,
          // Spread work is carried by its beginning.
          editable: visit.state === 'planned' && number === 0,
          classNames: [
            'week-visit',
            `week-${visit.state}`,
            ...(visit.pinned ? ['week-pinned'] : []),
            ...(props.picked && visit.piece === props.picked.piece
              ? [visit.steps.includes(props.picked.step) ? 'week-picked' : 'week-same-piece']
              : []),
          ],
          extendedProps: { visit, number },
        })),
      ];
    };
    /** Set while a step is carried, until it is dropped or put back. */
    let carrying = false;
    const options: CalendarOptions = {
      plugins: [timeGrid, list, interaction],
      initialView: VIEWS[props.view],
      initialDate: props.day,
      // Local texts stand for themselves: the shop's own zone is counted outside of the calendar.
      timeZone: 'UTC',
      locale: 'en-GB',
      now: () => props.clock.text(props.now()),
      firstDay: 1,
      headerToolbar: false,
      allDaySlot: false,
      nowIndicator: true,
      // A day without work still has something to focus, so that its hours are scrolled by keys.
      dayCellDidMount: ({ el }) => {
        el.tabIndex = 0;
      },
      height: '100%',
      expandRows: true,
      slotMinTime: two(props.hours.from),
      slotMaxTime: two(props.hours.to),
      slotDuration: '00:30:00',
      slotLabelInterval: '01:00:00',
      snapDuration: '00:05:00',
      slotLabelFormat: { hour: '2-digit', minute: '2-digit', hour12: false },
      eventTimeFormat: { hour: '2-digit', minute: '2-digit', hour12: false },
      dayHeaderFormat: { weekday: 'short', day: 'numeric' },
      listDayFormat: { weekday: 'long', day: 'numeric', month: 'long' },
      listDaySideFormat: false,
      slotEventOverlap: false,
      // As high as it is long; its words have a place of their own.
      eventMinHeight: 4,
      eventShortHeight: 0,
      eventInteractive: true,
      eventDurationEditable: false,
      eventDisplay: 'block',
      dragScroll: true,
      longPressDelay: 380,
      dragRevertDuration: 0,
      noEventsContent: 'No hands-on work in these days.',
      scrollTime: hourBefore(props.clock.text(props.now())),
      views: {
        timeGridDay: { dayHeaderFormat: { weekday: 'long', day: 'numeric', month: 'long' } },
        timeGridThree: { type: 'timeGrid', duration: { days: 3 } },
      },
      datesSet: ({ startStr, endStr, view }) => {
        const from = props.clock.minute(startStr.slice(0, 16));
        const to = props.clock.minute(endStr.slice(0, 16));
        if (from !== null && to !== null) props.ranged(from, to, view.title);
      },
      eventContent: ({ event, timeText }) => {
        const sitting: unknown = event.extendedProps;
        return isSitting(sitting) ? { domNodes: visitBody(sitting, timeText) } : true;
      },
      eventDidMount: ({ event, el }) => {
        el.dataset.entry = event.id;
        if (event.display === 'background') {
          if (event.title !== '') el.title = event.title;
          return;
        }
        if (!(el instanceof HTMLTableRowElement)) return;
        // A row of the list is reached and touched by keys, as the blocks of the other views are.
        el.tabIndex = 0;
        el.addEventListener('keydown', (key) => {
          if (key.key === 'Enter') props.touched(carriedOf(event.id));
        });
      },
      eventClick: ({ event, jsEvent }) => {
        jsEvent.preventDefault();
        if (event.display !== 'background') props.touched(carriedOf(event.id));
      },
      eventDragStart: ({ event }) => {
        carrying = props.takeUp(carriedOf(event.id));
      },
      eventAllow: (span) => {
        const to = props.clock.minute(span.startStr.slice(0, 16));
        if (carrying && to !== null) props.carry(to);
        // Every place takes it; whether it may stay there is said, and decided when it is let go.
        return true;
      },
      eventDragStop: () => {
        // A drop follows in the same turn; when none does, it was let go outside or where it lay.
        setTimeout(() => {
          if (carrying) props.putBack();
          carrying = false;
        });
      },
      eventDrop: ({ event, revert }) => {
        const to = event.startStr === '' ? null : props.clock.minute(event.startStr.slice(0, 16));
        const wasCarried = carrying;
        carrying = false;
        if (!wasCarried || to === null || !props.drop(to)) {
          revert();
          return;
        }
        // It lies where it was dropped until the plan has spoken.
        keeper.doubt(event.id);
        setTimeout(() => keeper.show(entries()), PLAN_HAS_SPOKEN_MS);
      },
    };
    const calendar = new Calendar(board, options);
    calendar.render();
    const keeper = makeKeeper(calendar, board);
    keeper.show(entries());
    const labels = keepLabels(board);
    createEffect(
      on(
        () => [props.sittings, props.closed, props.unloved, props.openings, props.places, props.picked],
        () => keeper.show(entries()),
        { defer: true },
      ),
    );
    createEffect(
      on(
        () => props.view,
        (view) => calendar.changeView(VIEWS[view]),
        { defer: true },
      ),
    );
    createEffect(
      on(
        () => props.day,
        (day) => calendar.gotoDate(day),
        { defer: true },
      ),
    );
    createEffect(
      on(
        () => props.hours,
        ({ from, to }) => {
          calendar.setOption('slotMinTime', two(from));
          calendar.setOption('slotMaxTime', two(to));
        },
        { defer: true },
      ),
    );
    onCleanup(() => {
      labels.stop();
      calendar.destroy();
    });
  });
  return <div class="week-board" ref={(element) => (board = element)} />;
};

/** A dropped step that the plan does not take over goes back by then. */
const PLAN_HAS_SPOKEN_MS = 2000;

/** Rails that the looks know; more windows at once share them. */
const RAILS = 3;

const isSitting = (value: unknown): value is Pick<Sitting, 'visit' | 'number'> =>
  typeof value === 'object' && value !== null && 'visit' in value && 'number' in value;
