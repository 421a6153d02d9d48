import { bedFields, nestingFields } from '../core/job/bed-schema.js';
import * as schema from '../core/job/job-schema.js';
import { hyphenated, parseSafeName } from '../core/job/safe-name.js';
import type { ParameterSchema, PartDefinition } from '../core/part/contract.js';
import { type FieldHelp, listFields } from '../core/part/help.js';
import type { LengthUnit } from '../core/units/index.js';
import { makeOutputOptions } from './common-options.js';
import type { OptionRow } from './option-row.js';

/** An option of `make` and the place in a plate job that its value goes to. */
export interface JobOption extends OptionRow {
  readonly path: readonly string[];
}

const placeholders: Readonly<Record<FieldHelp['kind'], string>> = {
  length: 'mm',
  angle: 'deg',
  temperature: 'temperature',
  'temperature-rate': 'rate',
  duration: 'time',
  mass: 'mass',
  power: 'power',
  number: 'n',
  count: 'n',
  choice: 'word',
  flag: '',
  text: 'text',
  file: 'file',
};

/** A field as an option row: unit, symbol, range and default from its schema. */
export function fieldRow(field: FieldHelp, name = field.option, group = field.group): OptionRow {
  return {
    name,
    group,
    help: field.symbol === '' ? field.help : `${field.help} (${field.symbol})`,
    range: field.range,
    ...(field.default === '' ? {} : { fallback: field.default }),
    ...(field.kind === 'flag'
      ? { flag: true }
      : { value: field.kind === 'length' ? field.unit : placeholders[field.kind] }),
  };
}

/** Fields as options. */
export const fieldRows = (schema: ParameterSchema, unit: LengthUnit): readonly OptionRow[] =>
  listFields(schema, unit).map((field) => fieldRow(field));

const row = (field: FieldHelp, path: readonly string[], name?: string, group?: string): JobOption => ({
  ...fieldRow(field, name, group),
  path,
});

const text = (name: string, path: readonly string[], help: string, fallback?: string): JobOption => ({
  name,
  group: 'Casting',
  path,
  value: 'name',
  help,
  ...(fallback === undefined ? {} : { fallback }),
});

/** Every option of `make` for one part, parameters first; all but the output ones land in a plate job. */
export const makeOptions = (part: PartDefinition, unit: LengthUnit): readonly JobOption[] => [
  ...(part.presets ? [presetOption(Object.keys(part.presets))] : []),
  ...(part.pieces ? [pieceOption(part.pieces.map((piece) => piece.name))] : []),
  ...listFields(part.parameters, unit).map((f) => row(f, ['parts', '0', 'parameters', f.name])),
  ...castingOptions(part.name, unit),
];

/** The options that no parameter may be called by. */
export const reservedOptions = (): ReadonlySet<string> =>
  new Set(['preset', 'piece', ...[...castingOptions('', 'mm'), ...makeOutputOptions].map((o) => o.name)]);

/** The options that every part has. */
function castingOptions(partName: string, unit: LengthUnit): readonly JobOption[] {
  const settings = listFields(schema.settingsFields, unit).filter(
    (f) => f.name !== 'units' && f.name !== 'degrees',
  );
  return [
    text(
      'name',
      ['job'],
      'Name of the job and its folder',
      partName === 'mesh' ? 'that of the mesh’s file' : partName,
    ),
    text('alloy', ['alloy'], 'Casting alloy: see patternwright list alloys', schema.jobDefaults.alloy),
    text(
      'investment',
      ['investment'],
      'Investment: see patternwright list investments',
      schema.jobDefaults.investment,
    ),
    { ...text('start-at', ['startAt'], 'When the kiln starts: "2026-05-09 18:30"'), value: 'time' },
    { ...text('pour-at', ['pourAt'], 'When the flasks are to be ready, instead'), value: 'time' },
    ...listFields(schema.partFields, unit).map((f) => row(f, ['parts', '0', f.name], f.option, 'Casting')),
    ...settings.map((f) => row(f, [f.name], f.option, f.group === 'Job' ? 'Casting' : f.group)),
    ...listFields(schema.stockFields, unit).map((f) => row(f, ['stock', f.name], `stock.${f.option}`)),
    ...listFields(bedFields, unit).map((f) => row(f, ['bed', f.name], `bed.${f.option}`, 'Printer')),
    ...nestingOptions(unit),
    ...listFields(schema.correctionFields, unit).map((f) =>
      row(f, ['printerCorrection', f.name], `printer-correction.${f.option}`, 'Printer'),
    ),
  ];
}

/** How long, from which start and how many layouts of a plate are tried. */
export const nestingOptions = (unit: LengthUnit): readonly JobOption[] =>
  listFields(nestingFields.omit({ sortBy: true }), unit).map((f) =>
    row(f, ['nesting', f.name], `nest-${f.option}`),
  );

const presetOption = (names: readonly string[]): JobOption => ({
  name: 'preset',
  group: 'Preset',
  path: ['parts', '0', 'preset'],
  value: 'name',
  help: 'A set of values to start from; options given beside it come first',
  range: `one of ${names.join(', ')}`,
});

const pieceOption = (names: readonly string[]): JobOption => ({
  name: 'piece',
  group: 'Casting',
  path: ['parts', '0', 'piece'],
  value: 'name',
  help: 'The one casting to make of those the part consists of',
  range: `one of ${names.join(', ')}`,
  fallback: 'all of them',
});

const unitOptions: readonly JobOption[] = makeOutputOptions
  .filter((o) => o.name === 'units' || o.name === 'degrees')
  .map((o) => ({ ...o, path: [o.name] }));

/** A part made of a file is called after it, where that makes a name. */
function nameOfFile(
  part: PartDefinition,
  values: Readonly<Record<string, string | boolean>>,
): string | undefined {
  const field = listFields(part.parameters, 'mm').find((f) => f.kind === 'file');
  const path = field === undefined ? undefined : values[field.option];
  if (typeof path !== 'string') return undefined;
  const stem = path.replace(/^.*[/\\]/, '').replace(/\.[^.]*$/, '');
  const name = hyphenated(stem);
  return parseSafeName(name).ok ? name : undefined;
}

/** The plate job of one part that the options describe, as plain data for the job reader. */
export function jobFromOptions(
  part: PartDefinition,
  /** The part's name or the path of its file. */
  key: string,
  options: readonly JobOption[],
  values: Readonly<Record<string, string | boolean>>,
): Record<string, unknown> {
  const name = values.name ?? nameOfFile(part, values) ?? part.name;
  const job: Record<string, unknown> = { job: name, parts: [{ name, part: key }] };
  for (const option of [...options, ...unitOptions]) {
    const value = values[option.name];
    if (value !== undefined) put(job, option.path, value);
  }
  return job;
}

function put(target: Record<string, unknown>, path: readonly string[], value: unknown): void {
  const [first, ...rest] = path as [string, ...string[]];
  if (rest.length === 0) target[first] = value;
  else {
    target[first] ??= {};
    put(target[first] as Record<string, unknown>, rest, value);
  }
}

/** The option whose value stands at a path of the job. */
export function optionAt(options: readonly JobOption[], path: readonly string[]): string | undefined {
  // The one pattern bears the job's name.
  const wanted = path.join('/') === 'parts/0/name' ? 'job' : path.join('/');
  return [...options, ...unitOptions].find((o) => o.path.join('/') === wanted)?.name;
}
