import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { type RepairOptions, repairMesh } from '../../../../core/mesh/repair/index.js';
import { inspectMesh, loadKernel } from '../../../../core/solid/index.js';
import type { ExactMesh, Kernel, Solid } from '../../../../core/solid/types.js';
import { meshOfSoup, type Soup, soupOf, turnAll } from './breakages.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const soupFrom = (make: () => Solid): Soup => soupOf(kernel.scope(() => make().mesh()));
const box = (min: readonly [number, number, number], max: readonly [number, number, number]): Soup =>
  soupFrom(() => kernel.box(min, max));
const repair = (soup: Soup, options: RepairOptions = {}) => repairMesh(meshOfSoup(soup), kernel, options);

/** The other side of x = 10. */
const mirrored = (soup: Soup): Soup =>
  turnAll(soup.map((triangle) => triangle.map(([x, y, z]) => [20 - x, y, z])) as unknown as Soup);

function expectRefused(soup: Soup, code: string, words: RegExp): void {
  const repaired = repair(soup);
  expect(repaired.ok).toBe(false);
  if (repaired.ok) return;
  expect(repaired.faults[0]).toMatchObject({ code });
  expect(repaired.faults[0]?.message).toMatch(words);
}

function expectVolume(
  soup: Soup,
  volume: number,
  codes: readonly string[],
  options: RepairOptions = {},
): void {
  const repaired = repair(soup, options);
  expect(repaired).toMatchObject({ ok: true });
  if (!repaired.ok) return;
  expect(repaired.done.map((step) => step.code)).toEqual(codes);
  expect(inspectMesh(repaired.mesh)).toMatchObject({ ok: true });
  expect(inspectMesh(repaired.mesh).volume / volume).toBeCloseTo(1, 5);
}

describe('what is not certain is refused, with its place', () => {
  it('a sheet', () => {
    expectRefused(
      [
        [
          [0, 0, 0],
          [40, 0, 0],
          [40, 30, 0],
        ],
        [
          [0, 0, 0],
          [40, 30, 0],
          [0, 30, 5],
        ],
      ],
      'open-sheet',
      /1 surface is an open sheet, the largest of .* near 20, 15, 2\.5 mm: a sheet has no inside/,
    );
  });

  it('a box without its lid', () => {
    const lidless = box([0, 0, 0], [10, 10, 60]).filter(
      (triangle) => !triangle.every((corner) => corner[2] === 60),
    );
    expectRefused(lidless, 'open-hole', /flat hole of 4 edges, 14\.14 mm across, near 5, 5, 60 mm/);
    // Allowed, it is what it was.
    expectVolume(lidless, 6000, ['holes-filled'], { widestHole: 15 });
  });

  it('a twisted band', () => {
    const at = (i: number, side: number): readonly [number, number, number] => {
      const a = (2 * Math.PI * i) / 24;
      const r = 20 + 4 * side * Math.cos(a / 2);
      return [r * Math.cos(a), r * Math.sin(a), 4 * side * Math.sin(a / 2)];
    };
    // The last corners are the first ones, changed over.
    const corner = (i: number, side: number) => (i === 24 ? at(0, -side) : at(i, side));
    const band = Array.from(
      { length: 24 },
      (_, i): Soup => [
        [corner(i, -1), corner(i + 1, -1), corner(i + 1, 1)],
        [corner(i, -1), corner(i + 1, 1), corner(i, 1)],
      ],
    ).flat();
    const repaired = repair(band);
    expect(repaired).toMatchObject({ ok: false, faults: [{ code: 'open-sheet' }] });
  });

  it('a surface that crosses itself', () => {
    // The top's corner pushed down through the bottom.
    const crossed = box([0, 0, 0], [20, 20, 20]).map((triangle) =>
      triangle.map((c) => (c[0] === 20 && c[1] === 20 && c[2] === 20 ? [9, 9, -8] : c)),
    ) as unknown as Soup;
    expectRefused(crossed, 'self-intersection', /triangles of one surface cross or touch, the first near/);
  });

  it('bodies that touch along an edge only', () => {
    expectRefused(
      [...box([0, 0, 0], [10, 10, 10]), ...box([10, 10, 0], [20, 20, 10])],
      'cannot-unite',
      /near 10, 10, 5 mm/,
    );
  });

  it('a body crossed by one that is inside out', () => {
    expectRefused(
      [...box([0, 0, 0], [10, 10, 10]), ...turnAll(box([5, 3, 2], [20, 8, 7]))],
      'opposed-shells-cross',
      /added or taken away/,
    );
  });

  it('a wall without thickness that is there once', () => {
    const left = box([0, 0, 0], [10, 10, 10]);
    const right = mirrored(left).filter((triangle) => !triangle.every((corner) => corner[0] === 10));
    expectRefused(
      [...left, ...right],
      'shared-edges',
      /4 edges have more than two triangles, the first near/,
    );
  });

  it('no mesh at all', () => {
    const none = (mesh: ExactMesh): unknown => repairMesh(mesh, kernel);
    const triangles = Uint32Array.of(0, 1, 2);
    expect(none({ positions: new Float64Array(0), triangles: new Uint32Array(0) })).toMatchObject({
      faults: [{ code: 'no-triangles' }],
    });
    expect(none({ positions: Float64Array.of(0, 0, 0, 1, 0, 0, 0, Number.NaN, 0), triangles })).toMatchObject(
      {
        faults: [{ code: 'not-finite', message: expect.stringContaining('vertex 2') }],
      },
    );
    // Finite as a double, not as it would be carried.
    expect(none({ positions: Float64Array.of(0, 0, 0, 1e39, 0, 0, 0, 1, 0), triangles })).toMatchObject({
      faults: [{ code: 'not-finite' }],
    });
    expect(none({ positions: Float64Array.of(0, 0, 0), triangles })).toMatchObject({
      faults: [{ code: 'lost-vertex' }],
    });
    expect(
      none({ positions: Float64Array.of(0, 0, 0, 1, 1, 1), triangles: Uint32Array.of(0, 1, 1) }),
    ).toMatchObject({
      faults: [{ code: 'no-area' }],
    });
  });
});

