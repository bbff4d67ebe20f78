/**
 * One stretch of work on the calendar: a rod for its time, and beside it words, its time first, then what, then whose.
 */
import { durationText } from '../clock/index.ts';
import type { Sitting } from './visits.ts';

const line = (className: string, text: string): HTMLElement => {
  const element = document.createElement('span');
  element.className = className;
  element.textContent = text;
  return element;
};

export const visitBody = (
  { visit, number }: Pick<Sitting, 'visit' | 'number'>,
  timeText: string,
): HTMLElement[] => {
  const [start] = timeText.split(' - ');
  const parts = [
    line('visit-time', start ?? timeText),
    line('visit-what', number === 0 ? visit.title : `${visit.title}, goes on`),
    line('visit-brief', visit.brief),
    line('visit-piece', visit.pieceName),
    ...(visit.people === '' ? [] : [line('visit-who', visit.people)]),
    ...(visit.spreadMinutes === null || number > 0
      ? []
      : [line('visit-who', `${durationText(visit.spreadMinutes)} of work`)]),
    ...(visit.pinned ? [line('visit-mark', 'pinned')] : []),
    ...(visit.state === 'planned' ? [] : [line('visit-mark', visit.state === 'done' ? 'done' : 'under way')]),
  ];
  const words = line('visit-words', '');
  words.append(...parts.flatMap((part) => [part, ' ']));
  const card = line('visit', '');
  card.append(words);
  return [line('visit-rod', ''), line('visit-joint', ''), card];
};
