import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  definePart,
  FolderError,
  FormatError,
  JobError,
  type JobResult,
  jobFiles,
  length,
  type MakeSettings,
  type MeshFile,
  make,
  parseLog,
  partNames,
  plate,
  readMeshFile,
  refuse,
  stop,
  writeFolder,
  z,
} from '../../cli/api.js';
import { writeStl } from '../../core/files/stl.js';
import { formatLine } from '../../core/log/line.js';
import { pour } from '../helpers/pour.js';
import { temporaryFolder } from './helpers/folders.js';

const top = temporaryFolder();

/** A cylinder whose sizes are known without a formula of the project. */
const plug = definePart({
  name: 'plug',
  summary: 'Plain plug',
  parameters: z.object({
    diameter: length({ min: 5, max: 100, default: 30, help: 'Diameter', group: 'Size' }),
    height: length({ min: 3, max: 100, default: 10, help: 'Height', group: 'Size' }),
  }),
  build(p, stock, { kernel, tolerance }) {
    if (p.height > 3 * p.diameter)
      return refuse([stop('too-slender', 'The plug is slender.', 'Three diameters at most.')]);
    const [r, z0, z1] = [p.diameter / 2 + stock.skin, -stock.face, p.height + stock.face];
    return {
      solid: kernel.frustum([0, 0], z0, r, z1, r, tolerance),
      surfaces: [
        { surfaceClass: 'skin', name: 'outside' },
        { surfaceClass: 'face', name: 'ends' },
      ],
      dimensions: [
        { symbol: 'D', name: 'diameter', value: 2 * r, unit: 'mm', axis: 'xy', method: 'calliper' },
      ],
      gates: [{ name: 'upper end', at: [0, 0, z1], innerDiameter: 0, outerDiameter: 1.2 * r }],
      vents: [{ name: 'rim', at: [0.8 * r, 0, z1], footDiameter: 0.3 * r }],
      findings: [],
    };
  },
});

/** Two castings and a bought screw. */
const latch = definePart({
  name: 'latch',
  summary: 'Latch of a bolt and its keep',
  parameters: plug.parameters,
  pieces: [
    { name: 'bolt', title: 'Bolt of a latch' },
    { name: 'keep', title: 'Keep of a latch' },
  ],
  build(p, stock, kit) {
    const isKeep = kit.piece === 'keep';
    const built = plug.build(isKeep ? { ...p, height: p.height / 2 } : p, stock, kit);
    const fittings = isKeep ? [{ quantity: 2, text: 'screw 25 mm' }] : [];
    return built.solid === null ? built : { ...built, fittings };
  },
});

async function made(result: ReturnType<typeof make>): Promise<JobResult> {
  const settled = await result;
  if ('refused' in settled) throw new Error(JSON.stringify(settled.refused));
  return settled;
}

async function problemsOf(result: ReturnType<typeof make>): Promise<JobError> {
  const error = await result.then(
    () => undefined,
    (e: unknown) => e,
  );
  expect(error).toBeInstanceOf(JobError);
  return error as JobError;
}

describe('make', () => {
  test('a part of the caller: sizes in inches, stock and growth of the caller', async () => {
    const { summary } = await made(
      make(
        plug,
        { diameter: '1in', height: 20 },
        { growth: 1.02, stock: { skin: 0.5, face: '1mm' }, tolerance: 0.005 },
      ),
    );
    const part = summary.parts[0]!;
    expect(part.dimensions[0]).toMatchObject({ part: 25.4, casting: 26.4 });
    expect(part.dimensions[0]!.pattern).toBeCloseTo(26.4 * 1.02, 9);
    // A cylinder: π r² h.
    const volume = { part: Math.PI * 12.7 ** 2 * 20, casting: Math.PI * 13.2 ** 2 * 22 };
    // The mesh's chords lie within the tolerance of the circle: by at most 2 t / r of the area.
    expect(Math.abs(part.volume.part / volume.part - 1)).toBeLessThan((2 * 0.005) / 12.7);
    expect(Math.abs(part.volume.casting / volume.casting - 1)).toBeLessThan((2 * 0.005) / 12.7);
  });

  test('units of the settings are those of bare numbers', async () => {
    const { summary } = await made(
      make(plug, { diameter: 1, height: '20mm' }, { units: 'in', tolerance: '0.05mm' }),
    );
    expect(summary.parts[0]!.parameters).toEqual({ diameter: 25.4, height: 20 });
  });

  test('gives the findings of a part that refuses itself', async () => {
    expect(await make(plug, { diameter: 10, height: 50 })).toMatchObject({
      refused: [{ name: 'plug', findings: [{ severity: 'stop', code: 'too-slender' }] }],
    });
  });

  const wrong: readonly (readonly [string, Record<string, unknown>, string])[] = [
    ['too small', { teeth: 5 }, 'parameters.teeth is 5; a whole number from 6 to 200'],
    ['not a number', { teeth: Number.NaN }, 'parameters.teeth: "NaN" is not a finite number'],
    ['infinite', { bore: Number.POSITIVE_INFINITY }, 'parameters.bore: "Infinity" is not a finite number'],
    ['null', { teeth: null }, 'parameters.teeth has no value'],
    ['a function', { teeth: () => 20 }, 'parameters.teeth: "a function"'],
    ['a group', { teeth: { of: 20 } }, 'parameters.teeth is a group of keys'],
    ['misspelt', { tooth: 20 }, 'parameters.tooth: unknown key; did you mean teeth?'],
  ];
  test.each(wrong)('%s: refused in the words of the caller, without a place', async (_, parameters, says) => {
    const error = await problemsOf(make('spur-gear', parameters));
    expect(error.message.startsWith(says)).toBe(true);
    expect(error.message.split('\n')).toHaveLength(1);
    expect(error.problems).toHaveLength(1);
    expect(error.problems[0]!.line).toBeUndefined();
  });

  test('unknown parts and settings, all problems at once', async () => {
    expect((await problemsOf(make('spur-geer'))).message).toBe('part is spur-geer; did you mean spur-gear?');
    const settings = { aloy: 'copper', name: 'A B', growth: 2 } as MakeSettings;
    const error = await problemsOf(make('spur-gear', { teeth: 300 }, settings));
    expect(error.problems.map((p) => p.path.join('.')).sort()).toEqual([
      'aloy',
      'growth',
      'name',
      'name',
      'parameters.teeth',
    ]);
    // The two of one name read alike.
    expect(error.message.split('\n')).toHaveLength(4);
  });

  test('knows every part that it names', async () => {
    for (const name of partNames)
      expect((await problemsOf(make(name, { noSuchKey: 1 }))).problems.map((p) => p.code)).toContain(
        'unknown-key',
      );
  });
});

