/** Late places of random blocks against a plain search over all thresholds; mirrored. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type CastFields, cellRole } from '../../../core/freeze/cast-fields.js';
import { type FoundPlace, latePlaces } from '../../../core/freeze/readings/late-places.js';
import { latestFirst } from '../../../core/freeze/readings/latest-first.js';
import { evenGrid, fieldsOf } from '../../helpers/freeze-readings.js';

const seed = 20261126;
/** Any metal of the gating can feed. */
const feeding = { freezingShrinkage: 1e-3, feederEfficiency: 1 };

/** Blocks of 2 × 2 × 2 cells of 3 mm, each with a role and a time of its own. */
interface Blocks {
  readonly counts: readonly [number, number, number];
  readonly role: readonly number[];
  readonly time: readonly number[];
}

const anyBlocks: fc.Arbitrary<Blocks> = fc
  .tuple(fc.integer({ min: 2, max: 5 }), fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 4 }))
  .chain((counts) => {
    const n = counts[0] * counts[1] * counts[2];
    return fc.record({
      counts: fc.constant(counts),
      role: fc.array(fc.constantFrom(0, 1, 1, 1, 1, 2, 2, 3), { minLength: n, maxLength: n }),
      // No two nearer than 5 %: every block that is later than those beside it is noticeable.
      time: fc
        .shuffledSubarray(
          Array.from({ length: n }, (_, i) => 10 * 1.05 ** i),
          { minLength: n, maxLength: n },
        )
        .map((t) => t),
    });
  });

function cellsOf({ counts, role, time }: Blocks, jitter: (c: number) => number = () => 1): CastFields {
  const [nx, ny, nz] = counts.map((n) => 2 * n) as [number, number, number];
  const grid = evenGrid([nx, ny, nz], 3);
  const block = (c: number): number =>
    ((c % nx) >> 1) +
    counts[0] * (((Math.floor(c / nx) % ny) >> 1) + counts[1] * (Math.floor(c / (nx * ny)) >> 1));
  const all = Array.from({ length: grid.size }, (_, c) => c);
  return fieldsOf(
    grid,
    all.map((c) => time[block(c)]! * jitter(c)),
    all.map((c) => role[block(c)]!),
  );
}

/** Blocks beside a block that metal passes to. */
const besideIn =
  ({ counts: [nx, ny, nz], role }: Blocks) =>
  (b: number): readonly number[] => {
    const [i, j, k] = [b % nx, Math.floor(b / nx) % ny, Math.floor(b / (nx * ny))];
    const next: number[] = [];
    for (const [di, dj, dk] of [
      [1, 0, 0],
      [-1, 0, 0],
      [0, 1, 0],
      [0, -1, 0],
      [0, 0, 1],
      [0, 0, -1],
    ] as const) {
      const [p, q, r] = [i + di, j + dj, k + dk];
      if (p < 0 || q < 0 || r < 0 || p >= nx || q >= ny || r >= nz) continue;
      const n = p + nx * (q + ny * r);
      const apart = role[b] !== role[n] && role[b]! + role[n]! === cellRole.gating + cellRole.vent;
      if (role[n] !== cellRole.mould && !apart) next.push(n);
    }
    return next;
  };

/** [solidAt, shutAt] of the places that are cut off, by search alone. */
function searched(blocks: Blocks): readonly (readonly [number, number])[] {
  const { role, time } = blocks;
  const beside = besideIn(blocks);
  const all = role.flatMap((r, b) => (r === cellRole.mould ? [] : [b]));
  const isLast = (b: number): boolean => beside(b).every((n) => time[n]! < time[b]!);
  const within = (from: number, keeps: (b: number) => boolean): readonly number[] => {
    const found = [from];
    for (const b of found) found.push(...beside(b).filter((n) => keeps(n) && !found.includes(n)));
    return found;
  };
  return all
    .filter((b) => isLast(b) && role[b] !== cellRole.gating)
    .flatMap((b) => {
      const levels = all.map((x) => time[x]!).sort((x, y) => y - x);
      const firstWith = (wanted: (x: number) => boolean): number | undefined =>
        levels.find((t) => t <= time[b]! && within(b, (x) => time[x]! >= t).some(wanted));
      const shut =
        firstWith((x) => role[x] === cellRole.gating && isLast(x)) ??
        firstWith((x) => role[x] === cellRole.gating) ??
        0;
      const pocket = within(b, (x) => time[x]! > shut);
      return pocket.some((x) => role[x] === cellRole.casting) ? [[time[b]!, shut] as const] : [];
    })
    .sort((a, b) => b[0] - a[0]);
}

const cutOffOf = (places: readonly FoundPlace[]) => places.filter((p) => p.cutOff > 0);
const times = (places: readonly FoundPlace[]) =>
  cutOffOf(places)
    .map((p) => [p.solidAt, p.shutAt] as const)
    .sort((a, b) => b[0] - a[0]);

