/** Step and layer names as people say them; the names themselves are for files and commands. */

/** "the seal", "layer 2", "coat 1" for an application's name. */
export const applicationWords = (id: string): string => (id === 'seal' ? 'the seal' : id.replace('-', ' '));

const ALONE: Readonly<Record<string, string>> = {
  prepare: 'preparing',
  'seal-mix': 'mixing the seal',
  seal: 'brushing on the seal',
  demold: 'demolding',
  turnaround: 'cleaning the form',
  flatten: 'flattening',
  sand: 'sanding',
  finish: 'finishing',
  ready: 'ready',
};

/** What is done in a step, such as "pouring layer 2" for "layer-2-pour"; an unknown name is said as it is. */
export function stepWords(id: string): string {
  const alone = ALONE[id];
  if (alone) return alone;
  const [kind, number, act] = id.split('-');
  if (kind === 'flip') return `turning over before coat ${number}`;
  if (kind !== 'layer' && kind !== 'coat') return id;
  const what = `${kind} ${number}`;
  switch (act) {
    case undefined:
      return `putting on ${what}`;
    case 'mix':
      return `mixing ${what}`;
    case 'pour':
      return `pouring ${what}`;
    case 'scuff':
      return `scuffing before ${what}`;
    case 'bubbles':
      return `the bubble pass of ${what}`;
    default:
      return id;
  }
}
