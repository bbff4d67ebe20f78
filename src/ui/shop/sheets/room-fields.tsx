/** The sheet of a room: how warm it is by night and day, its heating, what was measured, how dry the air. */
import { Index, Show, type JSX } from 'solid-js';
import type { Room } from '../../../engine/shop/index.ts';
import {
  Below,
  Group,
  MeasureField,
  MinutesField,
  NativeField,
  OptionalNumberField,
  TextField,
} from '../../fields/index.ts';
import { useSession } from '../../state/index.ts';
import { HoursEditor } from '../hours/index.ts';
import { freshHours } from '../model/fresh.ts';
import { RoomPicture } from '../pictures/room-picture.tsx';

type Pattern = Room['temperature']['pattern'];
type Heating = Pattern['heating'][number];
type Reading = Room['temperature']['measured'][number];

const WARM_UP_MINUTES = 60;

export const RoomFields = (props: {
  readonly value: Room;
  readonly change: (next: Room) => void;
}): JSX.Element => {
  const session = useSession();
  const temperature = (change: Partial<Room['temperature']>): void =>
    props.change({ ...props.value, temperature: { ...props.value.temperature, ...change } });
  const pattern = (change: Partial<Pattern>): void =>
    temperature({ pattern: { ...props.value.temperature.pattern, ...change } });
  const heating = (at: number, change: Partial<Heating>): void =>
    pattern({
      heating: props.value.temperature.pattern.heating.map((known, n) =>
        n === at ? { ...known, ...change } : known,
      ),
    });
  const usual = (): Pattern => props.value.temperature.pattern;
  const nowLocal = (): string => session.clock().iso(session.now()).slice(0, 16);
  return (
    <>
      <Group title="The room">
        <TextField
          label="Name"
          path="name"
          value={props.value.name}
          change={(name) => props.change({ ...props.value, name })}
        />
        <MinutesField
          label="Air settles after sanding"
          path="dustSettleMinutes"
          hint="so long no wet surface may be open"
          value={props.value.dustSettleMinutes}
          change={(dustSettleMinutes) => props.change({ ...props.value, dustSettleMinutes })}
        />
        <Show
          when={typeof props.value.humidityPercent !== 'object'}
          fallback={
            <p class="field-hint">The humidity is a list of readings in the shop file; it is kept.</p>
          }
        >
          <OptionalNumberField
            label="Humidity of the air"
            path="humidityPercent"
            unit="%"
            hint="left empty: not known"
            value={typeof props.value.humidityPercent === 'number' ? props.value.humidityPercent : undefined}
            change={(humidityPercent) => props.change({ ...props.value, humidityPercent })}
          />
        </Show>
      </Group>
      <Show when={session.shop()}>{(shop) => <RoomPicture room={props.value} shop={shop()} />}</Show>
      <Group title="A usual day, without heating">
        <MeasureField
          label="Coldest"
          path="temperature.pattern.nightLowDegC"
          measure="warmth"
          value={usual().nightLowDegC}
          change={(nightLowDegC) => pattern({ nightLowDegC })}
        />
        <NativeField
          label="Coldest at"
          path="temperature.pattern.nightLowAt"
          kind="time"
          value={usual().nightLowAt}
          change={(nightLowAt) => pattern({ nightLowAt })}
        />
        <MeasureField
          label="Warmest"
          path="temperature.pattern.dayHighDegC"
          measure="warmth"
          value={usual().dayHighDegC}
          change={(dayHighDegC) => pattern({ dayHighDegC })}
        />
        <NativeField
          label="Warmest at"
          path="temperature.pattern.dayHighAt"
          kind="time"
          value={usual().dayHighAt}
          change={(dayHighAt) => pattern({ dayHighAt })}
        />
      </Group>
      <Group title="Heating" note="Hours in which the room is kept at least this warm.">
        <div class="rows wide">
          <Index each={usual().heating}>
            {(line, at) => (
              <Below path={`temperature.pattern.heating[${at}]`}>
                <div class="line">
                  <div class="group-fields">
                    <MeasureField
                      label="At least"
                      path="degC"
                      measure="warmth"
                      value={line().degC}
                      change={(degC) => heating(at, { degC })}
                    />
                    <MinutesField
                      label="Warm after"
                      path="warmUpMinutes"
                      value={line().warmUpMinutes}
                      change={(warmUpMinutes) => heating(at, { warmUpMinutes })}
                    />
                  </div>
                  <HoursEditor
                    title={`Heating ${at + 1} is on`}
                    path="hours"
                    lines={[line().hours]}
                    fresh={freshHours}
                    add="Add hours of this heating"
                    change={(lines) => {
                      const [first, ...more] = lines;
                      if (first === undefined)
                        pattern({ heating: usual().heating.filter((_, n) => n !== at) });
                      else if (more.length === 0) heating(at, { hours: first });
                      else
                        pattern({
                          heating: [...usual().heating, ...more.map((hours) => ({ ...line(), hours }))],
                        });
                    }}
                  />
                </div>
              </Below>
            )}
          </Index>
          <button
            type="button"
            class="button"
            onClick={() =>
              pattern({
                heating: [
                  ...usual().heating,
                  { hours: freshHours(), degC: 21, warmUpMinutes: WARM_UP_MINUTES },
                ],
              })
            }
          >
            Add heating
          </button>
        </div>
      </Group>
      <Readings
        title="Measured"
        note="What the thermometer said beats everything else."
        path="temperature.measured"
        lines={props.value.temperature.measured}
        fresh={() => ({ at: nowLocal(), degC: usual().dayHighDegC })}
        add="Add a reading"
        change={(measured) => temperature({ measured })}
      />
      <Readings
        title="Forecast"
        note="What you expect to differ from a usual day."
        path="temperature.forecast"
        lines={props.value.temperature.forecast}
        fresh={() => ({ at: nowLocal(), degC: usual().nightLowDegC })}
        add="Add a forecast"
        change={(forecast) => temperature({ forecast })}
      />
    </>
  );
};

const Readings = (props: {
  readonly title: string;
  readonly note: string;
  readonly path: string;
  readonly lines: readonly Reading[];
  readonly fresh: () => Reading;
  readonly add: string;
  readonly change: (lines: readonly Reading[]) => void;
}): JSX.Element => {
  const session = useSession();
  const put = (at: number, line: Reading): void =>
    props.change(props.lines.map((known, n) => (n === at ? line : known)));
  /** A moment with an offset is shown on the shop's own clock. */
  const local = (at: string): string => {
    const minute = session.clock().parse(at);
    return minute === null ? at.slice(0, 16) : session.clock().iso(minute).slice(0, 16);
  };
  return (
    <Group title={props.title} note={props.note}>
      <div class="rows wide">
        <Index each={props.lines}>
          {(line, at) => (
            <Below path={`${props.path}[${at}]`}>
              <div class="reading">
                <NativeField
                  label="When"
                  path="at"
                  kind="datetime-local"
                  value={local(line().at)}
                  change={(moment) => put(at, { ...line(), at: moment })}
                />
                <MeasureField
                  label="Warmth"
                  path="degC"
                  measure="warmth"
                  value={line().degC}
                  change={(degC) => put(at, { ...line(), degC })}
                />
                <button
                  type="button"
                  class="button plain"
                  aria-label={`Take away reading ${at + 1}`}
                  onClick={() => props.change(props.lines.filter((_, n) => n !== at))}
                >
                  Take away
                </button>
              </div>
            </Below>
          )}
        </Index>
        <button type="button" class="button" onClick={() => props.change([...props.lines, props.fresh()])}>
          {props.add}
        </button>
      </div>
    </Group>
  );
};