describe('closed shells within and through each other', () => {
  const outside = (): Soup => box([0, 0, 0], [30, 30, 30]);

  it('a cavity: refused, filled or kept, as asked', () => {
    const hollow = [...outside(), ...turnAll(box([5, 5, 5], [15, 15, 15]))];
    expectRefused(hollow, 'closed-cavity', /1000 mm³ near 10, 10, 10 mm: no investment gets into it/);
    expectVolume(hollow, 27_000, ['cavities-filled'], { cavities: 'fill' });
    expectVolume(hollow, 26_000, [], { cavities: 'keep' });
    expectVolume(turnAll(hollow), 26_000, ['shells-turned'], { cavities: 'keep' });
  });

  it('a body in a cavity is kept or filled with it', () => {
    const nested = [...outside(), ...turnAll(box([5, 5, 5], [15, 15, 15])), ...box([8, 8, 8], [12, 12, 12])];
    expectVolume(nested, 26_064, [], { cavities: 'keep' });
    expectVolume(nested, 27_000, ['cavities-filled'], { cavities: 'fill' });
  });

  it('a body wholly within the metal of another is the same metal', () => {
    expectVolume([...outside(), ...box([5, 5, 5], [15, 15, 15])], 27_000, ['inner-bodies-dropped']);
  });

  it('bodies that overlap are united, cavities and all', () => {
    const other = box([20, 10, 10], [50, 20, 20]);
    expectVolume([...outside(), ...other], 27_000 + 2000, ['bodies-united']);
    expectVolume(
      [...outside(), ...turnAll(box([5, 5, 5], [15, 15, 15])), ...other],
      28_000,
      ['bodies-united'],
      {
        cavities: 'keep',
      },
    );
  });

  it('two balls: the lens that they share counts once', () => {
    const [r, d] = [10, 12];
    const ball = (x: number): Soup => soupFrom(() => kernel.sphere([x, 0.3, 0.2], r, 0.01));
    const whole = (4 / 3) * Math.PI * r ** 3;
    const lens = (Math.PI * (4 * r + d) * (2 * r - d) ** 2) / 12;
    const repaired = repair([...ball(0), ...ball(d)]);
    expect(repaired.ok).toBe(true);
    if (repaired.ok) expect(inspectMesh(repaired.mesh).volume / (2 * whole - lens)).toBeCloseTo(1, 2.3);
  });

  it('a wall without thickness between two bodies goes', () => {
    const left = box([0, 0, 0], [10, 10, 10]);
    expectVolume([...left, ...mirrored(left)], 2000, ['duplicates-dropped']);
  });

  it('bodies that rest on each other with a smaller face are united', () => {
    expectVolume([...box([0, 0, 0], [30, 30, 5]), ...box([10, 10, 5], [20, 20, 25])], 6500, [
      'bodies-united',
    ]);
  });
});

it('any triangles: sound, or refused with a reason; never an error', () => {
  const step = fc.integer({ min: 0, max: 3 });
  const place = fc.tuple(step, step, step);
  fc.assert(
    fc.property(fc.array(fc.tuple(place, place, place), { minLength: 1, maxLength: 24 }), (soup) => {
      const repaired = repair(soup, { cavities: 'fill', widestHole: 3 });
      if (repaired.ok) expect(inspectMesh(repaired.mesh).problems).toEqual([]);
      else {
        expect(repaired.faults.length).toBeGreaterThan(0);
        for (const { message } of repaired.faults) expect(message).toMatch(/^[A-Z\d].*\.$/);
      }
    }),
    { numRuns: 400 },
  );
});

it('the same mesh twice gives the same bytes', () => {
  const soup = [...box([0, 0, 0], [9, 9, 9]), ...box([5, 5, 5], [19, 19, 19])];
  const [a, b] = [repair(soup), repair(soup)];
  expect(a.ok).toBe(true);
  expect(a).toEqual(b);
});
