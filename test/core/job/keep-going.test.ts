import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { plate } from '../../../cli/api.js';
import { planFiles } from '../../../core/job/job-files.js';
import { type JobResult, makeJob, type RefusedJob } from '../../../core/job/make-job.js';
import { parseJob } from '../../../core/job/read-job.js';
import { rememberLast } from '../../../core/job/remember.js';
import { definePart, type PartDefinition, refuse } from '../../../core/part/contract.js';
import { length } from '../../../core/part/fields.js';
import { stop } from '../../../core/part/finding.js';
import { loadKernel } from '../../../core/solid/index.js';
import type { Kernel } from '../../../core/solid/types.js';
import { findPart } from '../../../generators/index.js';
import { jobContext } from '../../../generators/job-context.js';

let kernel: Kernel;
const remember = rememberLast(200);
beforeAll(async () => {
  kernel = await loadKernel();
});

interface Part {
  readonly name: string;
  readonly [key: string]: unknown;
}

const knob = (name: string, size = 24, more = {}): Part => ({
  name,
  part: 'knob',
  parameters: { size },
  ...more,
});

function run(parts: readonly Part[], keepGoing = true, more = {}): JobResult | RefusedJob {
  const source = { job: 'a', tolerance: 0.1, freeze: 'off', ...more, parts };
  const reading = parseJob(JSON.stringify(source), jobContext('job'));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return makeJob(reading.job, { kernel, findPart, remember, keepGoing });
}

function made(result: JobResult | RefusedJob): JobResult {
  if ('refused' in result) throw new Error(JSON.stringify(result.refused));
  return result;
}

const codes = ({ notMade }: JobResult): readonly (readonly [string, readonly string[]])[] =>
  notMade.map(({ name, findings }) => [
    name,
    findings.flatMap((f) => (f.severity === 'stop' ? [f.code] : [])),
  ]);

const small = [knob('one'), knob('two', 30, { alloy: 'yellow-brass' })];
const gear = (name: string, parameters: object, more = {}): Part => ({
  name,
  part: 'spur-gear',
  parameters: { teeth: 24, faceWidth: 8, bore: 6, ...parameters },
  ...more,
});

/** Parts that are refused at each of the places where one can be, and what the job needs for it. */
const bad: readonly (readonly [string, Part, object])[] = [
  ['bore-through-root', gear('bad', { bore: 80 }), {}],
  ['flask-too-small', gear('bad', { teeth: 60 }), { flasks: [{ name: 'can', diameter: 90, height: 200 }] }],
  ['does-not-fit-bed', gear('bad', { teeth: 60 }), { bed: { width: 100, depth: 100, height: 200 } }],
  [
    'flask-too-large-for-kiln',
    gear('bad', { teeth: 50 }),
    {
      shop: { kiln: { width: 150, depth: 300, height: 300 } },
      flasks: [
        { name: 'can', diameter: 70, height: 150 },
        { name: 'pot', diameter: 140, height: 200 },
      ],
    },
  ],
  ['investment-unsuitable', knob('bad', 24, { alloy: 'grey-iron' }), {}],
];

