/** Hands a text to the browser as a file to save. */

const TYPES = {
  ics: 'text/calendar;charset=utf-8',
  csv: 'text/csv;charset=utf-8',
  txt: 'text/plain;charset=utf-8',
} as const;

export const saveFile = (text: string, name: string, type: keyof typeof TYPES): void => {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: TYPES[type] }));
  link.download = `${fileName(name)}.${type}`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
};

/** "Larkmoor Boards, steps" as `larkmoor-boards-steps`. */
export const fileName = (name: string): string =>
  name
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '') || 'shop';