describe('a part of several castings', () => {
  const job = (rest: string): string => `job: two\nparts:\n  - { name: shed, part: latch, ${rest} }\n`;

  test('makes all of them, each with its own files, heading and fittings', async () => {
    const result = await made(make(latch, { height: 12 }, { name: 'shed', quantity: 3, tolerance: 0.1 }));
    const { parts, charge } = result.summary;
    expect(parts.map((p) => [p.name, p.part, p.piece, p.title, p.quantity])).toEqual([
      ['shed-bolt', 'latch', 'bolt', 'Bolt of a latch', 3],
      ['shed-keep', 'latch', 'keep', 'Keep of a latch', 3],
    ]);
    expect(parts.map((p) => p.meshes.part.size[2])).toEqual([12, 6]);
    expect(parts.map((p) => p.fittings)).toEqual([[], [{ quantity: 2, text: 'screw 25 mm' }]]);
    expect(charge[0]!.inMoulds).toBeCloseTo(3 * (parts[0]!.mass.charge + parts[1]!.mass.charge), 6);
    const files = [...jobFiles(result, { lengthUnit: 'mm', degrees: 'C' })].map((f) => f.path);
    expect(files).toContain('shed-bolt/gated.stl');
    expect(files).toContain('shed-keep/gated.stl');
  });

  test('makes one of them', async () => {
    const { summary } = await made(make(latch, {}, { piece: 'keep', tolerance: 0.1 }));
    expect(summary.parts.map((p) => [p.name, p.piece])).toEqual([['latch', 'keep']]);
  });

  test.each([
    ['piece: kep', /piece is kep; did you mean keep\?/],
    ['piece: 4', /piece is 4; known are bolt, keep/],
    [`piece: [keep]`, /piece is a list/],
  ])('refuses %s', async (rest, message) => {
    const error = await problemsOf(plate(job(rest), { parts: [latch] }));
    expect(error.message).toMatch(message);
  });

  test('refuses a piece of what is cast in one, names taken by a piece, and names that grow too long', async () => {
    const one = 'job: two\nparts:\n  - { name: a, part: plug, piece: keep }\n';
    expect((await problemsOf(plate(one, { parts: [plug] }))).message).toMatch(/plug is cast in one piece/);
    const twice = `${job('quantity: 1')}  - { name: shed-keep, part: latch, piece: bolt }\n`;
    expect((await problemsOf(plate(twice, { parts: [latch] }))).message).toMatch(
      /name is shed-keep on line 4, as on line 3/,
    );
    const long = job('quantity: 1').replace('shed', 's'.repeat(62));
    expect((await problemsOf(plate(long, { parts: [latch] }))).message).toMatch(
      /name: makes s+-bolt; shorten it/,
    );
  });
});

describe('plate', () => {
  test('a job with a part of the caller', async () => {
    const text =
      'job: two\ntolerance: 0.1\nparts:\n  - { name: a, part: plug, quantity: 3 }\n  - { name: b, part: hatch-pull }\n';
    const { summary } = await made(plate(text, { parts: [plug] }));
    expect(summary.plates.flatMap((p) => p.placements.map((q) => q.name)).sort()).toEqual([
      'a',
      'a',
      'a',
      'b',
    ]);
  });

  test.each([7, null, undefined, ['job: x'], { job: 'x' }, () => 'job: x'])(
    'a job that is %s',
    async (given) => {
      const error = await problemsOf(plate(given as unknown as string));
      expect(error).toBeInstanceOf(JobError);
      expect(error.message).toMatch(/^job:1:1 .*the job is .*, not text/);
    },
  );

  test('problems have their place in the text', async () => {
    const error = await problemsOf(
      plate('job: two\nparts:\n  - { name: a, part: plugg }\n', { fileName: 'two.yaml', parts: [plug] }),
    );
    expect(error.message).toBe('two.yaml:3:22 parts[0].part is plugg; did you mean plug?');
    expect(error.problems[0]).toMatchObject({ file: 'two.yaml', line: 3, column: 22, code: 'unknown-part' });
  });
});

