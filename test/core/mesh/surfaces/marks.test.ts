import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  findSurfaces,
  formatMarks,
  formatPlace,
  type Mark,
  type MarkProblem,
  type MeshSurface,
  markTriangles,
  matchPlace,
  type Place,
  readMarks,
} from '../../../../core/mesh/surfaces/index.js';
import { surfaceClasses } from '../../../../core/part/stock.js';
import { loadKernel } from '../../../../core/solid/index.js';
import type { Kernel, Mesh, Vec2, Vec3 } from '../../../../core/solid/types.js';
import type { LengthUnit } from '../../../../core/units/index.js';
import { moved, plate, shuffled } from './shapes.js';

let kernel: Kernel;
let mesh: Mesh;
let surfaces: readonly MeshSurface[];
beforeAll(async () => {
  kernel = await loadKernel();
  mesh = plate(kernel);
  surfaces = findSurfaces(mesh);
});

const marksOf = (text: string, unit: LengthUnit = 'mm'): readonly Mark[] => {
  const read = readMarks(text, unit);
  if (!read.ok) throw new Error(read.problem.message);
  return read.marks;
};
const problemOf = (text: string, accepts: 'stock' | 'amounts' = 'stock'): MarkProblem => {
  const read = readMarks(text, 'mm', accepts);
  if (read.ok) throw new Error(`"${text}" was read`);
  return read.problem;
};

