import { stringify } from 'yaml';
import type { AnyRankedPair } from '../../core/gear/pair-ranking.js';
import { searchMesh } from '../../core/gear/pair-search.js';
import { strengthCaveats } from '../../core/gear/strength.js';
import { type PairFieldValues, pairFields } from '../../core/pair/fields.js';
import { pairJob, pairNotes } from '../../core/pair/job.js';
import { pairParts } from '../../core/pair/parts.js';
import { readPairRequest } from '../../core/pair/request.js';
import { optionName } from '../../core/part/field-list.js';
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
import { formatBacklash } from '../pair-backlash-report.js';
import { formatLoad } from '../pair-load-report.js';
import { pairTextOptions } from '../pair-options.js';
import { formatCandidates, formatPairReport } from '../pair-report.js';
import { parseOptions, wantsHelp } from '../parse-options.js';
import { writePairJob } from '../write-pair-job.js';

const usage = 'patternwright pair [options]';
const group = 'Output';

const ownOptions: readonly OptionRow[] = [
  { name: 'choose', group, value: 'n', help: 'Report the n-th candidate and give its parts', fallback: '1' },
  {
    name: 'job',
    group,
    value: 'file',
    help: 'Write a plate job with the two parts; the file must not exist yet',
  },
  ...listOptions.filter((o) => o.name !== 'degrees'),
];

/** Fields and text options under their headings, then the output. */
function rowsFor(unit: LengthUnit): readonly OptionRow[] {
  const fields = listFields(pairFields, unit).map((f) => fieldRow(f));
  const groups = [...new Set(fields.map((row) => row.group))];
  return [
    ...groups.flatMap((g) => [...pairTextOptions, ...fields].filter((row) => row.group === g)),
    ...ownOptions,
  ];
}

/** `pair --ratio 2.4 --centre-distance 64mm …`: finds gear pairs that work. */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  if (wantsHelp(argv)) {
    io.out(
      formatHelpPage(
        usage,
        'Finds pairs of gears, a pinion in a ring or on a rack, from whatever is known',
        optionEntries(rowsFor('mm')),
        [`The strength is an estimate. ${strengthCaveats[0]} ${strengthCaveats.at(-1)}`],
      ),
    );
    return 0;
  }
  const { positional, values } = await parseOptions('pair', argv, rowsFor('mm'));
  if (positional[0] !== undefined)
    throw usageFailure('too-many', `"${showText(positional[0])}" is not understood`, 'options start with --');
  const unit: LengthUnit = values.units === 'in' ? 'in' : 'mm';
  const fields = fieldsFrom(values, unit);
  const { request, alloys } = requestFrom(fields, values, unit);
  const { candidates, findings } = searchMesh(request);
  if (candidates.length === 0)
    throw new Failure(
      1,
      findings.map((f) => problemOfFinding(f, null, { lengthUnit: unit, degrees: 'C' })),
      [
        'No pair meets the request.',
        ...(fields.largestDiameter === undefined && findings.some((f) => f.code === 'too-large-across')
          ? ['That space is what the largest usual flask holds; --largest-diameter sets another.']
          : []),
      ].join(' '),
    );
  const number = chosen(values.choose, candidates.length);
  const pair = candidates[number - 1] as AnyRankedPair;
  const parts = pairParts(pair, fields, [alloys[0].name, alloys[1].name]);
  const job = pairJob(pair, parts, alloys, unit);
  if (values.job !== undefined) await writePairJob(io.cwd, String(values.job), job);
  if (values.json === true) {
    const caveats = strengthCaveats;
    io.out(
      `${JSON.stringify({ candidates, chosen: number, notes: pairNotes(pair, unit), caveats, parts }, null, 2)}\n`,
    );
    return 0;
  }
  io.out(
    [
      formatCandidates(candidates, unit),
      '',
      formatPairReport(pair, number, candidates.length, unit),
      '',
      formatBacklash(pair, fields, unit),
      '',
      formatLoad(pair, fields, [alloys[0].name, alloys[1].name], unit),
      '',
      'For a plate job:',
      '',
      stringify({ parts }, { aliasDuplicateObjects: false }).trimEnd(),
      '',
      ...(values.job === undefined ? [] : [`Wrote ${String(values.job)}`, '']),
    ].join('\n'),
  );
  return 0;
}

/** The search's request from fields and texts. @throws Failure */
function requestFrom(
  fields: PairFieldValues,
  values: Readonly<Record<string, string | boolean>>,
  unit: LengthUnit,
) {
  const texts = Object.fromEntries(
    pairTextOptions
      .filter(({ name }) => values[name] !== undefined)
      .map(({ name }) => [codeName(name), String(values[name])]),
  );
  const reading = readPairRequest(fields, texts, unit);
  if (reading.ok) return reading;
  throw new Failure(
    2,
    reading.problems.map((p) => problemInOption(p, optionName(p.path[0] as string))),
  );
}

/** The options that are fields. @throws Failure */
function fieldsFrom(values: Readonly<Record<string, string | boolean>>, unit: LengthUnit) {
  const other = new Set([...ownOptions, ...pairTextOptions].map((o) => o.name));
  const raw = Object.fromEntries(
    Object.entries(values)
      .filter(([name]) => !other.has(name))
      .map(([name, value]) => [codeName(name), value]),
  );
  const reading = readFields(pairFields, raw, { lengthUnit: unit });
  if (reading.ok) return reading.values;
  throw new Failure(
    2,
    reading.problems.map((p) =>
      problemInOption(p, p.path.length > 0 ? optionOf(p.path[0] as string) : undefined),
    ),
  );
}

const optionOf = (field: string): string =>
  listFields(pairFields, 'mm').find((f) => f.name === field)?.option ?? field;

function chosen(value: string | boolean | undefined, most: number): number {
  if (value === undefined) return 1;
  const number = /^\d{1,4}$/.test(String(value)) ? Number(value) : Number.NaN;
  if (number >= 1 && number <= most) return number;
  throw usageFailure('out-of-range', `--choose is ${showText(String(value))}`, `from 1 to ${most}`);
}
