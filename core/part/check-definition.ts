/** Whether what a part file gives is a part: every field looked at, every fault told. */
import type { z } from 'zod';
import { checkFields, schemaOf } from './check-fields.js';
import { isTyped, type Report, reporter } from './check-value.js';
import type { ParameterSchema, PartDefinition } from './contract.js';
import type { Field } from './field-list.js';
import { formatRange } from './field-text.js';
import { type InputProblem, showValue } from './input-problem.js';
import { suggestRemedy } from './suggest.js';

export interface DefinitionRules {
  /** Options that `make` has beside a part's parameters. */
  readonly reserved: ReadonlySet<string>;
  /** What is wrong with a name that becomes a folder, if anything: `is a path, not a name`. */
  readonly unsafeName: (name: string) => string | undefined;
}

export type DefinitionReading =
  | { readonly ok: true; readonly definition: PartDefinition }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

const keys = ['name', 'summary', 'parameters', 'presets', 'pieces', 'tolerance', 'build'];
const kebab = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/;
const longestSummary = 200;
const largestTolerance = 1;

/** Checks a value that code of somebody's own gave for a part. Never throws, whatever the value does. */
export function checkDefinition(value: unknown, rules: DefinitionRules): DefinitionReading {
  const { problems, report } = reporter();
  try {
    if (isTyped<Record<string, unknown>>(value, 'object')) checkAll(value, rules, report);
    else report([], `is ${aKindOf(value)}`, 'give what definePart({ … }) returns');
  } catch (error) {
    report([], `cannot be read: ${showValue(error instanceof Error ? error.message : error)}`, '');
  }
  return problems.length === 0
    ? { ok: true, definition: value as PartDefinition }
    : { ok: false, problems: problems.slice(0, 20) };
}

const aKindOf = (value: unknown): string =>
  typeof value === 'function' && /^class\b/.test(String(value)) ? 'a class' : kinds(value);

const kinds = (value: unknown): string =>
  value === undefined || value === null
    ? 'nothing'
    : Array.isArray(value)
      ? 'a list'
      : typeof value === 'object'
        ? 'an object'
        : `a ${typeof value}`;

function checkAll(given: Record<string, unknown>, rules: DefinitionRules, report: Report): void {
  if (typeof given.then === 'function') {
    report([], 'is a promise', 'write export default await …, or define the part at once');
    return;
  }
  for (const key of Object.keys(given))
    if (!keys.includes(key)) report([key], 'unknown key', suggestRemedy(key, keys), given[key]);
  checkName(given.name, rules, report);
  checkSummary(given.summary, report);
  const schema = schemaOf(given.parameters, report);
  const fields = schema && checkFields(schema, rules.reserved, report);
  if (schema && fields) checkPresets(given.presets, schema, fields, report);
  checkPieces(given.pieces, report);
  const { tolerance } = given;
  if (tolerance !== undefined && !(isTyped<number>(tolerance, 'number') && tolerance > 0 && tolerance <= 1))
    report(['tolerance'], `is ${showValue(tolerance)}`, `above 0 to ${largestTolerance} mm`, tolerance);
  checkBuild(given.build, report);
}

function checkName(name: unknown, rules: DefinitionRules, report: Report): void {
  const remedy = 'small letters, digits and single hyphens, like spool-flange';
  if (name === undefined) report(['name'], 'is missing', remedy);
  else if (typeof name !== 'string' || !kebab.test(name))
    report(['name'], `is ${showValue(name)}`, remedy, name);
  else {
    const unsafe = rules.unsafeName(name);
    if (unsafe !== undefined) report(['name'], unsafe, 'choose another name', name);
  }
}

