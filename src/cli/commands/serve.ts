import { buildIfStale, serveApp, type Server } from '../app.ts';
import type { Command } from '../command.ts';
import { demoShop } from '../demo.ts';
import { EXIT, Refusal } from '../exit.ts';
import { planSummary } from '../page/index.ts';
import { PLANNING_OPTIONS, planWith, readPlanningChoice } from '../planning.ts';
import { readWhole } from '../values.ts';

const DEFAULT_PORT = 4173;

export const serve: Command = {
  name: 'serve',
  summary: 'plans the demo shop, prints a summary and shows the app in the browser',
  operands: [],
  options: {
    port: { value: 'N', about: `where to serve; the next free port when it is taken (${DEFAULT_PORT})` },
    host: {
      value: 'NAME',
      about: 'the name or number to listen on; only this machine otherwise (localhost)',
    },
    ...PLANNING_OPTIONS,
  },
  more: ['Builds the app first if needed. Ctrl-C stops it.'],
  async run(given, terminal) {
    const choice = readPlanningChoice(given);
    const port = readWhole('port', given.value('port'), { least: 1, most: 65_535, fallback: DEFAULT_PORT });
    const shop = demoShop(choice.now, terminal);
    terminal.print(`${planSummary(shop, planWith(shop, choice, terminal), terminal)}\n`);
    terminal.progress('building the app');
    await buildIfStale();
    const server = await serveAt(given.value('host') ?? 'localhost', port);
    terminal.print(`Pourwright is at ${server.address}    (Ctrl-C stops it)\n`);
    await stopped();
    await server.close();
    return EXIT.fine;
  },
};

/** @throws Refusal when the host is not one that this machine can listen on */
async function serveAt(host: string, port: number): Promise<Server> {
  try {
    return await serveApp(host, port);
  } catch (fault) {
    const code = fault instanceof Error && 'code' in fault ? String(fault.code) : '';
    if (!NO_HOST.includes(code)) throw fault;
    throw new Refusal(`--host: found "${host}", needs a name or number of this machine, such as localhost`);
  }
}

/** What Node says of a host that cannot be found, or is some other machine's. */
const NO_HOST = ['ENOTFOUND', 'EADDRNOTAVAIL', 'EAI_AGAIN'];

const stopped = () =>
  new Promise<void>((resolve) => {
    process.once('SIGINT', () => resolve());
    process.once('SIGTERM', () => resolve());
  });
