import { z } from 'zod';

/** What a parameter is: decides how text is read (`38mm`, `25deg`) and how help and forms show it. */
export type FieldKind =
  | 'length'
  | 'angle'
  | 'temperature'
  | 'temperature-rate'
  | 'duration'
  | 'mass'
  | 'power'
  | 'number'
  | 'count'
  | 'choice'
  | 'flag'
  | 'text'
  | 'file';

export interface FieldInfo {
  readonly kind: FieldKind;
  /** One line of help. */
  readonly help: string;
  /** Heading it stands under in help and forms. */
  readonly group: string;
  /** Standard symbol, for example `m_n`. */
  readonly symbol?: string;
  /** What stands in the help for a default worked out from other parameters. */
  readonly derived?: string;
  readonly min?: number;
  readonly max?: number;
  readonly choices?: readonly string[];
  /** Of a text: most characters. */
  readonly longest?: number;
}

/** Field facts by schema; filled by the helpers below, read by help, forms and the job reader. */
export const fieldRegistry = z.registry<FieldInfo>();

interface Common {
  help: string;
  group: string;
  symbol?: string;
}
interface Ranged extends Common {
  min: number;
  max: number;
}
/** A field with a fixed default, or one whose default is worked out: `derived` says in words from what. */
interface RangedField {
  (o: Ranged & { default: number }): z.ZodDefault<z.ZodNumber>;
  (o: Ranged & { derived: string }): z.ZodOptional<z.ZodNumber>;
}

const rangedField = (kind: FieldKind, base: () => z.ZodNumber): RangedField =>
  ((o: Ranged & { default?: number; derived?: string }) => {
    const bounded = base().min(o.min).max(o.max);
    const schema = o.default === undefined ? bounded.optional() : bounded.default(o.default);
    fieldRegistry.add(schema, info(kind, o));
    return schema;
  }) as RangedField;

const info = (kind: FieldKind, o: Common & { min?: number; max?: number; derived?: string }): FieldInfo => ({
  kind,
  help: o.help,
  group: o.group,
  ...(o.symbol === undefined ? {} : { symbol: o.symbol }),
  ...(o.derived === undefined ? {} : { derived: o.derived }),
  ...(o.min === undefined ? {} : { min: o.min }),
  ...(o.max === undefined ? {} : { max: o.max }),
});

/** A length in mm. */
export const length = rangedField('length', z.number);
/** An angle in radians. */
export const angle = rangedField('angle', z.number);
/** A temperature in °C; its scale must be written. */
export const temperature = rangedField('temperature', z.number);
/** A rate of heating in °C/h; its scale must be written. */
export const temperatureRate = rangedField('temperature-rate', z.number);
/** A duration in s, as bare numbers are. */
export const duration = rangedField('duration', z.number);
/** A mass in g. */
export const mass = rangedField('mass', z.number);
/** A power in W. */
export const power = rangedField('power', z.number);
/** A plain number without a unit. */
export const number = rangedField('number', z.number);
/** A whole number. */
export const count = rangedField('count', () => z.number().int());

/** A plain number, or one of a few words that stand for a way to find it. */
export function numberOrWord<const W extends readonly [string, ...string[]]>(
  words: W,
  o: Ranged & { derived: string },
): z.ZodOptional<z.ZodType<number | W[number]>> {
  const schema = z
    .union([z.number().min(o.min).max(o.max), z.enum(words) as unknown as z.ZodType<W[number]>])
    .optional();
  fieldRegistry.add(schema, { ...info('number', o), choices: words });
  return schema;
}

/** One of a few words. */
export function choice<const C extends readonly [string, ...string[]]>(
  choices: C,
  o: Common & { default: C[number] },
): z.ZodDefault<z.ZodType<C[number]>> {
  const schema = (z.enum(choices) as unknown as z.ZodType<C[number]>).default(o.default as never);
  fieldRegistry.add(schema, { ...info('choice', o), choices });
  return schema;
}

/** Yes or no. */
export function flag(o: Common & { default: boolean }): z.ZodDefault<z.ZodBoolean> {
  const schema = z.boolean().default(o.default);
  fieldRegistry.add(schema, info('flag', o));
  return schema;
}

/** A text is a line or a few. */
const usualLongest = 2000;
/** Of a path, as systems have it. */
const longestPath = 4096;

/** Words that the part reads itself: a name, an inscription. Empty where not given. */
export function text(o: Common & { default?: string; longest?: number }): z.ZodDefault<z.ZodString> {
  const longest = o.longest ?? usualLongest;
  const schema = z
    .string()
    .max(longest)
    .default(o.default ?? '');
  fieldRegistry.add(schema, { ...info('text', o), longest });
  return schema;
}

/** The name of a mesh file; relative to the job's own folder. What it holds comes to `build` in `kit.meshFiles`. */
export function file(o: Common): z.ZodString {
  const schema = z.string().min(1).max(longestPath);
  fieldRegistry.add(schema, { ...info('file', o), longest: longestPath });
  return schema;
}
