import { describe, expect, test } from 'vitest';
import { runFreeze } from '../../../core/freeze/freeze.js';
import { evenEdges, gridOf, stretchedEdges } from '../../../core/freeze/grid.js';
import type { HeatProblem } from '../../../core/freeze/heat-problem.js';
import { shortStepTimes } from '../../../core/freeze/short-steps.js';
import { bronze, plaster } from '../../helpers/freeze-problems.js';

describe('times of very short steps', () => {
  const exact = Float32Array.from({ length: 200 }, (_, i) => 1 + i / 2);
  const late = (t: number, step: number): number => t + step * (0.8 * t + 0.004 * t * t);

  test('come out of two runs that are late in proportion to their steps', () => {
    const fine = exact.map((t) => late(t, 0.02));
    const map = shortStepTimes(
      exact.map((t) => late(t, 0.04)),
      fine,
    );
    for (const [c, t] of exact.entries()) expect(map(fine[c]!) / t).toBeCloseTo(1, 3);
  });

  test('rise with the times they are made of, and leave 0 and never as they are', () => {
    const fine = exact.map((t, i) => t * (1 + 0.01 * Math.sin(7 * i)));
    const rough = exact.map((t, i) => 1.05 * t * (1 + 0.02 * Math.cos(3 * i)));
    const map = shortStepTimes(rough, fine);
    for (let t = 0.1; t < 150; t += 0.1) expect(map(t + 0.1)).toBeGreaterThan(map(t));
    expect(map(0)).toBe(0);
    expect(map(Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
    expect(shortStepTimes(new Float32Array(3), new Float32Array(3))(5)).toBe(5);
  });
});

describe('time to freeze', () => {
  /** A cube of that many mm in a block of plaster, its cells a tenth of it. */
  const cube = (size: number): HeatProblem => {
    const edges = stretchedEdges([-2.5 * size, 2.5 * size], [-0.6 * size, 0.6 * size], size / 10);
    const grid = gridOf(edges, edges, edges);
    const [nx, ny] = grid.counts;
    const isIn = (i: number): boolean => Math.abs(edges[i]! + edges[i + 1]!) < size;
    const share = new Float32Array(grid.size).map((_, c) =>
      isIn(c % nx) && isIn(Math.floor(c / nx) % ny) && isIn(Math.floor(c / (nx * ny))) ? 1 : 0,
    );
    return {
      grid,
      share,
      metal: bronze,
      mould: plaster,
      contactResistance: 0,
      surroundings: { temperature: 25, convection: 0, emissivity: 0 },
      start: share.map((s) => (s === 1 ? 1050 : 400)),
    };
  };

  test('is within half a per cent of what steps a quarter as long give', () => {
    const { total } = runFreeze(cube(20));
    const short = runFreeze(cube(20), { stepShare: 0.0125, heatShare: 0.00125 });
    expect(Math.abs(total / short.total - 1)).toBeLessThan(0.005);
  });

  test('goes with the square of the size, from a bead to a bollard, in as many steps', () => {
    const { total, steps } = runFreeze(cube(10));
    for (const size of [1, 100, 1000]) {
      const other = runFreeze(cube(size));
      expect(other.total / total / (size / 10) ** 2).toBeCloseTo(1, 2);
      expect(Math.abs(other.steps - steps)).toBeLessThan(0.3 * steps);
      expect(other.imbalance).toBeLessThan(1e-3);
    }
  });

  test('of metal that never freezes, or is solid already, is never and at once', () => {
    const one = evenEdges(0, 2, 2);
    const still: HeatProblem = {
      ...cube(1),
      grid: gridOf(one, one, one),
      share: new Float32Array(8).fill(1),
      surroundings: { temperature: 1200, convection: 1e-3, emissivity: 0 },
      start: new Float32Array(8).fill(1100),
    };
    expect(runFreeze(still).total).toBe(Number.POSITIVE_INFINITY);
    const cold = {
      ...still,
      start: new Float32Array(8).fill(500),
      surroundings: { ...still.surroundings, temperature: 20 },
    };
    expect(runFreeze(cold).total).toBeLessThan(0.01);
  });
});
