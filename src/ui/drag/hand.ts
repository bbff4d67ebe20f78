/**
 * The hand: takes a step up, asks the engine where it may go, follows the pointer or the keys, and lets go. It never
 * changes the plan; letting go writes a pin into the shop, and the plan follows.
 */
import { batch, createEffect, createMemo, createSignal, on, type Accessor } from 'solid-js';
import { DAY, type Minute } from '../clock/index.ts';
import type { Obstacle, Planned } from '../engine/index.ts';
import type { Session } from '../state/index.ts';
import { takeUp, type Held } from './held.ts';
import { createLikelyDrop, type Drop } from './likely-drop.ts';
import { nearestOpen, nextOpen, spansOf, verdictAt, type Spans, type Verdict } from './spans.ts';
import { dropEdit, type Refusal, type WayOut, type WayWords } from './ways-out.ts';

export interface Hand {
  readonly held: Accessor<Held | null>;
  /** What has just been put down, while the plan around it is being made. */
  readonly landing: Accessor<Held | null>;
  /** Where it is held over, or lands. */
  readonly at: Accessor<Minute>;
  /** The kind of form it is held over; null: its own, or no form. */
  readonly form: Accessor<string | null>;
  /** Legal places in the own form (null) or another; null until the engine has answered. */
  readonly places: (form: string | null) => Spans | null;
  readonly verdict: Accessor<Verdict>;
  readonly refusal: Accessor<Refusal | null>;
  /** Empty on success, else why it stays, in words. */
  pickUp(piece: string, step: string, seen: readonly [Minute, Minute]): string;
  aim(at: Minute, form: string | null): void;
  /** The next legal place in this direction. */
  jump(direction: 1 | -1): void;
  /** Pins where that is legal; else asks what to do (see `refusal`). */
  letGo(): void;
  putBack(): void;
  choose(way: WayOut): void;
}

/** The picture waits so long for the plan that follows a drop, so that it changes once and not twice. */
const LANDING_MS = 150;

