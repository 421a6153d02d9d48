import { suggest } from '../core/part/suggest.js';
import { type ExitCode, type Io, UsageError } from './io.js';

interface Command {
  readonly summary: string;
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
  list: {
    summary: 'List parts, alloys, investments, flasks or plastics',
    load: () => import('./commands/list.js'),
  },
};

/** One run of the command line: arguments in, exit code out. Every error ends as one message, never a stack. */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  const [word, ...rest] = argv;
  if (word === undefined || word === '--help' || word === 'help') {
    io.out(overview());
    return word === undefined ? 2 : 0;
  }
  if (word === '--version') {
    const { version } = await import('./version.js');
    io.out(`${version}\n`);
    return 0;
  }
  try {
    const command = Object.hasOwn(commands, word) ? commands[word] : undefined;
    if (!command) {
      const near = suggest(word, Object.keys(commands));
      throw new UsageError(
        `there is no command "${word.slice(0, 60)}"${near === undefined ? '' : `; did you mean ${near}?`} (commands: ${Object.keys(commands).join(', ')})`,
      );
    }
    return await (await command.load()).run(rest, io);
  } catch (error) {
    if (error instanceof UsageError) {
      io.err(`${error.message}\n`);
      return 2;
    }
    io.err(
      `This should not have happened: ${error instanceof Error ? error.message : String(error)}\nNothing was written. Please report it with the command that led here.\n`,
    );
    return 1;
  }
}

const overview = (): string =>
  [
    'patternwright <command> [options]',
    '',
    'Casting patterns as code: grown, gated and vented patterns, print plates and the',
    'shop traveller.',
    '',
    ...Object.entries(commands).map(([name, { summary }]) => `  ${name.padEnd(8)}${summary}`),
    '',
    '`patternwright <command> --help` says more.',
    '',
  ].join('\n');
