import { describe, expect, test } from 'vitest';
import { stopTimes } from '../../../../core/freeze/fill/stop-times.js';
import { findThinPlaces } from '../../../../core/freeze/fill/thin-places.js';
import { boxMould, type CellBox, cellAt, plainFlow } from './boxes.js';

const mould = (counts: readonly [number, number, number], boxes: readonly CellBox[], step = 1) =>
  boxMould(counts, step, boxes, plainFlow(counts[2] * step, 0, 1));

describe('until a cell’s metal flows no more', () => {
  test('full cells say it themselves, the more mould one has the more its neighbours, crumbs two cells off', () => {
    const p = mould(
      [6, 1, 1],
      [
        { role: 'casting', from: [0, 0, 0], to: [1, 1, 1], stops: 40 },
        { role: 'casting', from: [1, 0, 0], to: [2, 1, 1], stops: 30 },
        { role: 'casting', from: [2, 0, 0], to: [3, 1, 1], stops: 10, share: 0.75 },
        { role: 'casting', from: [3, 0, 0], to: [4, 1, 1], stops: 0.001, share: 0.3 },
        { role: 'casting', from: [4, 0, 0], to: [5, 1, 1], stops: 0.001, share: 0.05 },
      ],
    );
    // 0.75: half its own, half its neighbour's; 0.3: of the one beside it that can be trusted; 0.05: of that one.
    expect([...stopTimes(p)]).toEqual([40, 30, 20, 10, 10, 0]);
  });
  test('a wall too thin for any is the mean of its own', () => {
    const p = mould(
      [2, 1, 6],
      [
        { role: 'casting', from: [0, 0, 0], to: [1, 1, 6], stops: 2, share: 0.4 },
        { role: 'casting', from: [1, 0, 0], to: [2, 1, 6], stops: 1, share: 0.1 },
      ],
    );
    const stop = stopTimes(p);
    for (let k = 0; k < 6; k++) {
      expect(stop[cellAt(p, 0, 0, k)]).toBeGreaterThan(1);
      expect(stop[cellAt(p, 0, 0, k)]).toBeLessThan(2);
      expect(stop[cellAt(p, 1, 0, k)]).toBeGreaterThan(1);
    }
  });
});

describe('thin places', () => {
  /** A bar with given spent along it, shares to go with them. */
  const bar = (spent: readonly number[], shares: readonly number[] = spent.map(() => 1), step = 2) => {
    const p = mould(
      [spent.length, 1, 1],
      spent.map((_, i) => ({ role: 'casting', from: [i, 0, 0], to: [i + 1, 1, 1], share: shares[i]! })),
      step,
    );
    return findThinPlaces({ ...p, spent: Float32Array.from(spent) });
  };
  test('sets that hang together, worst first, each with its least margin where it is', () => {
    const found = bar([0.1, 0.8, 1.6, 0.7, 0.2, 0.625, 0.1]);
    expect(found.margin).toBeCloseTo(1 / 1.6, 6);
    expect(found.marginAt).toEqual([5, 1, 1]);
    expect(found.thinPlaces.map((p) => [p.volume, p.at[0]])).toEqual([
      [24, 5],
      [8, 11],
    ]);
    expect(found.thinPlaces[1]!.margin).toBeCloseTo(1.6, 6);
  });
  test('a crumb counts with what lies beside it as far as it takes to make a cell', () => {
    const found = bar([0.1, 0.4, 0.625, 1.25, 50], [1, 1, 1, 0.9, 0.2]);
    expect(found.margin).toBeCloseTo(0.8, 6);
    expect(found.thinPlaces).toHaveLength(1);
    expect(found.thinPlaces[0]!.margin).toBe(found.margin);
    const alone = bar([0.1, 0.1, 50], [1, 1, 0.1]);
    expect(alone.thinPlaces).toEqual([]);
    expect(alone.margin).toBeCloseTo(10, 6);
  });
  test('of fine cells it takes as many as make 2 mm³', () => {
    const spent = Array.from({ length: 40 }, (_, i) => 2 - 0.02 * i);
    const found = bar(spent, undefined, 0.5);
    // 16 cells of 1/8 mm³.
    expect(found.margin).toBeCloseTo(1 / (2 - 0.02 * 15), 5);
    expect(found.marginAt[0]).toBe(0.25);
  });
  test('nothing under the limit: the least margin all the same; what is not reached does not count', () => {
    const found = bar([0.1, 0.25, Number.POSITIVE_INFINITY]);
    expect(found.margin).toBeCloseTo(4, 6);
    expect(found.thinPlaces).toEqual([]);
    expect(bar([Number.POSITIVE_INFINITY])).toEqual({
      margin: Number.POSITIVE_INFINITY,
      marginAt: [0, 0, 0],
      marginLimit: 2,
      thinPlaces: [],
    });
  });
});
