import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { repairMesh } from '../../../../core/mesh/repair/index.js';
import { SolidError } from '../../../../core/solid/errors.js';
import { inspectMesh, loadKernel } from '../../../../core/solid/index.js';
import type { Kernel, Mesh, Solid, Vec2 } from '../../../../core/solid/types.js';
import { buildMesh } from '../../../helpers/built-states.js';
import { expectSound } from '../../../helpers/expect-sound.js';
import { seeded } from '../../../helpers/seeded.js';
import { subdivide } from '../offset/shapes.js';
import {
  collapse,
  crack,
  duplicate,
  flip,
  meshOfSoup,
  open,
  type Soup,
  shake,
  shuffle,
  soupOf,
  turnAll,
} from './breakages.js';

let kernel: Kernel;
let gear: Mesh;
beforeAll(async () => {
  kernel = await loadKernel();
  gear = buildMesh(kernel, 'spur-gear', { teeth: 12, bore: 8, keyway: 'none' }, 0.1);
});

function wheel(teeth: number): Solid {
  const outline: Vec2[] = Array.from({ length: 4 * teeth }, (_, i) => {
    const angle = (Math.PI * i) / (2 * teeth);
    const r = i % 4 < 2 ? 22 : 18;
    return [r * Math.cos(angle), r * Math.sin(angle)];
  });
  return kernel.extrude([outline], 0, 8).subtract(kernel.frustum([0, 0], -1, 5, 9, 5, 0.02));
}

/** Sound bodies with genus and shells known by hand. */
const bodies = {
  gear: { make: () => kernel.fromMesh(gear), genus: 1, shells: 1 },
  box: { make: () => kernel.box([-20, -15, -10], [20, 15, 10]), genus: 0, shells: 1 },
  ball: { make: () => kernel.sphere([3, 2, 1], 20, 0.1), genus: 0, shells: 1 },
  wheel: { make: () => wheel(13), genus: 1, shells: 1 },
  frame: {
    make: () =>
      kernel
        .box([-20, -15, -4], [20, 15, 4])
        .subtract(kernel.box([-15, -10, -5], [-2, 10, 5]), kernel.box([2, -10, -5], [15, 10, 5])),
    genus: 2,
    shells: 1,
  },
  pair: {
    make: () => kernel.union([kernel.box([0, 0, 0], [10, 10, 10]), kernel.sphere([30, 5, 5], 8, 0.1)]),
    genus: 0,
    shells: 2,
  },
  hollow: {
    make: () => kernel.box([-15, -15, -15], [15, 15, 15]).subtract(kernel.sphere([1, 2, 3], 9, 0.1)),
    genus: 0,
    shells: 2,
  },
} as const;

type Name = keyof typeof bodies;

function turned(name: Name, angle: number): Mesh {
  return kernel.scope(() =>
    bodies[name]
      .make()
      .rotate('x', angle)
      .rotate('z', 2 * angle)
      .mesh(),
  );
}

/** What came of it has the volume, the handles and the shells of what it was made from. */
function expectSame(name: Name, whole: Mesh, soup: Soup, relative = 1e-6): void {
  const repaired = repairMesh(meshOfSoup(soup), kernel, { cavities: 'keep' });
  expect(repaired).toMatchObject({ ok: true });
  if (!repaired.ok) return;
  const report = inspectMesh(repaired.mesh);
  expect(report).toMatchObject({ problems: [], genus: bodies[name].genus, components: bodies[name].shells });
  const { volume } = inspectMesh(whole);
  expect(Math.abs(report.volume - volume)).toBeLessThan(relative * volume);
}

const diagonalOf = (corners: readonly (readonly number[])[]): number =>
  Math.hypot(
    ...[0, 1, 2].map((k) => {
      const along = corners.map((c) => c[k] as number);
      return Math.max(...along) - Math.min(...along);
    }),
  );

/** Of the box round the least of its shells, mm. */
function leastDiagonal(name: Name): number {
  if (name === 'pair')
    return diagonalOf([
      [0, 0, 0],
      [10, 10, 10],
    ]);
  if (name === 'hollow')
    return diagonalOf([
      [-9, -9, -9],
      [9, 9, 9],
    ]);
  return diagonalOf(soupOf(turned(name, 0)).flat());
}

/** What lies left of `at + lap` and right of `at`; null where no mesh carries it. */
function halvesOf(whole: Mesh, at: number, lap: number): readonly [Mesh, Mesh] | null {
  try {
    return kernel.scope(() => {
      const solid = kernel.fromMesh(whole);
      return [
        solid.intersect(kernel.box([-99, -99, -99], [at + lap, 99, 99])).mesh(),
        solid.intersect(kernel.box([at, -99, -99], [99, 99, 99])).mesh(),
      ];
    });
  } catch (error) {
    if (error instanceof SolidError && error.code === 'not-carriable') return null;
    throw error;
  }
}

