/** Random cavities of boxes: what is connected fills, nothing else does, in good order and time. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cellRole } from '../../../../core/freeze/cast-fields.js';
import { type FillProblem, fillMould } from '../../../../core/freeze/fill/fill-mould.js';
import { headsAt } from '../../../../core/freeze/fill/losses.js';
import { cellVolume } from '../../../../core/freeze/grid.js';
import { boxMould, type CellBox, plainFlow } from './boxes.js';

const seed = 20_261_126;
const numRuns = Number(process.env.PROPERTY_RUNS ?? 120);
const counts = [10, 8, 14] as const;
const step = 2;
const top = counts[2] * step;

const span = (n: number): fc.Arbitrary<readonly [number, number]> =>
  fc
    .tuple(fc.integer({ min: 0, max: n - 1 }), fc.integer({ min: 1, max: n }))
    .map(([a, b]) => [a, Math.min(n, a + b)]);
const box = (role: CellBox['role'], height: number): fc.Arbitrary<CellBox> =>
  fc
    .tuple(
      span(counts[0]),
      span(counts[1]),
      span(height),
      fc.constantFrom(1, 1, 0.7, 0.1),
      fc.integer({ min: 1, max: 60 }),
    )
    .map(([x, y, z, share, stops]) => ({
      role,
      from: [x[0], y[0], z[0]],
      to: [x[1], y[1], z[1]],
      share,
      stops,
    }));

/** Castings with walls through them, one or two sprues and a vent or two; vents from none to wide. */
const moulds = fc
  .record({
    castings: fc.array(box('casting', 9), { minLength: 1, maxLength: 5 }),
    walls: fc.array(box('mould', 9), { maxLength: 3 }),
    sprues: fc.array(
      fc.tuple(
        fc.integer({ min: 0, max: 9 }),
        fc.integer({ min: 0, max: 7 }),
        fc.integer({ min: 0, max: 9 }),
      ),
      {
        minLength: 1,
        maxLength: 2,
      },
    ),
    vents: fc.array(
      fc.tuple(
        fc.integer({ min: 0, max: 9 }),
        fc.integer({ min: 0, max: 7 }),
        fc.integer({ min: 0, max: 9 }),
      ),
      {
        maxLength: 2,
      },
    ),
    diameters: fc.array(fc.double({ min: 0.5, max: 4, noNaN: true }), { maxLength: 3 }),
    gate: fc.double({ min: 1, max: 30, noNaN: true }),
    drag: fc.double({ min: 0, max: 2, noNaN: true }),
    pourTime: fc.constantFrom(0, 0.5, 20),
  })
  .map(({ castings, walls, sprues, vents, diameters, gate, drag, pourTime }): FillProblem => {
    const column =
      (role: CellBox['role']) =>
      ([x, y, z]: readonly [number, number, number]): CellBox => ({
        role,
        from: [x, y, z],
        to: [x + 1, y + 1, counts[2]],
        stops: 60,
      });
    const plain = plainFlow(top, 0, gate);
    return boxMould(
      counts,
      step,
      [...castings, ...walls, ...vents.map(column('vent')), ...sprues.map(column('gating'))],
      {
        ...plain,
        cupFloor: top - step,
        ...(pourTime > 0 ? { pourTime } : {}),
        sprue: { drag: headsAt(drag, gate), pipes: [{ length: 20, from: 8, to: 6 }] },
        branches: sprues.map(([, , z]) => ({ ...plain.branches[0]!, outlet: z * step })),
        vents: diameters.map((diameter) => ({
          ...plain.vents[0]!,
          diameter,
          path: [
            [0, 0, 0],
            [0, 0, 40],
          ] as const,
        })),
      },
    );
  });

const sides = (p: FillProblem, c: number): number[] => {
  const [nx, ny, nz] = p.grid.counts;
  const [i, j, k] = [c % nx, Math.floor(c / nx) % ny, Math.floor(c / (nx * ny))];
  return [
    ...(i > 0 ? [c - 1] : []),
    ...(i < nx - 1 ? [c + 1] : []),
    ...(j > 0 ? [c - nx] : []),
    ...(j < ny - 1 ? [c + nx] : []),
    ...(k > 0 ? [c - nx * ny] : []),
    ...(k < nz - 1 ? [c + nx * ny] : []),
  ];
};

const joined = (p: FillProblem, a: number, b: number): boolean => {
  const roles = [p.role[a]!, p.role[b]!];
  return (
    p.share[a]! > 0 && p.share[b]! > 0 && !(roles.includes(cellRole.gating) && roles.includes(cellRole.vent))
  );
};

/** What hangs together without the sprues: the least cell of each, by cell. */
function pieces(p: FillProblem): Map<number, number> {
  const piece = new Map<number, number>();
  for (let first = 0; first < p.grid.size; first++) {
    const open = [first];
    for (let c = open.pop(); c !== undefined; c = open.pop()) {
      if (piece.has(c) || p.share[c] === 0 || p.role[c] === cellRole.gating) continue;
      piece.set(c, first);
      open.push(...sides(p, c));
    }
  }
  return piece;
}

