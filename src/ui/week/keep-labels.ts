/**
 * Stands the words of the calendar's visits beside their rods, and again whenever the calendar has moved something.
 * The calendar draws each visit as high as it is long; only here is measured what that leaves for words.
 */
import { placeLabels, wideBlocks, type Block, type Label } from './labels.ts';

/** Visits shorter than so many least labels count as short. */
const SHORT = 2;

/** Words need more than this width, in pixels. */
const NARROW = 110;

interface Drawn extends Block {
  readonly harness: HTMLElement;
  readonly rod: HTMLElement;
  readonly card: HTMLElement;
  readonly words: HTMLElement;
}

const drawnOf = (column: HTMLElement): readonly Drawn[] =>
  [...column.querySelectorAll<HTMLElement>(':scope > .fc-timegrid-event-harness')].flatMap((harness) => {
    // What is carried follows the pointer and pushes nothing aside.
    const rod = harness.querySelector<HTMLElement>(':scope > .week-visit:not(.fc-event-mirror)');
    const card = rod?.querySelector<HTMLElement>('.visit');
    const words = card?.querySelector<HTMLElement>('.visit-words');
    if (!rod || !card || !words) return [];
    const { offsetTop: top, offsetLeft: left, offsetHeight, offsetWidth } = harness;
    const [bottom, right] = [top + Math.max(1, offsetHeight), left + offsetWidth];
    return [{ harness, rod, card, words, top, bottom, left, right, isAlone: true }];
  });

/** The piece between a rod and its words, which says what belongs together when they stand apart. */
const joint = (rodHeight: number, { top, height }: Label): Readonly<Record<string, string>> => {
  const from = Math.min(0, top);
  const corners = [
    [0, -from],
    [100, top - from],
    [100, top - from + height],
    [0, rodHeight - from],
  ];
  return {
    '--joint-top': px(from),
    '--joint-height': px(Math.max(rodHeight, top + height) - from),
    '--joint': `polygon(${corners.map(([x, y]) => `${x}% ${px(y)}`).join(', ')})`,
  };
};

const px = (length: number): string => `${Math.round(length * 10) / 10}px`;

/** Gives visits at the same time the whole width where that is better; their rods stand in rows. */
const widen = (drawn: readonly Drawn[], width: number, least: number): readonly Drawn[] => {
  const wide = wideBlocks(drawn, { short: SHORT * least, narrow: NARROW });
  const rows: number[] = [];
  const inRows = drawn.map((one) => {
    const isWide = wide.has(one);
    const free = rows.findIndex((until) => until <= one.top);
    const row = free < 0 ? rows.length : free;
    if (isWide) rows[row] = one.bottom;
    return { one, isWide, row: isWide ? row : 0 };
  });
  return inRows.map(({ one, isWide, row }) => {
    one.harness.toggleAttribute('data-wide', isWide);
    one.rod.style.setProperty('--row', String(row));
    one.rod.style.setProperty('--rows-before-words', String(isWide ? rows.length - 1 : 0));
    return isWide ? { ...one, left: 0, right: width, isAlone: false } : one;
  });
};

/** Of the whole day; the column of its visits has none of its own. */
const heightOf = (column: HTMLElement): number => column.parentElement?.offsetHeight ?? 0;

const placeColumn = (column: HTMLElement, least: number): void => {
  const drawn = widen(drawnOf(column), column.clientWidth, least);
  const [first] = drawn;
  if (!first) return;
  const lineHeight = parseFloat(getComputedStyle(first.words).lineHeight);
  const around = first.card.offsetHeight - first.words.offsetHeight;
  const lines = drawn.map(({ words }) => Math.round(words.offsetHeight / lineHeight));
  const labels = placeLabels(drawn, lines, { lineHeight, around, least }, heightOf(column));
  drawn.forEach(({ rod, top, bottom }, at) => {
    const label = { ...labels[at], top: labels[at].top - top };
    const looks = {
      '--words-top': px(label.top),
      '--words-height': px(label.height),
      '--words-lines': String(label.lines),
      ...joint(bottom - top, label),
    };
    for (const [name, value] of Object.entries(looks)) rod.style.setProperty(name, value);
    const isCut = label.lines < lines[at];
    rod.toggleAttribute('data-brief', isCut);
    rod.toggleAttribute('data-one-line', isCut && label.lines === 1);
    rod.toggleAttribute('data-label', label.top !== 0 || label.height > bottom - top + 1);
  });
};

/** Keeps the words in place until `stop` is called. `--words-least` of the board is the least height of a label. */
export const keepLabels = (board: HTMLElement): { readonly stop: () => void } => {
  let frame = 0;
  const watched = new MutationObserver(() => ask());
  const watch = (): void =>
    watched.observe(board, {
      subtree: true,
      childList: true,
      attributes: true,
      attributeFilter: ['style', 'class'],
    });
  const place = (): void => {
    frame = 0;
    // What is done here need not be told here.
    watched.disconnect();
    const least = parseFloat(getComputedStyle(board).getPropertyValue('--words-least')) || 0;
    for (const name of ['data-wide', 'data-brief', 'data-one-line'])
      for (const element of board.querySelectorAll(`[${name}]`)) element.removeAttribute(name);
    board.toggleAttribute('data-measured', true);
    for (const column of board.querySelectorAll<HTMLElement>('.fc-timegrid-col-events'))
      placeColumn(column, least);
    board.removeAttribute('data-measured');
    watch();
  };
  const ask = (): void => {
    if (frame === 0) frame = requestAnimationFrame(place);
  };
  const sized = new ResizeObserver(ask);
  sized.observe(board);
  void document.fonts.ready.then(ask);
  watch();
  return {
    stop: () => {
      watched.disconnect();
      sized.disconnect();
      cancelAnimationFrame(frame);
    },
  };
};