const anyName = fc.constantFrom(...(Object.keys(bodies) as Name[]));
const angles = [0, 0.1, 0.7, 1.3] as const;
const anyAngle = fc.constantFrom(...angles);
const anySeed = fc.nat(1e6);

describe('meshes broken on purpose come back as they were', () => {
  it('shuffled, unwelded, flipped, doubled, with collapsed triangles, inside out', () => {
    fc.assert(
      fc.property(
        anyName,
        anyAngle,
        anySeed,
        fc.boolean(),
        fc.nat(30),
        (name, angle, seed, isTurned, some) => {
          const random = seeded(seed);
          const whole = turned(name, angle);
          const soup = soupOf(whole);
          // Fewer than half of the smallest shell, so that the rest says which way is out.
          let broken = flip(soup, Math.min(some, 5), random);
          broken = duplicate(collapse(broken, some, random), some, random);
          if (isTurned) broken = turnAll(broken);
          expectSame(name, whole, shuffle(broken, random));
        },
      ),
      { numRuns: 30 },
    );
  });

  it('every triangle there twice', () => {
    for (const name of Object.keys(bodies) as Name[]) {
      const whole = turned(name, 0.4);
      const soup = soupOf(whole);
      expectSame(name, whole, [...soup, ...soup]);
    }
  });

  it('with single triangles missing', () => {
    const seed = 20_261_126;
    for (const name of Object.keys(bodies) as Name[]) {
      const random = seeded(seed);
      const least = leastDiagonal(name);
      let holes = 0;
      for (const angle of angles) {
        // Flat places of many triangles, so that single ones are small.
        const whole = subdivide(subdivide(turned(name, angle)));
        const soup = soupOf(whole);
        const isSmall = (f: number): boolean => {
          // Well under a twentieth.
          return diagonalOf(soup[f] as Soup[number]) < 0.04 * least;
        };
        // A box has no small triangles, but every one has another in its plane.
        const isFlat = name === 'box' || name === 'frame';
        const { soup: opened, opened: count } = open(soup, 12, random, (f) => isFlat || isSmall(f));
        holes += count;
        expectSame(name, whole, shuffle(flip(opened, 2, random), random));
      }
      expect({ name, holes: holes > 5 }).toEqual({ name, holes: true });
    }
  });

  it('with cracks where one side of an edge is divided', () => {
    fc.assert(
      fc.property(anyName, anyAngle, anySeed, fc.nat(12), (name, angle, seed, some) => {
        const random = seeded(seed);
        const whole = turned(name, angle);
        expectSame(name, whole, shuffle(crack(soupOf(whole), some, random), random), 1e-5);
      }),
      { numRuns: 30 },
    );
  });

  it('with every corner moved for itself by less than a micrometre', () => {
    fc.assert(
      fc.property(fc.constantFrom('box', 'ball', 'frame', 'pair'), anyAngle, anySeed, (name, angle, seed) => {
        const random = seeded(seed);
        const whole = turned(name, angle);
        // Under a fifth of the joining reach: 1e-5 of a diagonal of 40 mm and more.
        expectSame(name, whole, shuffle(shake(soupOf(whole), 5e-5, random), random), 1e-5);
      }),
      { numRuns: 25 },
    );
  });

  it('cut in two bodies that overlap', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('box', 'ball', 'wheel', 'frame'),
        anyAngle,
        anySeed,
        fc.double({ min: -5, max: 5, noNaN: true }),
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        fc.boolean(),
        (name, angle, seed, at, lap, isTurned) => {
          const random = seeded(seed);
          const whole = turned(name, angle);
          // A cut along a wall may leave what no mesh carries.
          const halves = halvesOf(whole, at, lap);
          fc.pre(halves !== null);
          const soup = halves.flatMap(soupOf);
          // Bodies may be moved by up to 0.002 mm where faces all but coincide.
          expectSame(name, whole, shuffle(isTurned ? turnAll(soup) : soup, random), 2e-4);
        },
      ),
      { numRuns: 25, examples: [['wheel', 0.7, 269_263, 0, 0.6156165301799703, false]] },
    );
  });
});

it('an independent check finds what comes back sound', () => {
  for (const name of Object.keys(bodies) as Name[]) {
    const soup = duplicate(flip(crack(soupOf(turned(name, 0.3)), 5, seeded(7)), 4, seeded(5)), 9, seeded(6));
    const repaired = repairMesh(meshOfSoup(soup), kernel, { cavities: 'keep' });
    expect(repaired.ok).toBe(true);
    if (repaired.ok) expectSound(repaired.mesh);
  }
});
