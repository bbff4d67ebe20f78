/** Short names that the shop file uses for its entries, made from what people call them. */

/** `Board form 2` becomes `board-form-2`; another number is added when the name is taken. Never empty. */
export const idFor = (name: string, taken: Iterable<string>, otherwise = 'entry'): string => {
  const plain = name
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 50)
    .replace(/-+$/, '');
  const base = plain === '' ? otherwise : plain;
  const known = new Set(taken);
  if (!known.has(base)) return base;
  let number = 2;
  while (known.has(`${base}-${number}`)) number++;
  return `${base}-${number}`;
};