describe(`random blocks, seed ${seed}`, () => {
  test('the same places as by search', () => {
    fc.assert(
      fc.property(anyBlocks, (blocks) => {
        const found = times(latePlaces(cellsOf(blocks), feeding));
        const wanted = searched(blocks);
        expect(found.length).toBe(wanted.length);
        found.forEach(([solid, shut], i) => {
          expect(solid).toBeCloseTo(wanted[i]![0], 3);
          expect(shut).toBeCloseTo(wanted[i]![1], 3);
        });
      }),
      { seed, numRuns: 400 },
    );
  });

  test('shut no later than solid; no more cut off than there is metal; each piece of casting told of', () => {
    fc.assert(
      fc.property(anyBlocks, fc.double({ min: 0.01, max: 0.5, noNaN: true }), (blocks, efficiency) => {
        const fields = cellsOf(blocks);
        const found = latePlaces(fields, { freezingShrinkage: 0.055, feederEfficiency: efficiency });
        const metal = blocks.role.filter((r) => r !== cellRole.mould).length * 8 * 27;
        for (const p of found) {
          expect(p.shutAt).toBeLessThanOrEqual(p.solidAt);
          expect(p.void).toBeCloseTo(0.055 * p.cutOff, 6);
          expect(p.neck !== undefined).toBe(p.cutOff > 0 && p.shutAt > 0);
        }
        expect(found.reduce((s, p) => s + p.cutOff, 0)).toBeLessThanOrEqual(metal * (1 + 1e-6));
        if (blocks.role.includes(cellRole.casting)) expect(found.length).toBeGreaterThan(0);
      }),
      { seed, numRuns: 300 },
    );
  });

  test('mirrored and turned, all follows', () => {
    fc.assert(
      fc.property(anyBlocks, fc.constantFrom('mirror x', 'mirror z', 'turn'), (blocks, how) => {
        // Times that differ from cell to cell by less than is noticeable.
        const fields = cellsOf(blocks, (c) => 1 + 0.01 * (((c * 7919) % 1009) / 1009));
        const moved = movedBy(fields, how);
        const [a, b] = [latePlaces(fields, feeding), latePlaces(moved.fields, feeding)];
        expect(b.length).toBe(a.length);
        a.forEach((p, i) => {
          const q = b[i]!;
          expect(q.solidAt).toBe(p.solidAt);
          expect(q.shutAt).toBe(p.shutAt);
          expect(q.cutOff).toBeCloseTo(p.cutOff, 3);
          expect(q.at).toEqual(moved.at(p.at));
          expect(q.neck).toEqual(p.neck && moved.at(p.neck));
        });
      }),
      { seed, numRuns: 300 },
    );
  });
});

type Triple = readonly [number, number, number];

function movedBy(fields: CastFields, how: 'mirror x' | 'mirror z' | 'turn') {
  const { counts } = fields.grid;
  const [nx, ny, nz] = counts;
  const to = (i: number, j: number, k: number): Triple =>
    how === 'mirror x' ? [nx - 1 - i, j, k] : how === 'mirror z' ? [i, j, nz - 1 - k] : [ny - 1 - j, i, k];
  const next: Triple = how === 'turn' ? [ny, nx, nz] : counts;
  const grid = evenGrid(next, 3);
  const moved = (from: ArrayLike<number>): Float32Array => {
    const out = new Float32Array(grid.size);
    for (let c = 0; c < grid.size; c++) {
      const [i, j, k] = to(c % nx, Math.floor(c / nx) % ny, Math.floor(c / (nx * ny)));
      out[i + next[0] * (j + next[1] * k)] = from[c]!;
    }
    return out;
  };
  const at = ([x, y, z]: Triple): Triple => {
    const [i, j, k] = to(x / 3 - 0.5, y / 3 - 0.5, z / 3 - 0.5);
    return [3 * (i + 0.5), 3 * (j + 0.5), 3 * (k + 0.5)];
  };
  return { fields: fieldsOf(grid, moved(fields.solidAt), moved(fields.role)), at };
}

test('falling order by radix is that of a plain sort, ties by cell', () => {
  fc.assert(
    fc.property(
      fc.array(fc.oneof(fc.float({ min: 0, noNaN: true }), fc.constantFrom(0, 1, 1, 2.5)), {
        maxLength: 300,
      }),
      (list) => {
        const values = Float32Array.from(list, (v) => Math.abs(v));
        const cells = Int32Array.from(values, (_, c) => c).filter((c) => c % 3 !== 1);
        const plain = [...cells].sort((a, b) => {
          const [x, y] = [values[a]!, values[b]!];
          return x === y ? a - b : x > y ? -1 : 1;
        });
        expect([...latestFirst(cells, values)]).toEqual(plain);
      },
    ),
    { seed, numRuns: 300 },
  );
});
