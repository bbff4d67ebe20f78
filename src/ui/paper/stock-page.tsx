/** What the cans hold, what to buy, what each piece costs. */
import { For, Show, type JSX } from 'solid-js';
import type { StockReport } from '../../engine/formats/index.ts';
import type { ToBuy } from '../../engine/mix/index.ts';
import type { Shop } from '../../engine/shop/index.ts';
import { massText, volumeText } from '../../engine/shop/index.ts';
import { useSession } from '../state/index.ts';

export const StockPage = (props: { readonly report: StockReport; readonly shop: Shop }): JSX.Element => {
  const session = useSession();
  /** `Wed 25 Nov` for `2026-11-25`, with its year when that is another one. */
  const dayText = (isoDate: string): string => {
    const clock = session.clock();
    const minute = clock.parse(isoDate);
    if (minute === null) return isoDate;
    const { weekday, dayOfMonth, month } = clock.dayOf(minute);
    const year = isoDate.slice(0, 4);
    const isThisYear = clock.dayOf(session.now()).isoDate.startsWith(year);
    return `${weekday} ${dayOfMonth} ${month}${isThisYear ? '' : ` ${year}`}`;
  };
  const volume = (ml: number): string => volumeText(Math.round(ml), props.shop.units);
  const money = (amount: number | null): string =>
    amount === null ? '' : `${props.shop.costs?.currency ?? ''} ${amount.toFixed(2)}`.trim();
  const nameOf = (things: readonly { readonly id: string; readonly name: string }[], id: string): string =>
    things.find((one) => one.id === id)?.name ?? id;
  const notGiven = (): string => [...new Set(props.report.costs.flatMap((cost) => cost.notGiven))].join(', ');
  const buyingWords = ({ amount, unit, parts, orderBy, isLate, price }: ToBuy): string =>
    [
      unit === 'mL' ? volume(amount) : massText(amount),
      parts ? `A ${volume(parts.aMl)} and B ${volume(parts.bMl)}` : 'to be held against the jar',
      ...(orderBy === null ? [] : [isLate ? 'order now' : `order by ${dayText(orderBy)}`]),
      ...(price === null ? [] : [money(price)]),
    ].join(', ');
  return (
    <article class="page">
      <header class="page-head">
        <h2>Resin and money</h2>
        <p>{props.shop.name}, to the end of the plan</p>
      </header>
      <For each={props.report.stock.filter(({ neededMl, haveMl }) => neededMl > 0 || haveMl !== null)}>
        {(one) => (
          <section class="can">
            <h3>{nameOf(props.shop.resins, one.resin)}</h3>
            <p>
              {one.haveMl === null ? 'Stock not known' : `${volume(one.haveMl)} there`},{' '}
              {volume(one.neededMl)} needed
            </p>
            <Show when={one.orderBy}>
              {(orderBy) => (
                <p class="can-short">
                  {volume(one.shortMl)} short from {one.runsOutOn === null ? '' : dayText(one.runsOutOn)} on:{' '}
                  {one.isLate
                    ? `order now, it had to be ordered by ${dayText(orderBy())}`
                    : `order by ${dayText(orderBy())}`}
                  . Without it these cannot be mixed:{' '}
                  {[...new Set(one.lacking.map(({ piece }) => nameOf(props.shop.pieces, piece)))].join(', ')}.
                </p>
              )}
            </Show>
            <Show when={one.stale.length > 0}>
              <p class="can-short">
                The opened cans are good until {one.goodUntil === null ? '' : dayText(one.goodUntil)}, too
                soon for{' '}
                {[...new Set(one.stale.map(({ piece }) => nameOf(props.shop.pieces, piece)))].join(', ')}.
              </p>
            </Show>
            <Show when={one.days.length > 0}>
              <table>
                <thead>
                  <tr>
                    <th scope="col">day</th>
                    <th scope="col">mixed</th>
                    <th scope="col">A</th>
                    <th scope="col">B</th>
                    <th scope="col">left</th>
                  </tr>
                </thead>
                <tbody>
                  <For each={one.days}>
                    {(day) => (
                      <tr>
                        <th scope="row">{dayText(day.date)}</th>
                        <td>{volume(day.mixedMl)}</td>
                        <td>{volume(day.aMl)}</td>
                        <td>{volume(day.bMl)}</td>
                        <td>
                          {day.leftMl === null
                            ? ''
                            : day.leftMl < 0
                              ? `${volume(-day.leftMl)} short`
                              : volume(day.leftMl)}
                        </td>
                      </tr>
                    )}
                  </For>
                </tbody>
              </table>
            </Show>
          </section>
        )}
      </For>
      <section>
        <h3>To buy</h3>
        <Show when={props.report.shopping.length > 0} fallback={<p class="quiet">Nothing.</p>}>
          <ul class="to-buy">
            <For each={props.report.shopping}>
              {(item) => (
                <li>
                  <span class="tick-box" aria-hidden="true" />
                  <b>{item.what}</b> {buyingWords(item)}
                </li>
              )}
            </For>
          </ul>
        </Show>
      </section>
      <section>
        <h3>Cost of each piece</h3>
        <table class="costs">
          <thead>
            <tr>
              <th scope="col">piece</th>
              <th scope="col">resin</th>
              <th scope="col">wood</th>
              <th scope="col">consumables</th>
              <th scope="col">work</th>
              <th scope="col">hands-on</th>
              <th scope="col">total</th>
            </tr>
          </thead>
          <tbody>
            <For each={props.report.costs}>
              {(cost) => (
                <tr>
                  <th scope="row">{nameOf(props.shop.pieces, cost.piece)}</th>
                  <td data-says="resin">{money(cost.resin)}</td>
                  <td data-says="wood">{money(cost.wood)}</td>
                  <td data-says="consumables">{money(cost.consumables)}</td>
                  <td data-says="work">{money(cost.work)}</td>
                  <td data-says="hands-on">{cost.handsOnHours.toFixed(1)} h</td>
                  <td data-says="total">
                    <b>{money(cost.total)}</b>
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
        <Show when={notGiven() !== ''}>
          <p class="quiet">Not in it, because the shop file does not say: {notGiven()}.</p>
        </Show>
        <p>
          Of all that is mixed {(props.report.wastedShare * 100).toFixed(1)} % gets onto no piece (walls of
          the cups, rounding up).
        </p>
      </section>
    </article>
  );
};