describe('readMarks', () => {
  it('every kind of place', () => {
    const text = `top face = face; bore at 12, 30 = bore
      LEFT  FACE = 1.5mm ; box 50, 0, 10 to 0, 50, 12 = face; above z 20 = 0.8mm
      all bores = 0; everything = skin; face up at 4 = 2; bore 8 along x at 1/16in, -.5 = -0.25
      boss 6 at 1, 2, 3 = tip; face at 1, 2, 3 = mating; below x 3 = flank;`;
    expect(marksOf(text)).toEqual([
      { place: { kind: 'outermost', facing: 'up' }, gets: 'face' },
      { place: { kind: 'axis', form: 'bore', along: 'z', at: [12, 30], diameter: null }, gets: 'bore' },
      { place: { kind: 'outermost', facing: 'left' }, gets: 1.5 },
      { place: { kind: 'box', min: [0, 0, 10], max: [50, 50, 12] }, gets: 'face' },
      { place: { kind: 'side', side: 'above', axis: 'z', at: 20 }, gets: 0.8 },
      { place: { kind: 'all', form: 'bore' }, gets: 0 },
      { place: { kind: 'everything' }, gets: 'skin' },
      { place: { kind: 'level', facing: 'up', at: 4 }, gets: 2 },
      { place: { kind: 'axis', form: 'bore', along: 'x', at: [1.5875, -0.5], diameter: 8 }, gets: -0.25 },
      { place: { kind: 'centre', form: 'boss', at: [1, 2, 3], diameter: 6 }, gets: 'tip' },
      { place: { kind: 'centre', form: 'face', at: [1, 2, 3], diameter: null }, gets: 'mating' },
      { place: { kind: 'side', side: 'below', axis: 'x', at: 3 }, gets: 'flank' },
    ]);
  });

  it('bare numbers in the unit of the job', () => {
    expect(marksOf('bore at 1, 1/2 = 1/16', 'in')).toEqual([
      { place: { kind: 'axis', form: 'bore', along: 'z', at: [25.4, 12.7], diameter: null }, gets: 1.5875 },
    ]);
  });

  it.each([
    ['', 1, /no marks/, /top face = face/],
    ['top face', 1, /no =/, /top face = 1.5mm/],
    ['top face = face bottom face = face', 1, /more than one =/, /semicolon/],
    ['top face = face, left face = face', 1, /more than one =/, /semicolon/],
    ['top face = face;  tpo face = 1mm', 19, /"tpo face = 1mm" is no place/, /did you mean top face/],
    ['top face = fcae', 1, /"fcae" after the =/, /did you mean face/],
    ['top face = ', 1, /nothing after/, /top face/],
    ['= face', 1, /no place/, /top face/],
    ['bore at 12 = bore', 1, /one number where 2 numbers/, /decimals take a point/],
    ['bore at 12,5, 30, 1 = bore', 1, /4 numbers where/, /decimals take a point/],
    ['bore = bore', 1, /where the bore is/, /bore at 12, 30/],
    ['bore along q at 1, 2 = bore', 1, /"q", which is no axis/, /along x/],
    ['face upp at 12 = face', 1, /"upp"/, /did you mean up/],
    ['box 1, 2, 3 = face', 1, /two corners/, /box 0, 0, 0 to/],
    ['above 20 = 1', 1, /no axis/, /above z 20/],
    ['above z twenty = 1', 1, /does not start with a number/, /38mm/],
    ['top face = 1 furlong', 1, /furlong/, /use mm/],
    ['top face = 90', 1, /beyond reason/, /50 mm/],
    ['bore at 1e9, 2 = 1', 1, /beyond all parts/, /100 m/],
  ])('%j is refused at column %i', (text, at, message, remedy) => {
    const problem = problemOf(text);
    expect(problem.at).toBe(at);
    expect(problem.message).toMatch(message);
    expect(problem.remedy).toMatch(remedy);
  });

  it('wear takes lengths only', () => {
    expect(readMarks('bore at 12, 30 = 0.4mm; top face = 0.2mm', 'mm', 'amounts').ok).toBe(true);
    expect(problemOf('top face = 0.2; left face = face', 'amounts')).toMatchObject({
      message: '"left face = face" gives a class of stock, not an amount',
      at: 17,
    });
  });

  it('bounded', () => {
    expect(problemOf('x'.repeat(30_000)).message).toMatch(/30000 characters/);
    expect(problemOf('top face = 1;'.repeat(201)).message).toMatch(/more than 200 marks/);
  });

  it('any text gives marks or a problem', () => {
    const words = [
      'top face',
      'bore',
      ' at ',
      '12',
      ',',
      ' = ',
      ';',
      '\n',
      'box',
      ' to ',
      'above z',
      'along x',
      'face',
      'up',
    ];
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 60 }),
      fc
        .array(fc.oneof(fc.constantFrom(...words), fc.string({ maxLength: 3 })), { maxLength: 20 })
        .map((w) => w.join('')),
    );
    fc.assert(
      fc.property(text, fc.constantFrom<LengthUnit>('mm', 'in'), (t, unit) => {
        const read = readMarks(t, unit);
        if (read.ok) return read.marks.length > 0;
        const { message, remedy, at } = read.problem;
        return message !== '' && remedy !== '' && at >= 1 && at <= t.length + 1;
      }),
      { numRuns: 3000 },
    );
  });

  it('what is formatted is read back equal', () => {
    const places = (unit: LengthUnit): fc.Arbitrary<Place> => {
      // As inches are read: one exact factor, rounded once.
      const number = fc
        .integer({ min: -999_999, max: 999_999 })
        .map((n) => (unit === 'mm' ? n / 1000 : (n * 254) / 100_000));
      const size = fc
        .integer({ min: 1, max: 99_999 })
        .map((n) => (unit === 'mm' ? n / 100 : (n * 254) / 100_000));
      const diameter = fc.option(size, { nil: null });
      const two = fc.tuple(number, number) as fc.Arbitrary<Vec2>;
      const three = fc.tuple(number, number, number) as fc.Arbitrary<Vec3>;
      const facing = fc.constantFrom('up', 'down', 'left', 'right', 'front', 'back' as const);
      const form = fc.constantFrom('bore', 'boss', 'hollow', 'round' as const);
      const axis = fc.constantFrom('x', 'y', 'z' as const);
      return fc.oneof<fc.Arbitrary<Place>[]>(
        fc.record({ kind: fc.constant('outermost' as const), facing }),
        fc.record({ kind: fc.constant('level' as const), facing, at: number }),
        fc.record({ kind: fc.constant('axis' as const), form, along: axis, at: two, diameter }),
        fc.record({ kind: fc.constant('centre' as const), form, at: three, diameter }),
        fc.record({
          kind: fc.constant('centre' as const),
          form: fc.constant('face' as const),
          at: three,
          diameter: fc.constant(null),
        }),
        fc.record({ kind: fc.constant('all' as const), form: fc.oneof(form, fc.constant('face' as const)) }),
        fc.constant({ kind: 'everything' as const }),
        fc.tuple(three, three).map(([a, b]) => ({
          kind: 'box' as const,
          min: a.map((v, k) => Math.min(v, b[k]!)) as unknown as Vec3,
          max: a.map((v, k) => Math.max(v, b[k]!)) as unknown as Vec3,
        })),
        fc.record({
          kind: fc.constant('side' as const),
          side: fc.constantFrom('above', 'below' as const),
          axis,
          at: number,
        }),
      );
    };
    for (const unit of ['mm', 'in'] as const) {
      const gets = fc.oneof(
        fc.constantFrom(...surfaceClasses),
        fc.integer({ min: -1900, max: 1900 }).map((n) => (unit === 'mm' ? n / 100 : (n * 254) / 10_000)),
      );
      const marks = fc.array(fc.record({ place: places(unit), gets }), { minLength: 1, maxLength: 6 });
      fc.assert(
        fc.property(marks, (some) => {
          expect(readMarks(formatMarks(some, unit), unit)).toEqual({ ok: true, marks: some });
        }),
        { numRuns: 500 },
      );
    }
  });
});