function checkSummary(summary: unknown, report: Report): void {
  const remedy = 'one line that says what it is, like Flange of a rope spool';
  if (summary === undefined) report(['summary'], 'is missing', remedy);
  else if (typeof summary !== 'string' || summary.trim() === '' || /\p{Cc}/u.test(summary))
    report(['summary'], `is ${showValue(summary)}`, remedy, summary);
  else if (summary.length > longestSummary)
    report(
      ['summary'],
      `is ${summary.length} characters long`,
      `at most ${longestSummary} characters`,
      summary,
    );
}

function checkPieces(pieces: unknown, report: Report): void {
  if (pieces === undefined) return;
  if (!Array.isArray(pieces) || pieces.length === 0) {
    report(['pieces'], `is ${kinds(pieces)}`, 'list the castings, or leave it out', pieces);
    return;
  }
  const seen = new Set<unknown>();
  for (const [i, piece] of pieces.entries()) {
    const at = ['pieces', String(i)];
    const { name, title } = (isTyped<Record<string, unknown>>(piece, 'object') ? piece : {}) as {
      name?: unknown;
      title?: unknown;
    };
    if (typeof name !== 'string' || !kebab.test(name))
      report([...at, 'name'], `is ${showValue(name)}`, 'a word like ring or upper-leaf', name);
    else if (seen.has(name)) report([...at, 'name'], `is ${name} again`, 'call each piece otherwise', name);
    seen.add(name);
    if (typeof title !== 'string' || title.trim() === '')
      report([...at, 'title'], `is ${showValue(title)}`, 'a heading like Ring of a ring pull', title);
  }
}

function checkBuild(build: unknown, report: Report): void {
  if (build === undefined)
    report(['build'], 'is missing', 'write build(parameters, stock, kit) { return { … }; }');
  else if (typeof build !== 'function')
    report(['build'], `is ${kinds(build)}`, 'write build(parameters, stock, kit) { return { … }; }', build);
  else if (/^(Async|Generator)/.test(build.constructor.name))
    report(['build'], 'is async or a generator', 'write a plain function that returns the solid at once');
}

/** Presets are in the schema's own units: numbers in mm and radians. */
function checkPresets(
  presets: unknown,
  schema: ParameterSchema,
  fields: readonly Field[],
  report: Report,
): void {
  if (presets === undefined) return;
  if (!isTyped<Record<string, unknown>>(presets, 'object')) {
    report(['presets'], `is ${kinds(presets)}`, 'give names and values: { large: { … } }', presets);
    return;
  }
  const names = fields.map((field) => field.name);
  for (const [preset, values] of Object.entries(presets)) {
    const at = ['presets', preset];
    if (!/^[a-z0-9]+(-[a-z0-9]+)*$/i.test(preset))
      report(at, 'is not a name', 'letters, digits and single hyphens, like heavy-duty', preset);
    if (!isTyped<Record<string, unknown>>(values, 'object')) {
      report(at, `is ${kinds(values)}`, 'give parameters and their values', values);
      continue;
    }
    for (const key of Object.keys(values))
      if (!names.includes(key))
        report([...at, key], 'unknown parameter', suggestRemedy(key, names), values[key]);
    const unlike = issuesOf(schema, values);
    for (const issue of unlike) {
      const field = fields.find(({ name }) => name === issue.path[0]);
      // A parameter that must be given need not be in a preset.
      if (field?.required && !Object.hasOwn(values, field.name)) continue;
      if (field === undefined) report(at, issue.message, '');
      else report([...at, field.name], ...presetFault(field, values[field.name]), values[field.name]);
    }
  }
}

function presetFault({ info }: Field, value: unknown): readonly [string, string] {
  const inside = formatRange(info, 'mm');
  if (typeof value === 'string' && info.min !== undefined)
    return [`is the text ${showValue(value)}`, 'presets hold numbers, in mm and radians'];
  return [`is ${showValue(value)}`, info.kind === 'angle' ? `${inside}, in radians` : inside];
}

function issuesOf(schema: ParameterSchema, values: unknown): readonly z.core.$ZodIssue[] {
  const reading = schema.safeParse(values);
  return reading.success ? [] : reading.error.issues;
}
