import { randomUUID } from 'node:crypto';
import { alloyNames } from '../../core/foundry/alloys/index.js';
import { investments } from '../../core/foundry/investment.js';
import { plastics } from '../../core/foundry/material.js';
import { logFileName } from '../../core/log/line.js';
import { checkRecord, faults, type PourRecord } from '../../core/log/record.js';
import { showText } from '../../core/part/input-problem.js';
import { suggest, suggestRemedy } from '../../core/part/suggest.js';
import {
  type Parsed,
  parseDuration,
  parsed,
  parseNumber,
  parseTemperature,
  unparsed,
} from '../../core/units/index.js';
import { Failure, type Problem, problemInOption, usageFailure } from '../failure.js';
import { formatHelpPage, optionEntries } from '../help-page.js';
import type { ExitCode, Io } from '../io.js';
import { parseOptions, wantsHelp } from '../parse-options.js';
import { addOptions } from './options.js';
import { parseSizes } from './parse-sizes.js';
import { append, tellTornEnd } from './read-log.js';

const usage = 'patternwright log add --alloy <name> [options]';
const summary = 'Adds one pour, one flask, to the log';

const notes: readonly string[] = [
  'Each size has a name, the way it lay in the print (xy, the default, or z), and what was measured at one place, cold: pattern, casting, and nominal, the size the printer was told. removed is what filing had taken off before the casting was measured.',
  `Example:

  patternwright log add --alloy tin-bronze --flask "soup can 2" \\
    --metal-temperature 1120C --flask-temperature 593C --burnout-hold 4h \\
    --sizes "D pattern=1.490in casting=1.457in; H z pattern=20.4 casting=20" \\
    --faults porosity`,
];

/** Where each option's value goes in a record, to name the option when the record is refused. */
const optionOf: Readonly<Record<string, string>> = {
  metalTemperature: 'metal-temperature',
  flaskTemperature: 'flask-temperature',
  burnoutHold: 'burnout-hold',
};

/** `log add` */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  if (wantsHelp(argv)) {
    io.out(formatHelpPage(usage, summary, optionEntries(addOptions), notes));
    return 0;
  }
  const { positional, values } = await parseOptions('log add', argv, addOptions);
  if (positional[0] !== undefined)
    throw usageFailure(
      'unreadable',
      `"${showText(positional[0])}" is not understood`,
      'options start with --, and a value with a space is put in quotes',
    );
  const { record, remarks } = readRecord(values);
  const file = String(values.file ?? logFileName);
  await tellTornEnd(io, file);
  await append(io, file, [record]);
  for (const remark of remarks) io.err(`${remark}\n`);
  io.out(
    values.json === true
      ? `${JSON.stringify({ file, record }, null, 2)}\n`
      : `Added to ${file}: ${record.date}, ${record.alloy}, ${count(record.sizes.length, 'size')}, ${record.faults.length === 0 ? 'no fault' : record.faults.join(', ')}\n`,
  );
  return 0;
}

const count = (n: number, word: string): string => `${n} ${word}${n === 1 ? '' : 's'}`;

type Values = Readonly<Record<string, string | boolean>>;

