/** From raw input (command line options, a job's keys, a form) to a part's parameters. */
import type { z } from 'zod';
import type { LengthUnit } from '../units/index.js';
import type { ParameterSchema, PartDefinition } from './contract.js';
import { type Field, listSchemaFields } from './field-list.js';
import { type InputProblem, showValue } from './input-problem.js';
import { type FieldValue, readFieldValue } from './read-field.js';
import { suggestRemedy } from './suggest.js';

export interface ReadOptions {
  /** What bare lengths are in, and what messages speak. */
  readonly lengthUnit: LengthUnit;
}

export type FieldsReading<T> =
  | { readonly ok: true; readonly values: T }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

export type ParametersReading<T> =
  | { readonly ok: true; readonly parameters: T }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

/**
 * Reads a group of fields made with the helpers of `fields.ts`. Keys may be code names (`helixAngle`) or option
 * names (`helix-angle`); a key whose value is `undefined` counts as not given. `given` are values already in
 * internal units, used where `raw` has none. Every problem (up to 100) is reported, in the order of the raw keys;
 * the paths hold code names. Never throws.
 */
export function readFields<S extends ParameterSchema>(
  schema: S,
  raw: unknown,
  options: ReadOptions,
  given: Readonly<Record<string, unknown>> = {},
): FieldsReading<z.output<S>> {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) {
    return {
      ok: false,
      problems: [problem('wrong-type', [], raw, `is ${showValue(raw)}`, 'give it as keys and values')],
    };
  }
  const fields = listSchemaFields(schema);
  const values = new Map<string, unknown>(Object.entries(given));
  const problems = [
    ...readKeys(fields, raw as Readonly<Record<string, unknown>>, options, values),
    ...fields
      .filter((field) => field.required && !values.has(field.name))
      .map((field) => problem('missing', [field.name], undefined, 'is missing', field.info.help)),
  ];
  if (problems.length > 0) return { ok: false, problems };
  const checked = schema.safeParse(Object.fromEntries(values));
  if (checked.success) return { ok: true, values: checked.data as z.output<S> };
  return {
    ok: false,
    problems: checked.error.issues.map((issue) =>
      problem('refused', issue.path.map(String), values.get(String(issue.path[0])), issue.message, ''),
    ),
  };
}

/**
 * Reads a part's parameters; see `readFields`. `preset` names one of the part's presets, whose values stand in
 * for what is not given.
 */
export function readParameters<S extends ParameterSchema>(
  definition: PartDefinition<S>,
  raw: unknown,
  options: ReadOptions & { readonly preset?: string | undefined },
): ParametersReading<z.output<S>> {
  const presets = definition.presets ?? {};
  const { preset } = options;
  if (preset !== undefined && !Object.hasOwn(presets, preset)) {
    const names = Object.keys(presets);
    const remedy = names.length === 0 ? `${definition.name} has no presets` : suggestRemedy(preset, names);
    return {
      ok: false,
      problems: [problem('unknown-preset', ['preset'], preset, `is ${showValue(preset)}`, remedy)],
    };
  }
  const given = preset === undefined ? {} : (presets[preset] as Readonly<Record<string, unknown>>);
  const reading = readFields(definition.parameters, raw, options, given);
  return reading.ok ? { ok: true, parameters: reading.values } : reading;
}

/** Beyond this the input is not the file that was meant. */
const mostProblems = 100;

/** Reads the known keys into `values` and gives the problems of all. */
function readKeys(
  fields: readonly Field[],
  raw: Readonly<Record<string, unknown>>,
  options: ReadOptions,
  values: Map<string, unknown>,
): InputProblem[] {
  const bySpelling = new Map(fields.flatMap((f) => [[f.option, f] as const, [f.name, f] as const]));
  const spelledAs = new Map<string, string>();
  const problems: InputProblem[] = [];
  for (const key of Object.keys(raw)) {
    if (raw[key] === undefined) continue;
    if (problems.length >= mostProblems) break;
    const field = bySpelling.get(key);
    if (field === undefined) {
      const names = fields.map((f) => (key.includes('-') ? f.option : f.name));
      problems.push(problem('unknown-key', [key], raw[key], 'unknown key', suggestRemedy(key, names)));
      continue;
    }
    const earlier = spelledAs.get(field.name);
    if (earlier !== undefined) {
      const both = `is given twice, as ${earlier} and as ${key}`;
      problems.push(problem('given-twice', [field.name], raw[key], both, 'keep one of them'));
      continue;
    }
    spelledAs.set(field.name, key);
    const reading = readFieldValue(field, raw[key], options.lengthUnit);
    // Kept even when refused, so that a required field with a bad value is not also called missing.
    values.set(field.name, reading.ok ? (reading.value satisfies FieldValue) : undefined);
    if (!reading.ok) problems.push(reading.problem);
  }
  return problems;
}

const problem = (
  code: string,
  path: readonly string[],
  got: unknown,
  message: string,
  remedy: string,
): InputProblem => ({ code, path, got: showValue(got), message, remedy });