export const makeHand = (session: Session): Hand => {
  const [held, setHeld] = createSignal<Held | null>(null);
  const [at, setAt] = createSignal<Minute>(0);
  const [form, setForm] = createSignal<string | null>(null);
  const [dropped, setDropped] = createSignal<{ readonly who: Held; readonly before: Planned | null } | null>(
    null,
  );
  const landing = createMemo((): Held | null => {
    const last = dropped();
    const isAwaited = session.phase() === 'improving' && session.planned() === last?.before;
    return last && isAwaited ? last.who : null;
  });
  const [places, setPlaces] = createSignal<ReadonlyMap<string, Spans>>(new Map());
  const [refusal, setRefusal] = createSignal<Refusal | null>(null);
  /** Counts pick-ups, so that an answer for an earlier one is dropped. */
  let turn = 0;

  const keyOf = (id: string | null): string => id ?? '';
  /** The reasons at exactly this minute; a closed stretch's own reasons are samples from within it. */
  const [exact, setExact] = createSignal<{
    readonly at: Minute;
    readonly form: string | null;
    readonly why: readonly Obstacle[];
  } | null>(null);
  const rough = createMemo(() => verdictAt(places().get(keyOf(form())) ?? null, at()));
  const verdict = createMemo((): Verdict => {
    const said = rough();
    const known = exact();
    return said.kind === 'shut' && known && known.at === at() && known.form === form() && known.why.length > 0
      ? { kind: 'shut', why: known.why }
      : said;
  });
  const words: WayWords = {
    near: (minute) => session.clock().near(minute, session.now()),
    iso: (minute) => session.clock().iso(minute),
  };

  const ask = async (who: Held, id: string | null, from: Minute, to: Minute): Promise<Spans> =>
    spansOf(
      await session.engine.ask('places', {
        piece: who.piece,
        step: who.step,
        range: { from: words.iso(from), to: words.iso(to) },
        ...(id === null ? {} : { form: id }),
      }),
    );

  let asking = false;
  /** One question at a time: when it is answered and the hand has moved on, the next one is for where it is then. */
  const askExactly = async (): Promise<void> => {
    const who = held();
    if (asking || !who || rough().kind !== 'shut') return;
    asking = true;
    const [minute, id, mine] = [at(), form(), turn];
    try {
      const [first] = (await ask(who, id, minute, minute + 1)).shut;
      if (first && turn === mine) setExact({ at: minute, form: id, why: first.why });
    } catch {
      // The sampled reason stands.
    }
    asking = false;
    if (held() && (at() !== minute || form() !== id)) void askExactly();
  };
  createEffect(on([at, form, rough], () => void askExactly()));

  const isHome = (who: Held): boolean => at() === who.start && form() === null;
  /** Where letting go changes something and may. */
  const drop = createMemo<Drop | null>(
    () => {
      const who = held();
      return who && !isHome(who) && verdict().kind === 'open' ? { who, at: at(), form: form() } : null;
    },
    null,
    { equals: (a, b) => a?.who === b?.who && a?.at === b?.at && a?.form === b?.form },
  );
  const editAt = createLikelyDrop(
    drop,
    (there) => dropEdit(there.who, there.at, there.form, words),
    (edit) => session.foresee(edit),
  );

  const learn = async (who: Held, seen: readonly [Minute, Minute]): Promise<void> => {
    const mine = turn;
    const put = (id: string | null, spans: Spans): void => {
      if (turn === mine) setPlaces((old) => new Map(old).set(keyOf(id), spans));
    };
    await session.ready();
    // First what is in sight, then a margin around it, then the other forms.
    const [from, to] = [Math.floor(seen[0]), Math.ceil(seen[1])];
    put(null, await ask(who, null, from, to));
    const margin = Math.max(3 * DAY, to - from);
    put(null, await ask(who, null, from - margin, to + margin));
    for (const id of who.otherForms) {
      if (turn !== mine) return;
      put(id, await ask(who, id, from, to));
    }
  };

  /** Nothing is in the hand any more; where it was held is still known. */
  const open = (): void => {
    turn += 1;
    batch(() => {
      setHeld(null);
      setPlaces(new Map());
      setExact(null);
    });
  };
  const empty = (): void => {
    batch(() => {
      open();
      setForm(null);
    });
  };
  const land = (who: Held): void => {
    const last = { who, before: session.planned() };
    batch(() => {
      open();
      setDropped(last);
    });
    setTimeout(() => setDropped((now) => (now === last ? null : now)), LANDING_MS);
  };

  return {
    held,
    landing,
    at,
    form,
    places: (id) => places().get(keyOf(id)) ?? null,
    verdict,
    refusal,
    pickUp(piece, step, seen) {
      const shop = session.shop();
      const plan = session.planned()?.plan;
      if (!shop || !plan) return 'there is no plan yet';
      const taken = takeUp(shop, plan, piece, step);
      if (!taken.ok) return taken.why;
      turn += 1;
      session.takeInHand();
      batch(() => {
        setPlaces(new Map());
        setDropped(null);
        setRefusal(null);
        setForm(null);
        setAt(taken.held.start);
        setHeld(taken.held);
      });
      void learn(taken.held, seen).catch(() => undefined);
      return '';
    },
    aim(minute, id) {
      const who = held();
      if (!who) return;
      batch(() => {
        setAt(Math.round(minute));
        setForm(id === who.form ? null : id);
      });
    },
    jump(direction) {
      const next = nextOpen(places().get(keyOf(form())) ?? null, at(), direction);
      if (next !== null) setAt(next);
    },
    letGo() {
      const who = held();
      if (!who) return;
      const minute = at();
      const id = form();
      const said = verdict();
      if (isHome(who)) {
        empty();
        session.letGo();
        return;
      }
      const there = drop();
      if (there) {
        const edit = editAt(there);
        session.letGo();
        batch(() => {
          land(who);
          session.edit(edit, [who]);
        });
        return;
      }
      const why = said.kind === 'shut' ? said.why : [];
      const freeForms = who.otherForms.filter(
        (other) => other !== id && verdictAt(places().get(other) ?? null, minute).kind === 'open',
      );
      const nearest = nearestOpen(places().get(keyOf(id)) ?? null, minute);
      const refused: Refusal = { held: who, at: minute, form: id, why, nearest, freeForms };
      const isExact = exact()?.at === minute && exact()?.form === id;
      batch(() => {
        setRefusal(refused);
        empty();
      });
      if (isExact) return;
      void ask(who, id, minute, minute + 1)
        .then(
          ({ shut: [first] }) => first && refusal() === refused && setRefusal({ ...refused, why: first.why }),
        )
        .catch(() => undefined);
    },
    putBack() {
      batch(() => {
        setRefusal(null);
        empty();
      });
      session.letGo();
    },
    choose(way) {
      const refused = refusal();
      setRefusal(null);
      session.letGo();
      if (refused) session.edit(way.edit, [refused.held]);
    },
  };
};
