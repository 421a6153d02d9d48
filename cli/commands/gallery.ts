import type { Server } from 'node:http';
import { systemCode } from '../../core/files/folder-error.js';
import { showText } from '../../core/part/input-problem.js';
import { Failure, problemInOption, usageFailure } from '../failure.js';
import { formatHelpPage, optionEntries } from '../help-page.js';
import type { ExitCode, Io } from '../io.js';
import type { OptionRow } from '../option-row.js';
import { parseOptions, wantsHelp } from '../parse-options.js';

const usualPort = 4780;
/** Ports tried, one after the other, where none is asked for. */
const tries = 20;
const portRange = 'a whole number from 1 to 65535';

const options: readonly OptionRow[] = [
  {
    name: 'port',
    group: 'Address',
    help: 'Port on this machine',
    value: 'n',
    range: portRange,
    fallback: `${usualPort}, or the next one that is free`,
  },
  { name: 'help', group: 'Output', help: 'Show this help', flag: true },
];

/** `gallery [--port N]` */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  if (wantsHelp(argv)) {
    io.out(
      formatHelpPage(
        'patternwright gallery [--port N]',
        'Serves the page on this machine, until Ctrl-C: choose a piece, size it, take its patterns home',
        optionEntries(options),
        ['Everything is worked out in the browser; nothing leaves this machine.'],
      ),
    );
    return 0;
  }
  const { positional, values } = await parseOptions('gallery', argv, options);
  if (positional[0] !== undefined)
    throw usageFailure(
      'too-many',
      `"${showText(positional[0])}" is one word too many`,
      'gallery takes options alone',
    );
  const port = values.port === undefined ? undefined : readPort(String(values.port));
  const { findPageFolder } = await import('../gallery/page-folder.js');
  const folder = findPageFolder();
  if (folder === undefined)
    throw refusal('page-not-built', 'The page has not been built.', 'Run `npm run gallery` first.');
  const { endServer, host } = await import('../gallery/serve-page.js');
  const server = await serveOn(folder, port);
  const held = io.holdInterrupts?.();
  const address = server.address();
  const got = typeof address === 'object' && address ? address.port : port;
  io.out(`The gallery is at http://${host}:${got}/\nCtrl-C ends it.\n`);
  await (held?.whenInterrupted ?? new Promise<void>((resolve) => server.once('close', resolve)));
  await endServer(server);
  held?.release();
  return 0;
}

function readPort(text: string): number {
  const port = /^\d{1,5}$/.test(text) ? Number(text) : 0;
  if (port >= 1 && port <= 65535) return port;
  const problem = {
    code: 'out-of-range',
    path: [],
    got: text,
    message: `is ${showText(text)}`,
    remedy: portRange,
  };
  throw new Failure(2, [problemInOption(problem, 'port')]);
}

/** On the port asked for; where none is, on the usual one or the next that is free. */
async function serveOn(folder: string, asked: number | undefined): Promise<Server> {
  const { servePage } = await import('../gallery/serve-page.js');
  const first = asked ?? usualPort;
  const last = asked ?? usualPort + tries - 1;
  for (let port = first; ; port++) {
    try {
      return await servePage(folder, port);
    } catch (error) {
      const code = systemCode(error);
      if (code === 'EADDRINUSE' && port < last) continue;
      throw portFailure(code, first, last) ?? error;
    }
  }
}

function portFailure(code: string | undefined, first: number, last: number): Failure | undefined {
  const remedy = 'Name another one: --port 8080.';
  if (code === 'EADDRINUSE' && first < last)
    return refusal('port-taken', `The ports from ${first} to ${last} are all taken.`, remedy);
  if (code === 'EADDRINUSE') return refusal('port-taken', `Port ${first} is taken.`, remedy);
  if (code === 'EACCES') return refusal('port-refused', `Port ${first} may not be used.`, remedy);
  return undefined;
}

const refusal = (code: string, message: string, remedy: string): Failure =>
  new Failure(1, [{ text: `${message} ${remedy}`, code, message, remedy }]);