function readRecord(values: Values): { readonly record: PourRecord; readonly remarks: readonly string[] } {
  const problems: Problem[] = [];
  const remarks: string[] = [];
  const lengths = values.units === 'in' ? 'in' : 'mm';
  const degrees = values.degrees === 'F' ? 'F' : 'C';
  const refuse = (option: string, code: string, message: string, remedy: string): void => {
    problems.push(problemInOption({ code, path: [], got: '', message, remedy }, option));
  };
  const text = (option: string): string | undefined =>
    values[option] === undefined ? undefined : String(values[option]).trim();
  const read = <T>(option: string, parse: (text: string) => Parsed<T>): T | undefined => {
    const given = text(option);
    if (given === undefined) return undefined;
    const reading = parse(given);
    if (reading.ok) return reading.value;
    refuse(option, 'unreadable', `is ${showText(given)}, which ${reading.problem}`, reading.remedy);
    return undefined;
  };
  /** A name out of the table, or one of the shop's own that is not a slip of one. */
  const name = (option: string, known: readonly string[], fallback?: string): string | undefined => {
    const given = text(option) ?? fallback;
    if (given === undefined || known.includes(given)) return given;
    const near = suggest(given, known);
    if (near !== undefined)
      refuse(option, 'unknown-choice', `is ${showText(given)}`, `did you mean ${near}?`);
    else
      remarks.push(
        `note: there is no ${option} "${showText(given)}" in the table; logged as one of your own`,
      );
    return given;
  };
  const temperature = (option: string) => read(option, (t) => parseTemperature(t, degrees));
  const number = (option: string) => read(option, parseNumber);
  if (values.alloy === undefined) refuse('alloy', 'missing', 'is missing', 'name the alloy that was poured');
  const [xy, z] = [number('printer-correction.xy'), number('printer-correction.z')];
  const data = {
    id: randomUUID(),
    date: text('date') ?? today(),
    job: text('job'),
    part: text('part'),
    flask: text('flask'),
    alloy: name('alloy', alloyNames) ?? 'unknown',
    investment: name(
      'investment',
      investments.map((i) => i.name),
      'gypsum-bonded',
    ),
    settings: {
      metalTemperature: temperature('metal-temperature'),
      flaskTemperature: temperature('flask-temperature'),
      burnoutHold: read('burnout-hold', wholeSeconds),
      growth: number('growth'),
      plastic: name(
        'plastic',
        plastics.map((p) => p.name),
      ),
      printerCorrection: xy === undefined && z === undefined ? undefined : { xy: xy ?? 1, z: z ?? 1 },
    },
    sizes: read('sizes', (t) => parseSizes(t, lengths)) ?? [],
    faults: read('faults', parseFaults) ?? [],
    notes: text('notes') ?? '',
  };
  const check = checkRecord(data);
  if (!check.ok)
    for (const { path, message } of check.problems) {
      const key = path[0] === 'settings' ? (path[1] ?? '') : (path[0] ?? '');
      const option = key === 'printerCorrection' ? `printer-correction.${path[2]}` : (optionOf[key] ?? key);
      const where = key === 'sizes' && path[2] ? `has a ${path[2]} that ${message}` : message;
      refuse(option, 'out-of-range', where, `see patternwright log add --help`);
    }
  if (problems.length > 0 || !check.ok) throw new Failure(2, problems);
  return { record: check.record, remarks: [...remarks, ...unusual(check.record)] };
}

const wholeSeconds = (text: string): Parsed => {
  const reading = parseDuration(text, 'h');
  return reading.ok ? parsed(Math.round(reading.value)) : reading;
};

function parseFaults(text: string): Parsed<readonly PourRecord['faults'][number][]> {
  const words = text
    .toLowerCase()
    .split(/[\s,;]*[,;][\s,;]*/)
    .map((w) => w.trim().replace(/\s+/g, '-'))
    .filter((w) => w !== '' && w !== 'none');
  const known = words.flatMap((w) => faults.find((f) => f === w) ?? []);
  const wrong = words.find((w) => !faults.some((f) => f === w));
  return wrong === undefined
    ? parsed(known)
    : unparsed(`has ${showText(wrong)}`, suggestRemedy(wrong, faults));
}

/** A slip of unit or digit shows in the ratio: castings shrink by a few percent. It is logged all the same. */
const unusual = ({ sizes }: PourRecord): readonly string[] =>
  sizes.flatMap(({ name, pattern, casting, removed = 0 }) => {
    const ratio = pattern === undefined || casting === undefined ? 1 : pattern / (casting + removed);
    return ratio >= 0.97 && ratio <= 1.06
      ? []
      : [
          `note: ${showText(name)}: pattern / casting is ${ratio.toFixed(3)}, which is unusual; is a digit or unit wrong?`,
        ];
  });

/** By the shop's clock. */
function today(): string {
  const now = new Date();
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
