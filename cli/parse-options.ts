import { showText } from '../core/part/input-problem.js';
import { suggest } from '../core/part/suggest.js';
import { Failure, problemInOption, usageFailure } from './failure.js';
import { codeName, type OptionRow } from './option-row.js';

export interface ParsedOptions {
  readonly positional: readonly string[];
  /** By option name; flags as booleans. */
  readonly values: Readonly<Record<string, string | boolean>>;
}

export const wantsHelp = (argv: readonly string[]): boolean => {
  const end = argv.indexOf('--');
  return (end < 0 ? argv : argv.slice(0, end)).some((a) => a === '--help' || a === '-h');
};

/**
 * Reads a command's arguments; options may be spelled as in a plate job (`--helixAngle`). Unknown options are
 * refused with the nearest known one, and so is an option given twice, without its value or with one too many.
 * @param command for the hint where its help is, for example `make spur-gear`
 * @throws Failure
 */
export async function parseOptions(
  command: string,
  argv: readonly string[],
  rows: readonly OptionRow[],
): Promise<ParsedOptions> {
  const byName = new Map(
    rows.flatMap((row) => [[row.name, row] as const, [codeName(row.name), row] as const]),
  );
  checkTokens(command, argv, rows, byName);
  const parsed = await (await parserFor(rows)).parseAsync([...argv]);
  const values: Record<string, string | boolean> = {};
  for (const row of rows) {
    const value = parsed[row.name];
    if (value === undefined) continue;
    values[row.name] = row.flag ? value === true : readText(row, value);
  }
  return { positional: parsed._.map(String), values };
}

async function parserFor(rows: readonly OptionRow[]) {
  const { default: yargs } = await import('yargs');
  const parser = yargs([])
    .detectLocale(false)
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
      const said = message ?? error?.message ?? '';
      const name = /^Not enough arguments following: (.+)$/.exec(said)?.[1];
      const row = rows.find((r) => name === r.name || name === codeName(r.name));
      throw row === undefined ? (error ?? new Error(said)) : missing(row);
    });
  for (const row of rows) {
    const alias = codeName(row.name);
    parser.option(row.name, {
      ...(alias === row.name ? {} : { alias }),
      ...(row.flag ? { boolean: true as const } : { string: true as const, nargs: 1 }),
    });
  }
  return parser;
}

const refuse = (code: string, row: OptionRow, message: string, remedy: string): Failure =>
  new Failure(2, [problemInOption({ code, path: [], got: '', message, remedy }, row.name)]);

const missing = (row: OptionRow): Failure => refuse('missing', row, 'has no value', `give ${whatFits(row)}`);

/** `one of mm, in`, `a whole number from 6 to 200`, `a folder` */
function whatFits(row: OptionRow): string {
  if (row.choices) return `one of ${row.choices.join(', ')}`;
  const { range = `a ${row.value ?? 'value'}` } = row;
  return range.startsWith('from ') ? `a value ${range}` : range;
}

/** What the parser would let pass: unknown options, values of flags, negated options that are no flags. */
function checkTokens(
  command: string,
  argv: readonly string[],
  rows: readonly OptionRow[],
  byName: ReadonlyMap<string, OptionRow>,
): void {
  for (const token of argv) {
    if (token === '--') return;
    // Words and negative numbers.
    if (!/^-[^\d.]/.test(token)) continue;
    const [spelled = '', value] = splitOnce(token);
    const name = spelled.replace(/^--?/, '');
    const row = spelled.startsWith('--') ? byName.get(name) : undefined;
    if (row?.flag && value !== undefined)
      throw refuse(
        'wrong-type',
        row,
        'is a switch, without a value',
        `write --${row.name} or --no-${row.name}`,
      );
    if (row) continue;
    const negated = spelled.startsWith('--no-') ? byName.get(spelled.slice(5)) : undefined;
    if (negated?.flag && value === undefined) continue;
    if (negated) throw refuse('wrong-type', negated, 'needs a value', `give ${whatFits(negated)}`);
    throw unknown(command, spelled, name, rows);
  }
}

function splitOnce(token: string): readonly [string, string | undefined] {
  const at = token.indexOf('=');
  return at < 0 ? [token, undefined] : [token.slice(0, at), token.slice(at + 1)];
}

function unknown(command: string, spelled: string, name: string, rows: readonly OptionRow[]): Failure {
  const near = suggest(
    name,
    rows.map((row) => row.name),
  );
  return usageFailure(
    'unknown-option',
    `unknown option ${showText(spelled)}`,
    near === undefined ? `see patternwright ${command} --help` : `did you mean --${near}?`,
  );
}

function readText(row: OptionRow, value: unknown): string {
  if (Array.isArray(value)) {
    throw refuse(
      'given-twice',
      row,
      value.length === 2 ? 'is given twice' : `is given ${value.length} times`,
      'give it once',
    );
  }
  const text = String(value);
  if (text.trim() === '') throw refuse('missing', row, 'is empty', `give ${whatFits(row)}`);
  if (/[\p{Cc}\p{Cs}]/u.test(text))
    throw refuse('unreadable', row, 'has a line break or control character', 'write one line of text');
  if (row.choices && !row.choices.includes(text)) {
    const near = suggest(text, row.choices);
    const hint = near === undefined ? '' : `did you mean ${near}? `;
    throw refuse('unknown-choice', row, `is ${showText(text)}`, `${hint}${whatFits(row)}`);
  }
  return text;
}
