/** The Week screen: hands-on work on a calendar, before windows and closed hours; carried as on Forms. */
import { createMemo, createSignal, For, onCleanup, Show, type JSX } from 'solid-js';
import { DAY, WEEK, type Minute } from '../clock/index.ts';
import { HeldNote, makeHand, RefusalDialog, type Spot } from '../drag/index.ts';
import type { PersonOpen } from '../engine/index.ts';
import { createAnswer, useSession, useView } from '../state/index.ts';
import { applicationWords } from '../words/index.ts';
import { hoursShown, nobodyThere, openingsOf, unlovedOnly, type Opening, type Stretch } from './backdrop.ts';
import { CalendarBoard, type CalendarView, type Carried, type LocalClock } from './calendar.tsx';
import { VisitCard } from './visit-card.tsx';
import { sittingsOf, visitsOf, type Visit } from './visits.ts';
import './week.css';

interface NamedView {
  readonly view: CalendarView;
  readonly name: string;
}

const WIDE_VIEWS: readonly NamedView[] = [
  { view: 'day', name: 'Day' },
  { view: 'week', name: 'Week' },
  { view: 'list', name: 'List' },
];
/** Seven days side by side are too narrow to be read on a phone. */
const NARROW_VIEWS: readonly NamedView[] = [
  { view: 'day', name: 'Day' },
  { view: 'three', name: '3 days' },
  { view: 'list', name: 'List' },
];

const NARROW = '(width < 700px)';

