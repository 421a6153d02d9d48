/** Whether a part's parameters are fields that options, help and jobs can be made of. */
import type { z } from 'zod';
import { isTyped, type Report } from './check-value.js';
import type { ParameterSchema } from './contract.js';
import { type Field, listSchemaFields } from './field-list.js';
import { formatRange } from './field-text.js';
import { fieldRegistry } from './fields.js';
import { showValue } from './input-problem.js';

interface Wrapped {
  readonly def?: { readonly type?: string; readonly innerType?: Wrapped };
  readonly shape?: unknown;
}

const writeIt = 'write parameters: z.object({ size: length({ … }) })';

/** The parameters as a schema, or undefined when they are none. */
export function schemaOf(parameters: unknown, report: Report): ParameterSchema | undefined {
  const at = ['parameters'];
  const schema = parameters as Wrapped & { readonly _def?: { readonly typeName?: string } };
  if (parameters === undefined) report(at, 'is missing', writeIt);
  else if (!isTyped<object>(parameters, 'object')) report(at, `is ${showValue(parameters)}`, writeIt, schema);
  else if (schema._def?.typeName !== undefined)
    report(at, 'is a schema of another zod', "write import { z } from 'patternwright'", schema);
  else if (schema.def?.type === undefined)
    report(at, 'is a plain object', 'put z.object( … ) round it', schema);
  else if (schema.def.type === 'pipe')
    report(at, 'has a transform', 'leave it out, and work values out in build', schema);
  else if (schema.def.type !== 'object' || !isTyped<object>(schema.shape, 'object'))
    report(at, `is of zod's kind ${showValue(schema.def.type)}, not an object`, writeIt, schema);
  else return parameters as unknown as ParameterSchema;
  return undefined;
}

/** The fields, if all are sound. */
export function checkFields(
  schema: ParameterSchema,
  reserved: ReadonlySet<string>,
  report: Report,
): readonly Field[] | undefined {
  let sound = true;
  const tell: Report = (...fault) => {
    sound = false;
    report(...fault);
  };
  for (const [name, field] of Object.entries(schema.shape))
    if (!isField(field)) tell(['parameters', name], ...notAField(field));
  if (!sound) return undefined;
  const fields = listSchemaFields(schema);
  const options = new Set<string>();
  for (const field of fields) {
    checkField(field, reserved, options, tell);
    options.add(field.option);
  }
  if (sound && !fields.some((field) => field.required)) checkDefaults(schema, tell);
  return sound ? fields : undefined;
}

/** Whether one of the field helpers made it. */
function isField(field: unknown): boolean {
  for (
    let inner = field as Wrapped | undefined;
    isTyped<object>(inner, 'object');
    inner = inner.def?.innerType
  )
    if (inner.def !== undefined && fieldRegistry.get(inner as unknown as z.ZodType)) return true;
  return false;
}

const helpers = 'length, angle, number, count, choice, flag or text';

const notAField = (field: unknown): readonly [string, string, unknown] =>
  isTyped<Wrapped>(field, 'object') && field.def !== undefined
    ? ['is of zod alone', `make it with ${helpers}, which carry unit, range and help`, field]
    : [`is ${showValue(field)}`, `make it with ${helpers}`, field];

function checkField(
  { name, option, info, defaultValue, required }: Field,
  reserved: ReadonlySet<string>,
  options: ReadonlySet<string>,
  tell: Report,
): void {
  const at = ['parameters', name];
  if (!/^[a-z][a-zA-Z0-9]*$/.test(name))
    tell(at, 'is not a name', 'camelCase letters and digits, like wallThickness', name);
  else if (reserved.has(option))
    tell(at, `clashes with the option --${option} of make`, 'call it otherwise', name);
  else if (options.has(option)) tell(at, `gives the option --${option} again`, 'call it otherwise', name);
  else if (/^no-/.test(option))
    tell(at, `gives --${option}, which reads as the opposite of a flag`, 'say what it has, not what not');
  for (const key of ['help', 'group'] as const)
    if (!isTyped<string>(info[key], 'string') || info[key].trim() === '')
      tell([...at, key], `is ${showValue(info[key])}`, 'write a few words', info[key]);
  const { min, max } = info;
  for (const [key, bound] of [['min', min] as const, ['max', max] as const])
    if (bound !== undefined && !Number.isFinite(bound))
      tell([...at, key], `is ${showValue(bound)}`, 'a finite number', bound);
  const ranged = !['choice', 'flag', 'text', 'file'].includes(info.kind);
  if (ranged && (min === undefined || max === undefined))
    tell(at, 'has no min and max', 'give both: help, jobs and the form show the range');
  else if (min !== undefined && max !== undefined && min > max)
    tell(at, `has min ${min} above max ${max}`, 'exchange them');
  else if (defaultValue !== undefined) checkDefault(defaultValue, info, at, tell);
  else if (!required && info.derived === undefined)
    tell(at, 'has no default', 'give default, or derived: in words what it is worked out from');
}

function checkDefault(value: unknown, info: Field['info'], at: readonly string[], tell: Report): void {
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY, kind, choices } = info;
  const path = [...at, 'default'];
  const inside = formatRange(info, 'mm');
  const right = kind === 'angle' ? `${inside}, given in radians` : inside;
  if (choices && !(choices as readonly unknown[]).includes(value))
    tell(path, `is ${showValue(value)}`, right, value);
  else if (kind === 'flag' && typeof value !== 'boolean')
    tell(path, `is ${showValue(value)}`, 'true or false', value);
  else if (Number.isFinite(min) || Number.isFinite(max)) {
    if (!isTyped<number>(value, 'number') || value < min || value > max)
      tell(path, `is ${showValue(value)}`, right, value);
    else if (kind === 'count' && !Number.isInteger(value)) tell(path, `is ${value}`, right, value);
  }
}

/** A refinement of the whole may refuse what each field by itself allows. */
function checkDefaults(schema: ParameterSchema, tell: Report): void {
  const reading = schema.safeParse({});
  if (!reading.success)
    for (const { message, path } of reading.error.issues)
      tell(
        ['parameters', ...path.map(String)],
        `has defaults that are refused: ${message}`,
        'change a default',
      );
}
