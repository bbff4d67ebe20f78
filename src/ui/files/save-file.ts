/** Hands a text to the browser as a file to save. */
import type { Session } from '../state/index.ts';

const TYPES = {
  'shop.json': 'application/json',
  ics: 'text/calendar;charset=utf-8',
  csv: 'text/csv;charset=utf-8',
  txt: 'text/plain;charset=utf-8',
} as const;

export const saveFile = (text: string, name: string, ending: keyof typeof TYPES): void => {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: TYPES[ending] }));
  link.download = `${fileName(name)}.${ending}`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
};

/** The shop as it is written down; nothing while none is open. */
export const saveShop = (session: Session): void => {
  const text = session.exportText();
  if (text !== null) saveFile(text, session.shop()?.name ?? '', 'shop.json');
};

/** "Larkmoor Boards, steps" as `larkmoor-boards-steps`. */
const fileName = (name: string): string =>
  name
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '') || 'shop';