export const WeekScreen = (): JSX.Element => {
  const session = useSession();
  const view = useView();
  const hand = makeHand(session);
  const isNarrow = matchMedia(NARROW).matches;
  const [shown, setShown] = createSignal<CalendarView>(isNarrow ? 'day' : 'week');
  const [day, setDay] = createSignal(session.clock().dayOf(session.now()).isoDate);
  const [range, setRange] = createSignal<Stretch | null>(null);
  const [title, setTitle] = createSignal('');
  const [spot, setSpot] = createSignal<Spot | null>(null);

  const clock: LocalClock = {
    text: (minute) => session.clock().iso(minute).slice(0, 16),
    minute: (text) => session.clock().parse(text),
  };
  const visits = createMemo<readonly Visit[]>(() => {
    const shop = session.shop();
    const plan = session.planned()?.plan;
    return shop && plan ? visitsOf(shop, plan) : [];
  });
  const hours = createAnswer(
    () => {
      const seen = range();
      // Asked again when the plan is new: the hours may be.
      return seen && session.planned() ? { seen, plan: session.planned() } : null;
    },
    async (asked): Promise<{ readonly seen: Stretch; readonly hours: readonly PersonOpen[] } | null> => {
      if (!asked) return null;
      const { seen } = asked;
      const answer = await session.engine.ask('surroundings', {
        range: { from: session.clock().iso(seen.from), to: session.clock().iso(seen.to) },
      });
      return { seen, hours: answer.hours };
    },
    null,
  );
  const closed = createMemo(() => {
    const known = hours();
    return known ? nobodyThere(known.hours, known.seen.from, known.seen.to) : [];
  });
  const unloved = createMemo(() => {
    const known = hours();
    return known ? unlovedOnly(known.hours, known.seen.from, known.seen.to) : [];
  });
  const sittings = createMemo(() => {
    const open = new Map(
      (hours()?.hours ?? []).map((person) => [
        person.person,
        person.open.map(({ from, to }) => ({ from: clock.minute(from) ?? 0, to: clock.minute(to) ?? 0 })),
      ]),
    );
    const seen = hours()?.seen;
    // Outside of what was asked about, hours are not known.
    const isKnown = ({ from, to }: Visit): boolean =>
      seen !== undefined && from >= seen.from && to <= seen.to;
    return visits().flatMap((visit) =>
      sittingsOf([visit], (person) => (isKnown(visit) ? (open.get(person) ?? null) : null)),
    );
  });
  const pieceName = (id: string): string =>
    session.shop()?.pieces.find((piece) => piece.id === id)?.name ?? id;
  const near = (minute: Minute): string => session.clock().near(minute, session.now());
  const openingWords = ({ piece, of, from, to }: Opening): string =>
    `Window of ${applicationWords(of)}, ${pieceName(piece)}: ${near(from)} to ${near(to)}`;
  const openings = createMemo(() => {
    const plan = session.planned()?.plan;
    return (plan ? openingsOf(plan) : []).map((opening) => ({ ...opening, words: openingWords(opening) }));
  });
  const bounds = createMemo(
    () => {
      const seen = range();
      const inSight = seen ? visits().filter(({ from, to }) => from < seen.to && to > seen.from) : [];
      const open = (hours()?.hours ?? [])
        .flatMap((person) => person.open)
        .map((span) => ({
          from: clock.minute(span.from) ?? 0,
          to: clock.minute(span.to) ?? 0,
        }));
      // Work that is spread over nights would ask for the night; its ends are enough.
      const ends = inSight.flatMap(({ from, to }) => [
        { from, to: from + 1 },
        { from: to - 1, to },
      ]);
      const minuteOfDay = (minute: Minute): number => minute - session.clock().dayOf(minute).start;
      return hoursShown([...open, ...ends], minuteOfDay);
    },
    { from: 7, to: 20 },
    { equals: (a, b) => a.from === b.from && a.to === b.to },
  );
  const pickedVisit = createMemo(() => {
    const picked = view.picked();
    return picked
      ? visits().find(({ piece, steps }) => piece === picked.piece && steps.includes(picked.step))
      : undefined;
  });
  const places = createMemo<readonly Stretch[] | null>(() =>
    hand.held() ? (hand.places(null)?.open ?? []) : null,
  );
  const sight = (): readonly [Minute, Minute] => {
    const seen = range();
    return seen ? [seen.from, seen.to] : [session.now(), session.now() + WEEK];
  };
  const takeUp = (carried: Carried): boolean => hand.pickUp(carried.piece, carried.step, sight()) === '';

  const turn = (by: number): void => {
    const at = clock.minute(day()) ?? session.now();
    const days = { day: 1, three: 3, week: 7, list: 7 }[shown()];
    // Noon: a day with a clock change is still one day.
    setDay(session.clock().dayOf(at + by * days * DAY + DAY / 2).isoDate);
  };
  const today = (): void => void setDay(session.clock().dayOf(session.now()).isoDate);

  const follow = (event: PointerEvent): void => {
    if (spot() !== null) setSpot({ x: event.clientX, y: event.clientY });
  };
  const onKey = (event: KeyboardEvent): void => {
    if (!hand.held() || spot() !== null) return;
    const by = { ArrowUp: -5, ArrowDown: 5, ArrowLeft: -60, ArrowRight: 60 }[event.key];
    if (by !== undefined) hand.aim(hand.at() + by, hand.form());
    else if (event.key === 'Enter' && !(event.target instanceof HTMLButtonElement)) hand.letGo();
    else if (event.key === 'Escape') hand.putBack();
    else return;
    event.preventDefault();
  };
  document.addEventListener('pointermove', follow);
  onCleanup(() => {
    document.removeEventListener('pointermove', follow);
    if (hand.held()) hand.putBack();
  });

  return (
    <div class="week" onKeyDown={onKey}>
      <div class="screen-bar">
        <div class="week-acts">
          <button type="button" class="button" aria-label="Earlier" onClick={() => turn(-1)}>
            ‹
          </button>
          <button type="button" class="button" onClick={today}>
            Today
          </button>
          <button type="button" class="button" aria-label="Later" onClick={() => turn(1)}>
            ›
          </button>
        </div>
        <h2 class="week-title" aria-live="polite">
          {title()}
        </h2>
        <div class="week-views" role="group" aria-label="How the work is shown">
          <For each={isNarrow ? NARROW_VIEWS : WIDE_VIEWS}>
            {({ view: one, name }) => (
              <button
                type="button"
                class="button"
                aria-pressed={shown() === one}
                onClick={() => setShown(one)}
              >
                {name}
              </button>
            )}
          </For>
        </div>
        <ul class="legend" aria-label="What the backgrounds mean">
          <li>
            <i class="swatch week-swatch-window" /> a window is open
          </li>
          <li>
            <i class="swatch week-swatch-closed" /> nobody in the shop
          </li>
        </ul>
      </div>
      <div class="week-body">
        <CalendarBoard
          clock={clock}
          now={session.now}
          view={shown()}
          day={day()}
          hours={bounds()}
          sittings={sittings()}
          closed={closed()}
          unloved={unloved()}
          openings={openings()}
          places={places()}
          picked={view.picked()}
          ranged={(from, to, text) => {
            setRange({ from, to });
            setTitle(text);
          }}
          touched={(carried) => view.pick(carried)}
          takeUp={(carried) => {
            setSpot({ x: 0, y: 0 });
            return takeUp(carried);
          }}
          carry={(to) => hand.aim(to, null)}
          drop={(to) => {
            setSpot(null);
            hand.aim(to, null);
            hand.letGo();
            return hand.refusal() === null;
          }}
          putBack={() => {
            setSpot(null);
            hand.putBack();
          }}
        />
        <Show when={hand.held() ? undefined : pickedVisit()}>
          {(visit) => (
            <aside class="week-side" aria-label="The touched work">
              <VisitCard
                visit={visit()}
                window={
                  openings().find(
                    ({ piece, step }) => piece === visit().piece && visit().steps.includes(step),
                  )?.words ?? null
                }
                move={() => {
                  setSpot(null);
                  takeUp(visit());
                }}
                close={() => view.pick(null)}
              />
            </aside>
          )}
        </Show>
      </div>
      <Show when={spot()?.x !== 0}>
        <HeldNote hand={hand} spot={spot()} />
      </Show>
      <RefusalDialog hand={hand} />
    </div>
  );
};