describe('matchPlace', () => {
  const match = (text: string, among = surfaces) => {
    const { place } = marksOf(`${text} = 1`)[0]!;
    if (place.kind === 'box' || place.kind === 'side' || place.kind === 'all' || place.kind === 'everything')
      throw new Error('no surface');
    return matchPlace(among, place, 'mm');
  };

  it('every name is its own surface', () => {
    for (const surface of surfaces) expect(match(surface.name)).toMatchObject({ ok: true, surface });
  });

  it('a name survives a part exported anew a little aside', () => {
    const other = findSurfaces(moved(shuffled(mesh, 4).mesh, ([x, y, z]) => [x + 0.3, y - 0.4, z + 0.2]));
    for (const { name, area } of surfaces) {
      const found = match(name, other);
      if (!found.ok) throw new Error(found.message);
      expect(found.surface.area).toBeCloseTo(area, 1);
    }
  });

  it('names what is near when nothing is there', () => {
    expect(match('bore at 14, 30')).toEqual({
      ok: false,
      message: 'There is no surface "bore at 14, 30"',
      remedy: 'nearest are bore at 12, 30; bore at 60, 20',
    });
    expect(match('boss at 14, 30')).toMatchObject({
      ok: false,
      remedy: expect.stringMatching(/^found are /),
    });
  });

  it('a counterbore and its bore are told apart by diameter', () => {
    const stepped = kernel.scope(() =>
      kernel
        .box([0, 0, 0], [40, 40, 20])
        .subtract(kernel.frustum([20, 20], -1, 3, 21, 3, 0.01), kernel.frustum([20, 20], 12, 6, 21, 6, 0.01))
        .mesh(),
    );
    const found = findSurfaces(stepped);
    expect(found.map((s) => s.name)).toEqual(
      expect.arrayContaining(['bore 6 at 20, 20', 'bore 12 at 20, 20']),
    );
    expect(match('bore 6 at 20, 20', found)).toMatchObject({ ok: true, surface: { through: true } });
    expect(match('bore at 20, 20', found)).toEqual({
      ok: false,
      message: '"bore at 20, 20" may mean 2 surfaces',
      remedy: 'write bore 12 at 20, 20 or bore 6 at 20, 20',
    });
  });
});

describe('markTriangles', () => {
  const marked = (text: string) => {
    const found = markTriangles(mesh, surfaces, marksOf(text));
    if (!found.ok) throw new Error(found.problem.message);
    return found;
  };
  const refused = (text: string) => {
    const found = markTriangles(mesh, surfaces, marksOf(text));
    if (found.ok) throw new Error('marked');
    return found.problem;
  };
  const trianglesOf = (name: string): number[] => [...surfaces.find((s) => s.name === name)!.triangles];

  it('classes and amounts where the marks say, skin elsewhere', () => {
    const { classes, amounts, notes } = marked('top face = face; bore at 12, 30 = 0.5');
    for (const f of trianglesOf('top face')) expect([classes[f], amounts[f]]).toEqual(['face', NaN]);
    for (const f of trianglesOf('bore at 12, 30')) expect([classes[f], amounts[f]]).toEqual(['skin', 0.5]);
    for (const f of trianglesOf('left face')) expect([classes[f], amounts[f]]).toEqual(['skin', NaN]);
    expect(notes[0]).toMatchObject({ mark: 'top face = face', surfaces: ['top face'], gets: 'face' });
    // 80 × 50 less both bores; the tessellation's bores are a little smaller.
    expect(notes[0]!.area).toBeCloseTo(4000 - Math.PI * (16 + 36), 0);
  });

  it('the later mark wins, a class over an amount too', () => {
    const { classes, amounts, notes } = marked(
      'all bores = 1; bore at 12, 30 = bore; everything = face; top face = 2',
    );
    expect(new Set(classes)).toEqual(new Set(['face']));
    const top = new Set(trianglesOf('top face'));
    amounts.forEach((a, f) => {
      expect(a).toEqual(top.has(f) ? 2 : NaN);
    });
    expect(notes.map((n) => n.kept > 0)).toEqual([false, false, true, true]);
    expect(notes[0]!.surfaces).toEqual(['bore at 60, 20', 'bore at 12, 30']);
  });

  it('a box holds faces in its sides; above and below leave those on the plane out', () => {
    const inBox = marked('box 0, 0, 0 to 80, 50, 0 = face').classes;
    expect(inBox.flatMap((c, f) => (c === 'face' ? [f] : []))).toEqual(trianglesOf('bottom face'));
    const above = marked('above z 11.99 = face').classes;
    expect(above.flatMap((c, f) => (c === 'face' ? [f] : []))).toEqual(trianglesOf('top face'));
    expect(refused('above z 12 = face')).toMatchObject({
      mark: 0,
      message: expect.stringMatching(/nothing lies above/),
    });
  });

  it('a mark that meets nothing is a problem', () => {
    expect(refused('top face = face; bore at 40, 40 = bore')).toMatchObject({
      mark: 1,
      remedy: 'nearest are bore at 60, 20; bore at 12, 30',
    });
    expect(refused('all bosses = 1').message).toMatch(/no such surface/);
    expect(refused('box 0, 0, 100 to 1, 1, 101 = 1').message).toMatch(/no triangle/);
  });

  it('formatPlace gives the names that surfaces have', () => {
    for (const s of surfaces) expect(formatPlace(s.place, 'mm')).toBe(s.name);
  });
});
