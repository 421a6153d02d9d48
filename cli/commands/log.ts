import { showText } from '../../core/part/input-problem.js';
import { suggest } from '../../core/part/suggest.js';
import { usageFailure } from '../failure.js';
import type { ExitCode, Io } from '../io.js';

interface Command {
  readonly run: (argv: readonly string[], io: Io) => Promise<ExitCode>;
}

const commands: Readonly<Record<string, { summary: string; load: () => Promise<Command> }>> = {
  add: { summary: 'Add one pour to the log', load: () => import('../log/add.js') },
  show: { summary: 'Show what the log teaches', load: () => import('../log/show.js') },
  export: { summary: 'Write the log as a CSV table', load: () => import('../log/export.js') },
  import: { summary: 'Add the pours of a CSV table', load: () => import('../log/import.js') },
};

/** `log add|show|export|import` */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  const [word, ...rest] = argv;
  if (word === undefined || word === '--help' || word === '-h') {
    (word === undefined ? io.err : io.out)(overview());
    return word === undefined ? 2 : 0;
  }
  const command = Object.hasOwn(commands, word) ? commands[word] : undefined;
  if (command) return (await command.load()).run(rest, io);
  const names = Object.keys(commands);
  const known = `one of ${names.join(', ')}`;
  if (word.startsWith('-'))
    throw usageFailure('no-command', `what to do comes first, not ${showText(word)}`, known);
  const near = suggest(word, names);
  throw usageFailure(
    'unknown-command',
    `there is no log ${showText(word)}`,
    near === undefined ? known : `did you mean ${near}? (${known})`,
  );
}

const overview = (): string =>
  [
    `patternwright log <${Object.keys(commands).join('|')}> [options]`,
    '',
    'The pour log: what was poured, how, and how it came out. A plain file in the',
    'shop folder, pour-log.jsonl, that is only ever added to.',
    '',
    'Commands:',
    ...Object.entries(commands).map(([name, { summary }]) => `  ${name.padEnd(8)}${summary}`),
    '',
    'patternwright log <command> --help lists the options of each.',
    '',
  ].join('\n');
