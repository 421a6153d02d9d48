import * as schema from '../core/job/job-schema.js';
import type { PartDefinition } from '../core/part/contract.js';
import { type FieldHelp, listFields } from '../core/part/help.js';
import type { LengthUnit } from '../core/units/index.js';
import { outputOptions } from './common-options.js';
import type { OptionRow } from './parse-options.js';

/** An option of `make` and the place in a plate job that its value goes to. */
export interface JobOption extends OptionRow {
  readonly path: readonly string[];
  readonly kind: FieldHelp['kind'];
}

function row(field: FieldHelp, path: readonly string[], name = field.option, group = field.group): JobOption {
  const facts = [field.symbol, field.choices.length > 0 ? field.choices.join(', ') : field.range].filter(
    (x) => x !== '',
  );
  return {
    name,
    group,
    path,
    kind: field.kind,
    help: `${field.help}${facts.length > 0 ? ` (${facts.join('; ')})` : ''}`,
    ...(field.default === '' ? {} : { fallback: field.default }),
    ...(field.kind === 'flag' ? { flag: true } : {}),
  };
}

const text = (name: string, path: readonly string[], help: string, fallback?: string): JobOption => ({
  name,
  group: 'Casting',
  path,
  kind: 'choice',
  help,
  ...(fallback === undefined ? {} : { fallback }),
});

/** Every option of `make` for one part, parameters first; all but the output ones land in a plate job. */
export function makeOptions(part: PartDefinition, unit: LengthUnit): readonly JobOption[] {
  const settings = listFields(schema.settingsFields, unit).filter(
    (f) => f.name !== 'units' && f.name !== 'degrees',
  );
  return [
    ...listFields(part.parameters, unit).map((f) => row(f, ['parts', '0', 'parameters', f.name])),
    ...(part.presets
      ? [text('preset', ['parts', '0', 'preset'], `A set of values: ${Object.keys(part.presets).join(', ')}`)]
      : []),
    text('name', ['job'], 'Name of the job and its folder', part.name),
    text('alloy', ['alloy'], 'Casting alloy; see `patternwright list alloys`', schema.jobDefaults.alloy),
    text(
      'investment',
      ['investment'],
      'Investment; see `patternwright list investments`',
      schema.jobDefaults.investment,
    ),
    ...listFields(schema.partFields, unit).map((f) => row(f, ['parts', '0', f.name], f.option, 'Casting')),
    ...settings.map((f) => row(f, [f.name], f.option, 'Casting')),
    ...listFields(schema.stockFields, unit).map((f) => row(f, ['stock', f.name], `stock.${f.option}`)),
    ...listFields(schema.bedFields, unit).map((f) => row(f, ['bed', f.name], `bed.${f.option}`, 'Printer')),
    ...listFields(schema.correctionFields, unit).map((f) =>
      row(f, ['printerCorrection', f.name], `correction.${f.option}`, 'Printer'),
    ),
  ];
}

/** The plate job of one part that the options describe, as plain data for the job reader. */
export function jobFromOptions(
  part: PartDefinition,
  options: readonly JobOption[],
  values: Readonly<Record<string, string | boolean>>,
): Record<string, unknown> {
  const job: Record<string, unknown> = { job: part.name, parts: [{ name: part.name, part: part.name }] };
  for (const option of [...options, ...unitOptions]) {
    const value = values[option.name];
    if (value === undefined) continue;
    put(job, option.path, option.kind === 'count' && /^\d+$/.test(String(value)) ? Number(value) : value);
  }
  const name = job.job;
  (job.parts as Record<string, unknown>[])[0] = { ...(job.parts as Record<string, unknown>[])[0], name };
  return job;
}

const unitOptions: readonly JobOption[] = outputOptions
  .filter((o) => o.name === 'units' || o.name === 'degrees')
  .map((o) => ({ ...o, path: [o.name], kind: 'choice' as const }));

function put(target: Record<string, unknown>, path: readonly string[], value: unknown): void {
  const [first, ...rest] = path as [string, ...string[]];
  if (rest.length === 0) target[first] = value;
  else {
    target[first] ??= {};
    put(target[first] as Record<string, unknown>, rest, value);
  }
}

/** The option whose value stands at a path of the job. */
export const optionAt = (options: readonly JobOption[], path: readonly string[]): string | undefined =>
  [...options, ...unitOptions].find((o) => o.path.join('/') === path.join('/'))?.name;