describe('a part that cannot be made', () => {
  test.each(bad)('%s: the rest is made as if it were the whole job', (code, part, more) => {
    const [first, last] = small as [Part, Part];
    const kept = made(run([first, part, last], true, more));
    expect(codes(kept)).toEqual([['bad', [code]]]);
    const { notMade, ...summary } = kept.summary;
    expect(notMade).toHaveLength(1);
    expect(notMade?.[0]).toMatchObject({ name: 'bad', part: part.part, quantity: 1 });
    // No trace: not of its metal, its plastic, its time in the kiln.
    const without = made(run([first, last], true, more));
    expect(summary).toEqual(without.summary);
    expect([...kept.parts.keys()]).toEqual(['one', 'two']);
    const units = { lengthUnit: 'mm', degrees: 'C' } as const;
    expect(planFiles(kept, units).map((f) => f.path)).toEqual(planFiles(without, units).map((f) => f.path));
  });

  test.each(bad)('%s: refuses the job where all or nothing is wanted', (code, part, more) => {
    const result = run([...small, part], false, more);
    if (!('refused' in result)) throw new Error('made');
    expect(result.refused.flatMap((r) => r.findings).map((f) => f.code)).toContain(code);
  });

  test('all that is wrong is told, whatever it is refused by', () => {
    const more = { bed: { width: 100, depth: 100, height: 200 } };
    const result = made(
      run([gear('through', { bore: 80 }), ...small, gear('wide', { teeth: 60 })], true, more),
    );
    expect(codes(result)).toEqual([
      ['through', ['bore-through-root']],
      ['wide', ['does-not-fit-bed']],
    ]);
  });

  test('all or nothing: what making, moulds, bed and kiln refuse is told at once, in the order of the job', () => {
    const parts = [
      gear('wide', { teeth: 60 }),
      gear('through', { bore: 80 }),
      ...small,
      gear('tall', { teeth: 30, faceWidth: 110 }),
      gear('through-too', { bore: 70 }),
    ];
    const more = {
      bed: { width: 100, depth: 100, height: 250 },
      flasks: [{ name: 'can', diameter: 200, height: 130 }],
      shop: { kiln: { topTemperature: '500C' } },
      nesting: { rounds: 3 },
    };
    for (const packFlasks of [false, true]) {
      const result = run(parts, false, { ...more, packFlasks });
      if (!('refused' in result)) throw new Error('made');
      const told = result.refused.map((r) => [
        r.name,
        r.findings.filter((f) => f.severity === 'stop').map((f) => f.code),
      ]);
      expect(told).toEqual([
        ['wide', ['does-not-fit-bed']],
        ['through', ['bore-through-root']],
        ['tall', ['flask-too-small']],
        ['through-too', ['bore-through-root']],
        ['', ['kiln-too-cold']],
      ]);
    }
  });

  test('all or nothing: no mould holds any of them', () => {
    const flasks = [{ name: 'can', diameter: 90, height: 200 }];
    const result = run([gear('a', { teeth: 60 }), gear('b', { teeth: 61 })], false, { flasks });
    if (!('refused' in result)) throw new Error('made');
    expect(result.refused.map((r) => r.name)).toEqual(['a', 'b']);
  });

  test('where nothing is left the job is refused', () => {
    const result = run([gear('a', { bore: 80 }), gear('b', { bore: 70 })]);
    if (!('refused' in result)) throw new Error('made');
    expect(result.refused.map((r) => r.name)).toEqual(['a', 'b']);
  });

  test('what concerns the whole job refuses it, with the parts that are bad besides', () => {
    const result = run([...small, gear('bad', { bore: 80 })], true, {
      shop: { kiln: { topTemperature: '500C' } },
    });
    if (!('refused' in result)) throw new Error('made');
    expect(result.refused.map((r) => [r.name, r.findings.find((f) => f.severity === 'stop')?.code])).toEqual([
      ['bad', 'bore-through-root'],
      ['', 'kiln-too-cold'],
    ]);
  });

  test('no mould stands any of the metals: the job is refused once, not part by part', () => {
    const result = run([knob('a', 24, { alloy: 'grey-iron' }), knob('b', 26, { alloy: 'grey-iron' })]);
    if (!('refused' in result)) throw new Error('made');
    expect(result.refused.map((r) => r.name)).toEqual(['']);
  });
});

