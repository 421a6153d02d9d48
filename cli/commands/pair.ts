import { writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { stringify } from 'yaml';
import { systemCode } from '../../core/files/folder-error.js';
import type { RankedPair } from '../../core/gear/pair-ranking.js';
import { searchPairs } from '../../core/gear/pair-search.js';
import { listFields } from '../../core/part/help.js';
import { showText } from '../../core/part/input-problem.js';
import { readFields } from '../../core/part/parameters.js';
import type { LengthUnit } from '../../core/units/index.js';
import { listOptions } from '../common-options.js';
import { Failure, problemInOption, problemOfFinding, usageFailure } from '../failure.js';
import { formatHelpPage, optionEntries } from '../help-page.js';
import type { ExitCode, Io } from '../io.js';
import { fieldRow } from '../make-options.js';
import { codeName, type OptionRow } from '../option-row.js';
import { pairFields, requestFrom } from '../pair-fields.js';
import { pairParts } from '../pair-parts.js';
import { formatCandidates, formatPairReport } from '../pair-report.js';
import { parseOptions, wantsHelp } from '../parse-options.js';

const usage = 'patternwright pair [options]';
const group = 'Output';
/** Face width where none is asked for, modules (common practice, no source). */
const usualWidth = 10;

const ownOptions: readonly OptionRow[] = [
  { name: 'choose', group, value: 'n', help: 'Report the n-th candidate and give its parts', fallback: '1' },
  {
    name: 'job',
    group,
    value: 'file',
    help: 'Write a plate job with the two gears; the file must not exist yet',
  },
  ...listOptions.filter((o) => o.name !== 'degrees'),
];

const rowsFor = (unit: LengthUnit): readonly OptionRow[] => [
  ...listFields(pairFields, unit).map((f) => fieldRow(f)),
  ...ownOptions,
];

/** `pair --ratio 2.4 --centre-distance 64mm …`: finds gear pairs that work. */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  if (wantsHelp(argv)) {
    io.out(
      formatHelpPage(
        usage,
        'Finds pairs of gears that run together, from whatever is known',
        optionEntries(rowsFor('mm')),
      ),
    );
    return 0;
  }
  const { positional, values } = await parseOptions('pair', argv, rowsFor('mm'));
  if (positional[0] !== undefined)
    throw usageFailure('too-many', `"${showText(positional[0])}" is not understood`, 'options start with --');
  const unit: LengthUnit = values.units === 'in' ? 'in' : 'mm';
  const own = new Set(ownOptions.map((o) => o.name));
  const raw = Object.fromEntries(
    Object.entries(values)
      .filter(([name]) => !own.has(name))
      .map(([name, value]) => [codeName(name), value]),
  );
  const reading = readFields(pairFields, raw, { lengthUnit: unit });
  if (!reading.ok) {
    throw new Failure(
      2,
      reading.problems.map((p) =>
        problemInOption(p, p.path.length > 0 ? optionOf(p.path[0] as string) : undefined),
      ),
    );
  }
  const view = { lengthUnit: unit, degrees: 'C' } as const;
  const fields = reading.values;
  const { candidates, findings } = searchPairs(requestFrom(fields));
  if (candidates.length === 0)
    throw new Failure(
      1,
      findings.map((f) => problemOfFinding(f, null, view)),
      'No pair meets the request.',
    );
  const number = chosen(values.choose, candidates.length);
  const pair = candidates[number - 1] as RankedPair;
  const parts = pairParts(pair, fields.gearType, fields.faceWidth ?? usualWidth * pair.gear.normalModule);
  if (values.job !== undefined) await writeJob(String(values.job), parts, unit, io);
  if (values.json === true) io.out(`${JSON.stringify({ candidates, chosen: number, parts }, null, 2)}\n`);
  else {
    io.out(
      [
        formatCandidates(candidates, unit),
        '',
        formatPairReport(pair, number, unit),
        'For a plate job:',
        '',
        stringify({ parts }).trimEnd(),
        '',
        ...(values.job === undefined ? [] : [`Wrote ${String(values.job)}`, '']),
      ].join('\n'),
    );
  }
  return 0;
}

const optionOf = (field: string): string =>
  listFields(pairFields, 'mm').find((f) => f.name === field)?.option ?? field;

function chosen(value: string | boolean | undefined, most: number): number {
  if (value === undefined) return 1;
  const number = /^\d{1,4}$/.test(String(value)) ? Number(value) : Number.NaN;
  if (number >= 1 && number <= most) return number;
  throw usageFailure('out-of-range', `--choose is ${showText(String(value))}`, `from 1 to ${most}`);
}

/** A new file, never over another one. */
async function writeJob(file: string, parts: readonly object[], unit: LengthUnit, io: Io): Promise<void> {
  const text = stringify({
    job: 'gear-pair',
    title: 'Pair of gears',
    units: unit,
    alloy: 'tin-bronze',
    parts,
  });
  try {
    await writeFile(resolve(io.cwd, file), text, { flag: 'wx' });
  } catch (error) {
    const reasons: Readonly<Record<string, string>> = {
      EEXIST: 'it is there already',
      ENOENT: 'its folder is not there',
      EACCES: 'the folder may not be written',
      EROFS: 'the disk is read-only',
      ENOSPC: 'the disk is full',
    };
    const text = `cannot write ${showText(file)}: ${reasons[systemCode(error)] ?? 'writing failed'}`;
    const remedy = 'give the name of a new file';
    throw new Failure(1, [{ text: `${text}; ${remedy}`, code: 'job-not-written', message: text, remedy }]);
  }
}
