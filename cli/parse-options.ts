import yargs from 'yargs';
import { suggest } from '../core/part/suggest.js';
import { UsageError } from './io.js';

/** One option of a command, as help shows it. All values are read as text: units are the core's to read. */
export interface OptionRow {
  /** Without dashes, for example `helix-angle` or `stock.flank`. */
  readonly name: string;
  readonly group: string;
  readonly help: string;
  /** Shown as the default. */
  readonly fallback?: string;
  readonly choices?: readonly string[];
  /** Takes no value. */
  readonly flag?: boolean;
}

export interface ParsedOptions {
  readonly positional: readonly string[];
  readonly values: Readonly<Record<string, string | boolean>>;
}

const helpWidth = 80;

function parserFor(usage: string, rows: readonly OptionRow[]) {
  const parser = yargs([])
    .scriptName('patternwright')
    .usage(usage)
    .wrap(helpWidth)
    .help(false)
    .version(false)
    .exitProcess(false)
    .parserConfiguration({
      'parse-numbers': false,
      'parse-positional-numbers': false,
      'dot-notation': false,
      'camel-case-expansion': false,
      'boolean-negation': true,
      'short-option-groups': false,
    })
    .fail((message, error) => {
      throw error ?? new UsageError(message);
    });
  for (const row of rows) {
    parser.option(row.name, {
      group: `${row.group}:`,
      describe: row.help,
      ...(row.flag ? { boolean: true as const } : { string: true as const, requiresArg: true }),
      ...(row.fallback === undefined ? {} : { defaultDescription: row.fallback }),
    });
  }
  return parser;
}

/** The help page of a command. */
export const formatHelp = (usage: string, rows: readonly OptionRow[]): Promise<string> =>
  parserFor(usage, rows)
    .getHelp()
    .then(
      (text) =>
        `${text.replaceAll(/ +\[(string|boolean)\]/g, (m) => (m.trim() === '[boolean]' ? '' : ''))}\n`,
    );

/**
 * Reads a command's arguments. Unknown options are refused with the nearest known one, and so is an option given
 * twice or without its value.
 * @throws UsageError
 */
export async function parseOptions(
  argv: readonly string[],
  rows: readonly OptionRow[],
): Promise<ParsedOptions> {
  const parsed = await parserFor('', rows).parseAsync([...argv]);
  const values: Record<string, string | boolean> = {};
  const names = rows.map((row) => row.name);
  for (const [key, value] of Object.entries(parsed)) {
    if (key === '_' || key === '$0') continue;
    const row = rows.find((r) => r.name === key);
    if (!row) {
      const near = suggest(key, names);
      throw new UsageError(`unknown option --${key}${near === undefined ? '' : `; did you mean --${near}?`}`);
    }
    if (value === undefined) continue;
    if (Array.isArray(value)) throw new UsageError(`--${key} is given ${value.length} times; give it once`);
    values[key] = row.flag ? value === true : String(value);
  }
  return { positional: parsed._.map(String), values };
}
