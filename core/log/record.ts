/** One pour, one flask, as the shop found it: settings, measured sizes, faults. mm, °C, s. */
import { z } from 'zod';

/** What a casting can suffer from, in the trade's words. */
export const faults = ['misrun', 'cold-shut', 'porosity', 'bubbles', 'cracks', 'flash'] as const;
export type Fault = (typeof faults)[number];

const longestLine = 200;
const longestNotes = 4000;

/** No control characters, and nothing that UTF-8 cannot carry. */
const line = z
  .string()
  .min(1, 'is empty')
  .max(longestLine, `has more than ${longestLine} characters`)
  .refine((text) => !/[\p{Cc}\p{Cs}]/u.test(text), 'has a line break or control character')
  .refine((text) => text.trim() === text, 'starts or ends with a space');

/** Notes may have line breaks and tabs. */
const notes = z
  .string()
  .max(longestNotes, `has more than ${longestNotes} characters`)
  .refine((text) => !/[\p{Cc}\p{Cs}]/u.test(text.replace(/[\n\t]/g, '')), 'has a control character');

const between = (least: number, most: number, unit: string) =>
  z.number().min(least, `is under ${least}${unit}`).max(most, `is over ${most}${unit}`);

const size = between(0.1, 5000, ' mm');
const factor = between(0.8, 1.25, '');

/** The three sizes of one dimension; each where it was measured, at the same place, cold. */
export const measuredSize = z
  .strictObject({
    /** As the drawing has it: `D`, `height`. */
    name: line,
    /** How it lay in the print. */
    axis: z.enum(['xy', 'z']),
    /** Of the pattern in the model, with growth and printer correction: what the printer was told. */
    nominal: size.optional(),
    /** Of the printed pattern, measured. */
    pattern: size.optional(),
    /** Of the casting, measured. */
    casting: size.optional(),
    /** What filing and machining had taken off this size before the casting was measured; less than 0 in a bore. */
    removed: between(-20, 20, ' mm').optional(),
  })
  .refine(
    (s) => s.nominal !== undefined || s.pattern !== undefined || s.casting !== undefined,
    'has no size',
  );

export const pourRecord = z.strictObject({
  /** Unique in the log. */
  id: z.string().regex(/^[A-Za-z0-9-]{8,64}$/, 'is no record number: 8 to 64 letters, digits and hyphens'),
  /** Day of the pour, ISO 8601. */
  date: z.iso.date('is no date like 2026-05-30'),
  job: line.optional(),
  part: line.optional(),
  flask: line.optional(),
  alloy: line,
  investment: line,
  settings: z.strictObject({
    metalTemperature: between(100, 2500, ' °C').optional(),
    flaskTemperature: between(0, 1500, ' °C').optional(),
    /** At the top of the burnout, whole s. */
    burnoutHold: between(0, 7 * 86_400, ' s')
      .int('is no whole number of seconds')
      .optional(),
    /** Pattern size / casting size that the pattern was made with. */
    growth: between(1, 1.1, '').optional(),
    plastic: line.optional(),
    printerCorrection: z.strictObject({ xy: factor, z: factor }).optional(),
  }),
  sizes: z.array(measuredSize).max(200, 'has more than 200 sizes'),
  faults: z
    .array(z.enum(faults))
    .refine((found) => new Set(found).size === found.length, 'names a fault twice'),
  notes,
});

export type MeasuredSize = z.output<typeof measuredSize>;
export type PourRecord = z.output<typeof pourRecord>;

export type RecordCheck =
  | { readonly ok: true; readonly record: PourRecord }
  | { readonly ok: false; readonly problems: readonly RecordProblem[] };

export interface RecordProblem {
  /** Keys and list indices, outermost first. */
  readonly path: readonly string[];
  /** What is wrong; its subject is the path: `is over 2500 °C`. */
  readonly message: string;
}

/** Checks plain data; all problems at once. Keys that are undefined count as left out. */
export function checkRecord(data: unknown): RecordCheck {
  const result = pourRecord.safeParse(data);
  if (result.success) return { ok: true, record: result.data };
  const problems = result.error.issues.map(({ path, message, code }) => ({
    path: path.map(String),
    message: code === 'invalid_type' || code === 'invalid_value' ? phrase(message) : lower(message),
  }));
  return { ok: false, problems };
}

const lower = (message: string): string => message.charAt(0).toLowerCase() + message.slice(1);

/** The library's `Invalid input: expected number, received string` as a predicate. */
function phrase(message: string): string {
  const [, expected, received] = /expected (.+), received (.+)$/.exec(message) ?? [];
  if (received === 'undefined') return 'is missing';
  if (expected !== undefined) return `is a ${received}, not a ${expected}`;
  const choices = /expected one of (.+)$/.exec(message)?.[1];
  return choices === undefined
    ? lower(message)
    : `is none of ${choices.replaceAll('"', '').replaceAll('|', ', ')}`;
}