describe('pieces of one entry', () => {
  const hinge: Part = { name: 'hinge', part: 'strap-hinge', parameters: { size: 150 } };
  const more = { bed: { width: 120, depth: 120, height: 250 } };

  test('go together: a hinge with one leaf is no hinge', () => {
    const result = made(run([...small, hinge], true, more));
    const told = new Map(codes(result));
    expect([...told.keys()].every((name) => name.startsWith('hinge-'))).toBe(true);
    expect(told.get('hinge-strap')).toEqual(['does-not-fit-bed']);
    expect(told.get('hinge-plate')).toEqual(['goes-with-refused']);
    expect(result.notMade.find((r) => r.name === 'hinge-plate')?.findings[0]?.message).toContain(
      'hinge-strap',
    );
    const { notMade: _, ...summary } = result.summary;
    expect(summary).toEqual(made(run(small, true, more)).summary);
  });

  test('listed by themselves each stands for itself', () => {
    const parts = ['strap', 'plate'].map((piece) => ({ ...hinge, name: `my-${piece}`, piece }));
    const result = made(run([...small, ...parts], true, more));
    expect(codes(result)).toEqual([['my-strap', ['does-not-fit-bed']]]);
  });
});

/** A small block of two castings, of which one is always refused. */
const block = definePart({
  name: 'block',
  summary: 'Block in two pieces',
  parameters: z.object({ size: length({ min: 5, max: 50, default: 20, help: 'Size', group: 'Size' }) }),
  pieces: [
    { name: 'upper', title: 'Upper half' },
    { name: 'lower', title: 'Lower half' },
  ],
  build({ size }, stock, { kernel, tolerance, piece }) {
    if (piece === 'lower') return refuse([stop('never', 'It is never made', 'Leave it')]);
    const [r, z0, z1] = [size / 2 + stock.skin, -stock.face, size + stock.face];
    return {
      solid: kernel.frustum([0, 0], z0, r, z1, r, tolerance),
      surfaces: [],
      dimensions: [],
      gates: [{ name: 'top', at: [0, 0, z1], innerDiameter: 0, outerDiameter: r }],
      vents: [],
      findings: [],
    };
  },
});

test.each(['no', 'yes'])(
  'a piece whose other half cannot be made stands on no tree, packFlasks %s',
  async (pack) => {
    const text = (parts: string): string =>
      `job: a\ntolerance: 0.1\nfreeze: off\npackFlasks: ${pack}\nparts:\n${parts}`;
    const knobs = '  - { name: knob, part: knob, quantity: 6, parameters: { size: 22 } }\n';
    const options = { parts: [block as unknown as PartDefinition], keepGoing: true };
    const result = made(
      await plate(text(`${knobs}  - { name: halves, part: block, quantity: 2 }\n`), options),
    );
    expect(codes(result)).toEqual([
      ['halves-upper', ['goes-with-refused']],
      ['halves-lower', ['never']],
    ]);
    const { notMade: _, ...summary } = result.summary;
    expect(summary).toEqual(made(await plate(text(knobs), options)).summary);
  },
);

test('any parts of a job may be bad, seed 9: the rest is the job without them', () => {
  const kinds = [
    (name: string) => knob(name, 22),
    (name: string) => knob(name, 26, { alloy: 'yellow-brass' }),
    (name: string) => gear(name, { bore: 80 }),
    (name: string) => gear(name, { teeth: 60 }),
    (name: string) => knob(name, 22, { alloy: 'grey-iron' }),
  ];
  const more = { bed: { width: 100, depth: 100, height: 200 } };
  fc.assert(
    fc.property(
      fc
        .array(fc.nat(kinds.length - 1), { minLength: 1, maxLength: 8 })
        .filter((list) => list.some((k) => k < 2)),
      (list) => {
        const parts = list.map((kind, i) => kinds[kind]!(`p${i}`));
        const good = parts.filter((_, i) => list[i]! < 2);
        const result = made(run(parts, true, more));
        expect(result.notMade.map((r) => r.name)).toEqual(
          parts.filter((_, i) => list[i]! >= 2).map((p) => p.name),
        );
        const { notMade: _, ...summary } = result.summary;
        expect(summary).toEqual(made(run(good, true, more)).summary);
      },
    ),
    { seed: 9, numRuns: 12 },
  );
});
