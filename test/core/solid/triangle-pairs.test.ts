import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { loadKernel } from '../../../core/solid/kernel.js';
import { type Corners, isFlat, trianglesCross } from '../../../core/solid/triangle-crossing.js';
import { forDoubtfulPairs } from '../../../core/solid/triangle-pairs.js';

const folder = join(import.meta.dirname, '../../../core/solid/pairs');

/** Corners on a coarse lattice, so that triangles lie in one plane, touch, and share corners and edges often. */
const soup = (least: number, most: number): fc.Arbitrary<Corners> =>
  fc
    .tuple(fc.integer({ min: least, max: most }), fc.integer({ min: 2, max: 9 }), fc.integer(), fc.boolean())
    .map(([count, cells, seed, slanted]) => {
      let state = seed;
      const draw = (): number => {
        state = (Math.imul(state, 1664525) + 1013904223) | 0;
        return (state >>> 8) % cells;
      };
      const p = Float64Array.from({ length: 9 * count }, () => Math.fround(draw() / 3));
      // In one plane that is not along the axes, as far as float32 has it.
      if (slanted)
        for (let i = 0; i < p.length; i += 3)
          p[i + 2] = Math.fround(0.3 * (p[i] as number) + 0.7 * (p[i + 1] as number));
      const t = Uint32Array.from({ length: 3 * count }, (_, i) => (i % 4 === 0 ? Math.floor(i / 2) : i));
      return { p, t };
    });

const wholeOf = (mesh: Corners): number[] =>
  Array.from({ length: mesh.t.length / 3 }, (_, i) => i).filter((i) => {
    const corners = mesh.t.subarray(3 * i, 3 * i + 3);
    return new Set(corners).size === 3 && !isFlat(mesh, i);
  });

const keyOf = (i: number, j: number): string => (i < j ? `${i} ${j}` : `${j} ${i}`);

test('no pair that meets is passed over, none is told twice', () => {
  fc.assert(
    fc.property(soup(1, 40), (mesh) => {
      const whole = wholeOf(mesh);
      const told = new Set<string>();
      const done = forDoubtfulPairs(mesh, Uint32Array.from(whole), (i, j) => {
        expect(told.has(keyOf(i, j))).toBe(false);
        told.add(keyOf(i, j));
        return false;
      });
      expect(done).toBe(true);
      for (const [n, i] of whole.entries())
        for (const j of whole.slice(n + 1))
          if (trianglesCross(mesh, i, j)) expect(told).toContain(keyOf(i, j));
    }),
    { numRuns: 200 },
  );
});

test('of triangles anywhere, with and without common corners, hardly any but those that meet are asked about', () => {
  let state = 5;
  const draw = (below: number): number => {
    state = (Math.imul(state, 1664525) + 1013904223) | 0;
    return ((state >>> 8) / 2 ** 24) * below;
  };
  const corners = 12;
  const [meeting, apart, asked] = [0, 0, 0].map(() => [0, 0, 0]) as [number[], number[], number[]];
  for (let round = 0; round < 300; round++) {
    const p = Float64Array.from({ length: 3 * corners }, () => Math.fround(draw(10)));
    const drawn = Array.from({ length: 20 }, () => [0, 1, 2].map(() => Math.floor(draw(corners))));
    const mesh = { p, t: Uint32Array.from(drawn.filter((t) => new Set(t).size === 3).flat()) };
    const whole = wholeOf(mesh);
    const told = new Set<string>();
    forDoubtfulPairs(mesh, Uint32Array.from(whole), (i, j) => {
      told.add(keyOf(i, j));
      return false;
    });
    for (const [n, i] of whole.entries())
      for (const j of whole.slice(n + 1)) {
        const ours = mesh.t.subarray(3 * i, 3 * i + 3);
        const common = mesh.t.subarray(3 * j, 3 * j + 3).filter((v) => ours.includes(v)).length;
        if (common === 3) continue;
        if (trianglesCross(mesh, i, j)) {
          expect(told).toContain(keyOf(i, j));
          meeting[common]!++;
        } else {
          apart[common]!++;
          if (told.has(keyOf(i, j))) asked[common]!++;
        }
      }
  }
  for (const common of [0, 1]) expect(meeting[common]).toBeGreaterThan(500);
  for (const common of [0, 1, 2]) {
    expect(apart[common]).toBeGreaterThan(500);
    expect(asked[common]! / apart[common]!).toBeLessThan(0.001);
  }
});

