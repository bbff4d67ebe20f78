import { parseShop } from '../../engine/index.ts';
import { splitDeepLayers } from '../../engine/mix/index.ts';
import type { Command } from '../command.ts';
import { EXIT, Refusal } from '../exit.ts';
import { readShopText, shopOf } from '../files.ts';

export const split: Command = {
  name: 'split',
  summary: 'prints a shop file with every layer that is too deep split into pours its maker allows',
  operands: [{ name: 'FILE', about: 'the shop file (- reads standard input)' }],
  options: {},
  more: [
    'Each pour of a split layer gets its share of the wood, and a tack window, mix and bubble passes of its own. Steps',
    'of pieces under way are called by the number of their layer: look at their pins and actuals afterwards.',
    '',
    'example',
    '  npm run --silent split -- deep.shop.json > split.shop.json',
  ],
  run(given, terminal) {
    const file = given.operand('FILE');
    const text = readShopText(file);
    const made = outcomeOf(file, text);
    // What else is wrong with the file is told as for any other command.
    if (made === null || !parseShop(made.text).ok) shopOf(made?.text ?? text, file, terminal);
    if (made === null) return EXIT.badInput;
    for (const { recipe, layer, depthsMm } of made.split) {
      terminal.say(
        `${recipe}: layer ${layer} is now ${depthsMm.length} pours of ${depthsMm.join(', ')} mm\n`,
      );
    }
    if (made.split.length === 0) terminal.say('No layer is too deep; the file is as it was.\n');
    terminal.print(made.text);
    return EXIT.fine;
  },
};

function outcomeOf(file: string, text: string) {
  try {
    return splitDeepLayers(text);
  } catch (fault) {
    if (fault instanceof RangeError) throw new Refusal(`${file}: ${fault.message}`);
    throw fault;
  }
}
