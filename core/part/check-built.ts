/** Whether what a part's `build` gives is a built part: told before anything is made of it. */
import { z } from 'zod';
import type { BuildResult } from './contract.js';
import { type InputProblem, showValue } from './input-problem.js';
import { surfaceClasses } from './stock.js';
import { suggestRemedy } from './suggest.js';

const words = z.string().refine((text) => text.trim() !== '');
const size = z.number().nonnegative();
const point = z.tuple([z.number(), z.number(), z.number()]);
const unit = z.enum(['mm', 'rad', '1']);
const facing = z.enum(['+x', '-x', '+y', '-y', '+z', '-z']);
const of = z.union([z.number(), z.string(), z.array(z.union([z.number(), z.string()]))]);
const points = z.array(point);

const finding = z.strictObject({
  severity: z.enum(['stop', 'warn', 'note']),
  code: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/),
  message: words,
  remedy: z.string(),
  parameters: z.array(z.string()).optional(),
  change: z.record(z.string(), z.union([z.number(), z.string(), z.boolean()])).optional(),
});

const sized = { of, form: z.string().optional() };
const note = z.union([
  z.strictObject({
    ...sized,
    from: point,
    to: point,
    side: z.enum(['above', 'below', 'left', 'right']),
    half: z.boolean().optional(),
  }),
  z.strictObject({ ...sized, at: point, radius: size.optional(), outward: point.optional() }),
  z.strictObject({ ...sized, corner: point, legs: z.tuple([point, point]) }),
]);

const kind = z.enum(['visible', 'thin', 'hidden', 'chain']);
const drawn = z.union([
  z.strictObject({ kind, points, closed: z.boolean().optional() }),
  z.strictObject({
    kind,
    centre: point,
    radius: size,
    from: z.number().optional(),
    to: z.number().optional(),
  }),
]);

const drawing = z.strictObject({
  views: z
    .array(
      z.strictObject({
        from: facing,
        up: facing.optional(),
        cut: z.number().optional(),
        lines: z.array(drawn).optional(),
        hatched: z.array(points).optional(),
        extra: z.array(drawn).optional(),
        dimensions: z.array(note).optional(),
      }),
    )
    .min(1),
  dataTitle: z.string().optional(),
  data: z
    .array(
      z.strictObject({
        symbol: z.string().optional(),
        name: words,
        value: z.union([z.string(), z.number()]),
        unit: unit.optional(),
      }),
    )
    .optional(),
});

const isFunction = z.custom<unknown>((value) => typeof value === 'function');

/** All but the solid. */
const built = z.strictObject({
  surfaces: z.array(
    z.strictObject({ surfaceClass: z.enum(surfaceClasses), name: words, amount: z.number().optional() }),
  ),
  dimensions: z.array(
    z.strictObject({
      symbol: words,
      name: words,
      value: z.number(),
      unit,
      axis: z.enum(['xy', 'z', 'none']),
      method: words,
      atGrowth: isFunction.optional(),
      choice: z.string().optional(),
      detail: z.boolean().optional(),
      role: z.enum(['setting', 'reference']).optional(),
    }),
  ),
  gates: z.array(
    z
      .strictObject({
        name: words,
        at: point,
        innerDiameter: size,
        outerDiameter: size,
        seat: size.optional(),
        further: z.literal(true).optional(),
      })
      .refine((gate) => gate.outerDiameter > gate.innerDiameter, {
        path: ['outerDiameter'],
        message: 'is not above innerDiameter',
      }),
  ),
  vents: z.array(
    z.strictObject({ name: words, at: point, footDiameter: z.number().positive(), seat: size.optional() }),
  ),
  thinnestWall: z.number().positive().optional(),
  drawing: drawing.optional(),
  fittings: z.array(z.strictObject({ quantity: z.number().int().positive(), text: words })).optional(),
  findings: z.array(finding),
});

const refusal = z.array(finding).refine((list) => list.some((f) => f.severity === 'stop'));

const mostFaults = 5;

export type BuiltReading =
  | { readonly ok: true; readonly built: BuildResult }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

const wrong = (message: string, remedy: string, path: readonly string[] = []): BuiltReading => ({
  ok: false,
  problems: [{ code: 'part-file-build', path, got: '', message, remedy }],
});