test('of a ball, whose neighbours are all parted by a plane, hardly any pair is asked about', async () => {
  const kernel = await loadKernel();
  const { positions, triangles: t } = kernel.scope(() => kernel.sphere([3, 2, 1], 20, 0.01).mesh());
  let doubtful = 0;
  const mesh = { p: Float64Array.from(positions), t };
  forDoubtfulPairs(
    mesh,
    Uint32Array.from({ length: t.length / 3 }, (_, i) => i),
    () => {
      doubtful++;
      return false;
    },
  );
  expect(t.length / 3).toBeGreaterThan(5000);
  expect(doubtful).toBeLessThan(t.length / 3 / 10);
});

test('more pairs than there is room for come all the same, and are given up when too many', () => {
  // All on one another, in more memory than is kept.
  const count = 300;
  const p = Float64Array.from({ length: 9 * count }, (_, i) => [0, 0, 0, 1, 0, 0, 0, 1, 0][i % 9] as number);
  const mesh = { p, t: Uint32Array.from({ length: 3 * count }, (_, i) => i) };
  const list = Uint32Array.from({ length: count }, (_, i) => i);
  let pairs = 0;
  const all = forDoubtfulPairs(mesh, list, () => {
    pairs++;
    return false;
  });
  expect([all, pairs]).toEqual([true, (count * (count - 1)) / 2]);
  expect(forDoubtfulPairs(mesh, list, () => false, 1000)).toBe(false);
});

test('one search within another, and after one that was broken off', () => {
  const [outer] = fc.sample(soup(30, 40), { numRuns: 1, seed: 4 }) as [Corners];
  const pairsOf = (within: () => void): number => {
    let pairs = 0;
    forDoubtfulPairs(outer, Uint32Array.from(wholeOf(outer)), () => {
      within();
      pairs++;
      return false;
    });
    return pairs;
  };
  const alone = pairsOf(() => undefined);
  expect(pairsOf(() => void forDoubtfulPairs(outer, Uint32Array.from(wholeOf(outer)), () => true))).toBe(
    alone,
  );
  expect(() =>
    pairsOf(() => {
      throw new Error('enough');
    }),
  ).toThrow('enough');
  expect(pairsOf(() => undefined)).toBe(alone);
});

test('is given up after so many looks, also where nearly all pairs are parted and few are told', () => {
  // Long needles through a small ball, all ways: their bounds overlap there, and hardly two of them meet.
  const count = 6000;
  const p = new Float64Array(9 * count);
  for (let i = 0; i < count; i++) {
    // Evenly spread directions (the golden angle), each moved aside by up to a millimetre.
    const z = 1 - (2 * i + 1) / count;
    const r = 100 * Math.sqrt(1 - z * z);
    const [x, y] = [r * Math.cos(2.39996 * i), r * Math.sin(2.39996 * i)];
    const [dx, dy, dz] = [Math.sin(7.1 * i), Math.sin(5.3 * i), Math.sin(3.7 * i)];
    const corners = [
      dx - x,
      dy - y,
      dz - 100 * z,
      dx + x,
      dy + y,
      dz + 100 * z,
      dx + x,
      dy + y,
      dz + 100 * z + 1e-3,
    ];
    p.set(corners.map(Math.fround), 9 * i);
  }
  const slivers = { p, t: Uint32Array.from({ length: 3 * count }, (_, i) => i) };
  const list = Uint32Array.from({ length: count }, (_, i) => i);
  let told = 0;
  const tell = (): boolean => {
    told++;
    return false;
  };
  expect(forDoubtfulPairs(slivers, list, tell)).toBe(true);
  // Fewer than would fill the list of what is told, at which it is asked whether to go on.
  expect(told).toBeLessThan(5000);
  expect(forDoubtfulPairs(slivers, list, tell, 1e6)).toBe(false);
});

test('the bytes are those of the source', () => {
  const printed = execFileSync(process.execPath, [join(folder, 'compile.js'), '--print'], {
    encoding: 'utf8',
  });
  expect(readFileSync(join(folder, 'bytes.ts'), 'utf8')).toBe(printed);
});
