/** What stands in one stretch of work on the calendar: its time first, then what, then whose. */
import { durationText } from '../clock/index.ts';
import type { Sitting } from './visits.ts';

const line = (tag: string, className: string, text: string): HTMLElement => {
  const element = document.createElement(tag);
  element.className = className;
  element.textContent = text;
  return element;
};

export const visitBody = (
  { visit, number }: Pick<Sitting, 'visit' | 'number'>,
  timeText: string,
): HTMLElement[] => {
  const body = document.createElement('div');
  body.className = 'visit';
  const [start] = timeText.split(' - ');
  body.append(
    line('span', 'visit-time', start ?? timeText),
    line('span', 'visit-what', number === 0 ? visit.title : `${visit.title}, goes on`),
    line('span', 'visit-piece', visit.pieceName),
  );
  if (visit.people !== '') body.append(line('span', 'visit-who', visit.people));
  if (visit.spreadMinutes !== null && number === 0)
    body.append(line('span', 'visit-who', `${durationText(visit.spreadMinutes)} of work`));
  if (visit.pinned) body.append(line('span', 'visit-mark', 'pinned'));
  if (visit.state !== 'planned')
    body.append(line('span', 'visit-mark', visit.state === 'done' ? 'done' : 'under way'));
  return [body];
};