const aSolid = 'return { solid, surfaces, dimensions, gates, vents, findings }';

/** What `build` returned, looked at field by field; its solid only for being there. Never throws. */
export function checkBuilt(value: unknown): BuiltReading {
  try {
    return readBuilt(value);
  } catch (error) {
    const reason = showValue(error instanceof Error ? error.message : error);
    return wrong(`returned what cannot be read: ${reason}`, aSolid);
  }
}

function readBuilt(value: unknown): BuiltReading {
  if (value === undefined) return wrong('returned nothing', `${aSolid}: is there a return?`);
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return wrong(`returned ${Array.isArray(value) ? 'a list' : showValue(value)}`, aSolid);
  if (typeof (value as { then?: unknown }).then === 'function')
    return wrong('returned a promise', 'build is not async: work everything out before it');
  if (typeof (value as { volume?: unknown }).volume === 'function')
    return wrong('returned the solid alone', aSolid);
  const { solid, ...rest } = value as { solid?: unknown };
  if (solid === undefined) return wrong('returned no solid', aSolid);
  if (solid === null) {
    const reading = refusal.safeParse((rest as { findings?: unknown }).findings);
    return reading.success
      ? { ok: true, built: value as unknown as BuildResult }
      : wrong(
          'returned no solid and no reason',
          "return refuse([stop('code', 'What is wrong.', 'What to do.')])",
        );
  }
  const reading = built.safeParse(rest);
  if (reading.success) return { ok: true, built: value as unknown as BuildResult };
  const problems = reading.error.issues.flatMap((issue) => phrase(issue, rest));
  return { ok: false, problems: problems.slice(0, mostFaults) };
}

/** An issue in the words of every other problem. */
function phrase(issue: z.core.$ZodIssue, whole: unknown): readonly InputProblem[] {
  const path = issue.path.map(String);
  const got = path.reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[key] : undefined,
    whole,
  );
  const tell = (message: string, remedy: string, at = path): InputProblem => ({
    code: 'part-file-build',
    path: at,
    got: showValue(got),
    message,
    remedy,
  });
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((key) => tell('unknown key', suggestRemedy(key, knownKeys(path)), [...path, key]));
  if (got === undefined) return [tell('is missing', expected(issue))];
  if (issue.code === 'custom' && issue.message.startsWith('is '))
    return [tell(issue.message, 'make it larger')];
  const isText = typeof got === 'string' && issue.code === 'invalid_type';
  return [tell(`is ${isText ? 'the text ' : ''}${showValue(got)}`, expected(issue))];
}

/** Names that may stand where an unknown key was found. */
function knownKeys(path: readonly string[]): readonly string[] {
  const [first] = path;
  if (first === undefined) return Object.keys(built.shape);
  const lists: Readonly<Record<string, readonly string[]>> = {
    surfaces: ['surfaceClass', 'name', 'amount'],
    dimensions: Object.keys(built.shape.dimensions.element.shape),
    gates: ['name', 'at', 'innerDiameter', 'outerDiameter', 'seat', 'further'],
    vents: ['name', 'at', 'footDiameter', 'seat'],
    fittings: ['quantity', 'text'],
    findings: Object.keys(finding.shape),
  };
  return lists[first] ?? Object.keys(drawing.shape);
}

function expected(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return expectedTypes[issue.expected] ?? `give ${issue.expected}`;
    case 'invalid_value':
      return `give one of ${issue.values.join(', ')}`;
    case 'too_small':
      return issue.origin === 'array'
        ? 'give at least one'
        : `${issue.inclusive ? 'at least' : 'above'} ${issue.minimum}`;
    case 'invalid_format':
      return 'use small letters, digits and single hyphens, like wall-too-thin';
    case 'invalid_union':
      return 'see the types of definePart';
    default:
      return 'write a few words';
  }
}

const expectedTypes: Readonly<Record<string, string>> = {
  number: 'give a finite number: mm, radians',
  string: 'give a text',
  array: 'give a list, which may be empty',
  tuple: 'give [x, y, z] in mm',
  object: 'give keys and values',
  boolean: 'give true or false',
};
