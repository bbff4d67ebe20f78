/** The work by day: today and tomorrow first, even when there is nothing to do; then every day that has work. */
import type { Plan, PlanStep, Shop } from '../../engine/index.ts';
import { formatDay, formatDuration, makeClock, minuteOfLocal } from '../../engine/time/index.ts';
import type { Paint } from '../terminal.ts';
import { boxMoves } from './box-moves.ts';
import type { Moments } from './moments.ts';
import { namesOf, type Names } from './names.ts';
import { stepWords } from './step-words.ts';
import { tableRows } from '../table.ts';

export interface AgendaShape {
  readonly width: number;
  readonly paint: Paint;
  /** Only today and tomorrow. */
  readonly brief?: boolean;
}

interface Line {
  readonly date: string;
  /** Order within the day. */
  readonly minute: number;
  readonly cells: readonly string[];
}

const HEADER = ['time', 'piece', 'step', 'hands', 'who', 'window'];
const COLUMNS = [{}, { wraps: true }, { wraps: true }, {}, { wraps: true }, { wraps: true }];

export function agenda(shop: Shop, plan: Plan, moments: Moments, shape: AgendaShape): string[] {
  const lines = linesOf(plan, moments, namesOf(shop)).sort((a, b) => a.minute - b.minute);
  const first = [moments.today, moments.tomorrow];
  const later = [...new Set(lines.map(({ date }) => date))].filter((date) => !first.includes(date)).sort();
  const days = (shape.brief === true ? first : [...first, ...later]).map((date) => ({
    date,
    lines: lines.filter((line) => line.date === date),
  }));
  // All days are one table, so that the columns of one day stand under those of the other.
  const work = days.flatMap((day) => day.lines.map(({ cells }) => cells));
  const rows = [HEADER.map((word, at) => (work.some((cells) => cells[at] !== '') ? word : '')), ...work];
  const [header, ...texts] = tableRows(rows, { columns: COLUMNS, width: shape.width, indent: '  ' });
  const page = days.flatMap(({ date, lines: own }) => [
    '',
    shape.paint.strong(heading(date, plan.zone, moments)),
    ...(own.length === 0 ? ['  nothing to do'] : texts.splice(0, own.length).flat()),
  ]);
  return rows.length === 1 ? page.slice(1) : [...header.map(shape.paint.faint), ...page.slice(1)];
}

function heading(date: string, zone: string, moments: Moments): string {
  const clock = makeClock(zone, `${moments.today}T12:00`);
  const day = formatDay(clock, minuteOfLocal(clock, date, '12:00'));
  if (date === moments.today) return `Today, ${day}`;
  return date === moments.tomorrow ? `Tomorrow, ${day}` : day;
}

function linesOf(plan: Plan, moments: Moments, names: Names): Line[] {
  const pieces = new Map(plan.pieces.map((piece) => [piece.piece, piece]));
  const moves = boxMoves(plan, moments);
  return plan.steps.flatMap((step) => {
    if (step.state === 'done' || (step.handsOnMinutes === 0 && step.kind !== 'ready')) return [];
    const words = stepWords(step, names, moves.get(step) ?? {});
    const late = step.kind === 'ready' ? (pieces.get(step.piece)?.lateMinutes ?? 0) : 0;
    return stepLines(step, late > 0 ? `${words}, ${formatDuration(late)} late` : words, moments, names);
  });
}

/** The line of a step on the day it starts (today if it is under way), and one more on the day it ends. */
function stepLines(step: PlanStep, words: string, moments: Moments, names: Names): Line[] {
  const begunBefore = step.state === 'begun' && moments.date(step.start) < moments.today;
  const date = begunBefore ? moments.today : moments.date(step.start);
  const endDate = moments.date(step.end);
  const remarks = [
    begunBefore
      ? `begun ${moments.timeSeenFrom(date, step.start)}`
      : step.state === 'begun'
        ? 'under way'
        : '',
    endDate > date ? `until ${moments.timeSeenFrom(date, step.end)}` : '',
    step.pinned ? 'pinned' : '',
  ].filter((remark) => remark !== '');
  const piece = names.piece(step.piece);
  const who = names.severalPeople ? step.people.map(names.person).join(', ') : '';
  const first: Line = {
    date,
    minute: moments.minute(step.start),
    cells: [
      begunBefore ? 'now' : moments.time(step.start),
      piece,
      remarks.length === 0 ? words : `${words} (${remarks.join(', ')})`,
      handsOf(step),
      who,
      windowOf(step, date, moments),
    ],
  };
  // Split work goes on until its last day; a step that ends at midnight has no minute on the day after.
  if (endDate <= date || moments.time(step.end) === '00:00') return [first];
  const last: Line = {
    date: endDate,
    minute: moments.minute(step.end) - step.handsOnMinutes,
    cells: ['', piece, `${words} (goes on until ${moments.time(step.end)})`, '', who, ''],
  };
  return [first, last];
}

function handsOf(step: PlanStep): string {
  if (step.handsOnMinutes === 0) return '';
  const time = formatDuration(step.handsOnMinutes);
  return step.people.length > 1 ? `${step.people.length} x ${time}` : time;
}

function windowOf(step: PlanStep, date: string, moments: Moments): string {
  if (step.way === 'scuff') return step.kind === 'scuff' ? '' : 'scuffed';
  if (step.window === undefined) return '';
  const { opens, closes } = step.window;
  return `${moments.timeSeenFrom(date, opens)}-${moments.timeSeenFrom(date, closes)}`;
}
