/** The air of a room over three days: its line, night behind it, and how cold is too cold for the shop's resins. */
import { createMemo, For, Show, type JSX } from 'solid-js';
import { degFOfDegC, type Room, type Shop } from '../../../engine/shop/index.ts';
import { DAY, HOUR, minuteOf } from '../../clock/index.ts';
import { measureText, unitOf } from '../../fields/index.ts';
import { createAnswer, useSession } from '../../state/index.ts';
import { airPicture, hoursBelow, type AirPoint } from '../model/air-picture.ts';
import { andList } from '../hours/index.ts';

const BOX = { width: 440, height: 190, left: 50, right: 8, top: 14, bottom: 28 } as const;
const SHOWN_DAYS = 3;

export const RoomPicture = (props: { readonly room: Room; readonly shop: Shop }): JSX.Element => {
  const session = useSession();
  const from = createMemo(() => session.clock().dayOf(session.now()).start);
  const to = (): number => from() + SHOWN_DAYS * DAY;
  const samples = createAnswer(
    () => ({ room: props.room, shop: props.shop, from: from(), to: to() }),
    async ({ room, shop, ...range }): Promise<readonly AirPoint[]> => {
      const clock = session.clock();
      const air = await session.engine.ask('airOf', {
        // Only this room is asked about; nothing else of the shop bears on its air.
        shop: { ...shop, rooms: [room] },
        range: { from: clock.iso(range.from), to: clock.iso(range.to) },
      });
      return air[0]?.samples.map(({ at, degC }) => ({ at: minuteOf(at), degC })) ?? [];
    },
    [],
  );
  const units = (): Shop['units'] => props.shop.units;
  /** The scale is ruled in the shop's own degrees, so that its rungs are round. */
  const inUnits = (degC: number): number => (units() === 'us' ? degFOfDegC(degC) : degC);
  /** Resins that stand still in the cold, the most delicate first. */
  const floors = createMemo(() => {
    const byFloor = new Map<number, string[]>();
    for (const resin of props.shop.resins) {
      byFloor.set(resin.lowestDegC, [...(byFloor.get(resin.lowestDegC) ?? []), resin.name]);
    }
    return [...byFloor].sort((a, b) => b[0] - a[0]);
  });
  const worst = createMemo(() => {
    const known = samples();
    return floors()
      .map(([degC, names]) => ({ degC, names, hours: hoursBelow(known, degC) }))
      .filter(({ hours }) => hours > 0);
  });
  const picture = createMemo(() => {
    const known = samples();
    const low = known.reduce((least, { degC }) => Math.min(least, degC), Number.POSITIVE_INFINITY);
    const near = floors().flatMap(([degC]) => (degC > low - 4 ? [inUnits(degC)] : []));
    return airPicture(
      known.map(({ at, degC }) => ({ at, degC: inUnits(degC) })),
      BOX,
      near,
    );
  });
  const degrees = (shown: number): string => `${Math.round(shown * 10) / 10} ${unitOf('warmth', units())}`;
  const measured = (): readonly AirPoint[] =>
    props.room.temperature.measured
      .map(({ at, degC }) => ({ at: session.clock().parse(at) ?? 0, degC }))
      .filter(({ at }) => at >= from() && at <= to());
  return (
    <Show when={picture()} fallback={<div class="drawing drawing-empty" />}>
      {(drawn) => (
        <figure class="drawing">
          <svg viewBox={`0 0 ${BOX.width} ${BOX.height}`} aria-hidden="true">
            <For each={session.clock().days(from(), to())}>
              {(day) => (
                <>
                  <For each={[day.start, day.start + 20 * HOUR]}>
                    {(start, at) => (
                      <rect
                        class="air-night"
                        x={drawn().x(start)}
                        width={Math.max(0, drawn().x(start + (at() === 0 ? 6 : 4) * HOUR) - drawn().x(start))}
                        y={BOX.top}
                        height={BOX.height - BOX.top - BOX.bottom}
                      />
                    )}
                  </For>
                  <text
                    class="axis-text"
                    x={drawn().x(day.start + 12 * HOUR)}
                    y={BOX.height - 8}
                    text-anchor="middle"
                  >
                    {day.weekday} {day.dayOfMonth}
                  </text>
                </>
              )}
            </For>
            <For each={drawn().rungs}>
              {({ degC, y }) => (
                <>
                  <line class="rung" x1={BOX.left} x2={BOX.width - BOX.right} y1={y} y2={y} />
                  <text class="axis-text" x={BOX.left - 6} y={y + 4} text-anchor="end">
                    {Math.round(degC)}°
                  </text>
                </>
              )}
            </For>
            <For each={floors()}>
              {([degC]) => (
                <Show
                  when={
                    drawn().y(inUnits(degC)) < BOX.height - BOX.bottom && drawn().y(inUnits(degC)) > BOX.top
                  }
                >
                  <line
                    class="floor"
                    x1={BOX.left}
                    x2={BOX.width - BOX.right}
                    y1={drawn().y(inUnits(degC))}
                    y2={drawn().y(inUnits(degC))}
                  />
                </Show>
              )}
            </For>
            <path class="air-line" d={drawn().line} />
            <For each={measured()}>
              {({ at, degC }) => (
                <circle class="air-measured" cx={drawn().x(at)} cy={drawn().y(inUnits(degC))} r="5" />
              )}
            </For>
          </svg>
          <figcaption>
            {degrees(drawn().lowest.degC)} at {session.clock().time(drawn().lowest.at)} to{' '}
            {degrees(drawn().highest.degC)} at {session.clock().time(drawn().highest.at)} in the next{' '}
            {SHOWN_DAYS} days
            <For each={worst()}>
              {({ degC, names, hours }) => (
                <span class="caption-warn">
                  {Math.round(hours)} h of it below {measureText(degC, 'warmth', units())}: {andList(names)}{' '}
                  {names.length === 1 ? 'stands' : 'stand'} still and must not be poured
                </span>
              )}
            </For>
          </figcaption>
        </figure>
      )}
    </Show>
  );
};