/** Plain depth-first search from the sprues' tops: through sprues, then all else. */
function reachable(p: FillProblem): Set<number> {
  const layer = counts[0] * counts[1];
  const wet = new Set<number>();
  const open: number[] = [];
  for (let c = layer * (counts[2] - 1); c < p.grid.size; c++) if (p.role[c] === cellRole.gating) open.push(c);
  for (let c = open.pop(); c !== undefined; c = open.pop()) {
    if (wet.has(c)) continue;
    wet.add(c);
    for (const b of sides(p, c)) if (joined(p, c, b)) open.push(b);
  }
  return wet;
}

const forEachMould = (check: (p: FillProblem) => void): void =>
  fc.assert(fc.property(moulds, check), { numRuns, seed });

describe(`random cavities, seed ${seed}`, () => {
  test('all that is connected fills, nothing else; times are finite and sum up to the volume', () => {
    forEachMould((p) => {
      const { filledAt, spent, plan } = fillMould(p);
      const wet = reachable(p);
      let [inside, outside, latest] = [0, 0, 0];
      const wrong: number[] = [];
      for (let c = 0; c < p.grid.size; c++) {
        const metal = p.share[c]! * cellVolume(p.grid, c);
        const [time, lost] = [filledAt[c]!, spent[c]!];
        if (metal === 0) {
          if (time !== 0 || lost !== 0) wrong.push(c);
        } else if (wet.has(c)) {
          inside += metal;
          if (!(time >= 0 && time < 1e9 && lost >= 0 && lost < 1e9)) wrong.push(c);
          latest = Math.max(latest, time);
        } else {
          outside += metal;
          if (time !== Number.POSITIVE_INFINITY || lost !== Number.POSITIVE_INFINITY) wrong.push(c);
        }
      }
      expect(wrong).toEqual([]);
      expect(plan.unreached).toBeCloseTo(outside, 4);
      expect(plan.history.at(-1)!.volume).toBeCloseTo(inside, 4);
      expect(latest).toBeCloseTo(plan.total, 3);
      expect(plan.castings).toBeLessThanOrEqual(plan.total);
      expect(plan.flow.first).toBeGreaterThan(0);
      expect(plan.flow.last).toBeGreaterThan(0);
      expect(plan.flow.last).toBeLessThanOrEqual(plan.flow.first * (1 + 1e-9));
      expect(plan.backPressure).toBeGreaterThanOrEqual(0);
      for (const [i, h] of plan.history.entries()) {
        expect(h.level).toBeGreaterThanOrEqual(0);
        if (i === 0) continue;
        expect(h.time).toBeGreaterThanOrEqual(plan.history[i - 1]!.time);
        expect(h.volume).toBeGreaterThanOrEqual(plan.history[i - 1]!.volume);
      }
    });
  });

  test('every cell comes after one beside it, and its front has lost no less', () => {
    forEachMould((p) => {
      const { filledAt, spent } = fillMould(p);
      const wrong: number[] = [];
      for (let c = 0; c < p.grid.size; c++) {
        if (p.share[c] === 0 || !Number.isFinite(filledAt[c])) continue;
        if (filledAt[c] === 0) continue;
        const before = sides(p, c).filter((b) => joined(p, b, c) && filledAt[b]! <= filledAt[c]!);
        if (!before.some((b) => spent[b]! <= spent[c]!)) wrong.push(c);
      }
      expect(wrong).toEqual([]);
    });
  });

  test('metal lies lowest first: no cell fills while a lower one beside metal is open', () => {
    forEachMould((p) => {
      const { filledAt } = fillMould(p);
      const piece = pieces(p);
      const layer = counts[0] * counts[1];
      const order = [...filledAt.keys()]
        .filter((c) => p.share[c]! > 0 && Number.isFinite(filledAt[c]) && p.role[c] !== cellRole.gating)
        .sort((a, b) => filledAt[a]! - filledAt[b]!);
      for (const c of order)
        for (const b of sides(p, c))
          if (
            joined(p, c, b) &&
            p.role[b] !== cellRole.gating &&
            Math.floor(b / layer) < Math.floor(c / layer)
          ) {
            // What lies under it is full before anything else at its own level or over it comes.
            const later = order.find(
              (o) =>
                piece.get(o) === piece.get(c) &&
                filledAt[o]! > filledAt[c]! &&
                Math.floor(o / layer) >= Math.floor(c / layer),
            );
            if (later !== undefined) expect(filledAt[b]).toBeLessThanOrEqual(filledAt[later]!);
          }
    });
  });

  test('more vents, a wider gate or a higher cup are never slower', () => {
    forEachMould((p) => {
      const { total } = fillMould(p).plan;
      const than = (flow: Partial<FillProblem['flow']>): void =>
        expect(fillMould({ ...p, flow: { ...p.flow, ...flow } }).plan.total).toBeLessThanOrEqual(
          total * (1 + 1e-6),
        );
      than({
        vents: [
          ...p.flow.vents,
          {
            name: 'one more',
            diameter: 1.5,
            path: [
              [0, 0, 0],
              [0, 0, 40],
            ],
          },
        ],
      });
      than({ branches: p.flow.branches.map((b) => ({ ...b, drag: b.drag / 2 })) });
      than({ cupLevel: p.flow.cupLevel + 5 });
    });
  });
});
