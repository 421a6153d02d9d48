import { suggest } from '../core/part/suggest.js';
import type { ExitCode, Io } from './io.js';

interface Command {
  readonly run: (argv: readonly string[], io: Io) => Promise<ExitCode>;
}

/** Loaded when called, so that starting up costs no more than the command needs. */
const commands: Readonly<Record<string, { summary: string; load: () => Promise<Command> }>> = {
  make: {
    summary: 'Make one part: pattern, gating, plate and traveller',
    load: () => import('./commands/make.js'),
  },
  plate: {
    summary: 'Make a plate job: every part of a YAML file',
    load: () => import('./commands/plate.js'),
  },
  examine: {
    summary: 'Look at a mesh: its faults, surfaces, ways to stand, gates',
    load: () => import('./commands/examine.js'),
  },
  pair: {
    summary: 'Find a pair of gears that run together',
    load: () => import('./commands/pair.js'),
  },
  starter: {
    summary: 'Write a part file of your own to start from',
    load: () => import('./commands/starter.js'),
  },
  log: {
    summary: 'Log pours and measured sizes; show what growth they teach',
    load: () => import('./commands/log.js'),
  },
  gallery: {
    summary: 'Serve the page on this machine: pieces to size and take home',
    load: () => import('./commands/gallery.js'),
  },
  list: {
    summary: 'List parts, alloys, investments, flasks or plastics',
    load: () => import('./commands/list.js'),
  },
};

/** One run of the command line: arguments in, exit code out. Every error ends as one message, never a stack. */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  const [word, ...rest] = argv;
  if (word === undefined) {
    io.err(overview());
    return 2;
  }
  if (word === '--help' || word === '-h' || (word === 'help' && rest.length === 0)) {
    io.out(overview());
    return 0;
  }
  if (word === 'help') return run([...rest, '--help'], io);
  if (word === '--version') {
    const { version } = await import('./version.js');
    io.out(`${version}\n`);
    return 0;
  }
  try {
    return await (await findCommand(word)).run(rest, io);
  } catch (error) {
    const { Failure, fitTerminal, problemLines, unforeseenFailure } = await import('./failure.js');
    const failure = error instanceof Failure ? error : unforeseenFailure(error);
    const { problems, closing, exitCode } = failure;
    const lines = [...problemLines(problems), ...(closing === '' ? [] : closing.split('\n'))];
    for (const line of lines) io.err(`${fitTerminal(line, io)}\n`);
    if (wantsJson(argv)) io.out(`${JSON.stringify({ problems }, null, 2)}\n`);
    return exitCode;
  }
}

async function findCommand(word: string): Promise<Command> {
  const command = Object.hasOwn(commands, word) ? commands[word] : undefined;
  if (command) return command.load();
  const { usageFailure } = await import('./failure.js');
  const { showText } = await import('../core/part/input-problem.js');
  const names = Object.keys(commands);
  const known = `commands are ${names.join(', ')}`;
  if (word.startsWith('-'))
    throw usageFailure('no-command', `the command comes first, not ${showText(word)}`, known);
  const near = suggest(word, names);
  throw usageFailure(
    'unknown-command',
    `there is no command "${showText(word)}"`,
    near === undefined ? known : `did you mean ${near}? (${known})`,
  );
}

/** Read without the parser, since a request that cannot be parsed is answered in JSON too. */
function wantsJson(argv: readonly string[]): boolean {
  const end = argv.indexOf('--');
  const before = end < 0 ? argv : argv.slice(0, end);
  return before.lastIndexOf('--json') > before.lastIndexOf('--no-json');
}

const overview = (): string =>
  [
    'patternwright <command> [options]',
    '',
    'Casting patterns as code: grown, gated and vented patterns, print plates and the',
    'shop traveller.',
    '',
    'Commands:',
    ...Object.entries(commands).map(([name, { summary }]) => `  ${name.padEnd(9)}${summary}`),
    '',
    'Options:',
    '  --help     Show this help, or that of a command: patternwright make --help',
    '  --version  Show the version',
    '',
    'Exit code: 0 done; 1 the job cannot be made as asked; 2 the request is wrong;',
    '3 made, but not all of it: parts that cannot be made were left out.',
    'A run that is interrupted ends by its signal (130, 143).',
    '',
  ].join('\n');