describe('a part from a mesh', () => {
  /** An STL of a box, in inches. */
  const stl = (x: number, y: number, z: number): Uint8Array => {
    const positions = Float32Array.from(
      { length: 24 },
      (_, i) => [x, y, z][i % 3]! * (((i / 3) >> (i % 3)) & 1),
    );
    const sides = [
      0, 2, 1, 1, 2, 3, 4, 5, 6, 5, 7, 6, 0, 1, 4, 1, 5, 4, 2, 6, 3, 3, 6, 7, 0, 4, 2, 2, 4, 6, 1, 3, 5, 3, 7,
      5,
    ];
    return writeStl({ positions, triangles: Uint32Array.from(sides) });
  };
  const meshFiles = new Map([['block.stl', readMeshFile(stl(2, 1, 0.5), 'block.stl')]]);
  const block = { file: 'block.stl', fileUnit: 'in', up: 'as-drawn', marks: 'bottom face = face' };
  const settings = { freeze: 'off', stock: { skin: 0.5, face: 2 }, meshFiles } as const;

  test('has the size and stock that it is given', async () => {
    const [part] = (await made(make('mesh', block, settings))).summary.parts;
    expect(part!.volume.part).toBeCloseTo(2 * 1 * 0.5 * 25.4 ** 3, 1);
    expect(part!.volume.casting).toBeCloseTo((50.8 + 1) * (25.4 + 1) * (12.7 + 0.5 + 2), 1);
  });

  test('in a job of text, among parts of the caller', async () => {
    const yaml = `job: two
freeze: off
parts:
  - { name: a, part: mesh, parameters: { file: block.stl, fileUnit: in } }
  - { name: b, part: plug }
`;
    const { summary } = await made(plate(yaml, { parts: [plug], meshFiles }));
    expect(summary.parts.map((p) => p.part)).toEqual(['mesh', 'plug']);
    const error = await problemsOf(plate(yaml, { parts: [plug] }));
    expect(error.problems).toMatchObject([{ code: 'unreadable-file', line: 4 }]);
  });

  test.each([
    ['none given', undefined, 'is not among the meshFiles'],
    [
      'another given',
      new Map<string, MeshFile>([['other.stl', [...meshFiles.values()][0]!]]),
      'is not among',
    ],
    [
      'bytes given',
      new Map([['block.stl', stl(2, 1, 0.5) as unknown as MeshFile]]),
      'is among the meshFiles, but not as a mesh',
    ],
  ])('%s: refused in the words of the caller', async (_, given, says) => {
    const error = await problemsOf(make('mesh', block, given ? { meshFiles: given } : {}));
    expect(error.message.startsWith(`parameters.file ${says}`)).toBe(true);
    expect(error.message).toContain('; read it with readMeshFile');
    expect(error.problems).toHaveLength(1);
  });

  test('a file that is no mesh', () => {
    expect(() => readMeshFile(stl(1, 1, 1).slice(0, 100), 'block.stl')).toThrow(FormatError);
  });
});

test('writeFolder writes the files of a job, and leaves folders of others alone', async () => {
  const files = [
    ...jobFiles(await made(make(plug, {}, { tolerance: 0.1 })), { lengthUnit: 'mm', degrees: 'C' }),
  ];
  const folder = join(top, 'plug');
  await writeFolder(folder, files);
  expect(readdirSync(folder).sort()).toEqual(['plates', 'plug', 'summary.json', 'traveller.html']);
  await writeFolder(folder, files);
  await writeFolder(join(top, 'other'), [{ path: 'letter.txt', bytes: new Uint8Array(3) }]);
  await expect(writeFolder(join(top, 'other'), files)).rejects.toThrow(FolderError);
  expect(readdirSync(join(top, 'other'))).toEqual(['letter.txt']);
});

test('the pour log’s growth, from its text', async () => {
  const sizes = [{ name: 'D', axis: 'xy' as const, pattern: 50, casting: 49.2 }];
  const { records, problems } = parseLog(`${formatLine(pour({ sizes }))}\n{"torn`);
  expect(problems).toMatchObject([{ line: 2, code: 'torn' }]);
  const made = (await make(plug, {}, { growth: 'log', pourLog: records })) as JobResult;
  expect(made.summary.parts[0]!.growth).toMatchObject({ way: 'log', value: 50 / 49.2 });
  expect(await make(plug, {}, { growth: 'log' })).toMatchObject({
    refused: [{ findings: [{ code: 'no-logged-growth' }] }],
  });
});
