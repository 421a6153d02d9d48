/** Late places on fields whose answers are known by hand. */
import { describe, expect, test } from 'vitest';
import type { CastFields } from '../../../core/freeze/cast-fields.js';
import { latePlaces } from '../../../core/freeze/readings/late-places.js';
import { rowOf } from '../../helpers/freeze-readings.js';

const feeding = { freezingShrinkage: 0.05, feederEfficiency: 0.14 };
const find = (fields: CastFields) => latePlaces(fields, feeding);

/** Each time stands for 8 cells of a row, so that places are large enough to count. */
const row = (roles: string, times: readonly number[]) =>
  rowOf(
    [...roles].map((r) => r.repeat(8)).join(''),
    times.flatMap((t) => Array<number>(8).fill(t)),
  );

describe('a row of metal', () => {
  test('two balls and a neck: cut off when the neck is solid, with what is liquid then', () => {
    const [place, ...others] = find(row('cccg', [60, 90, 40, 120]));
    expect(others).toEqual([]);
    expect(place).toMatchObject({ solidAt: 90, shutAt: 40, lastIn: 'casting', neckIn: 'casting' });
    // Stops at 45 and 30: 1 − 0.3 · 40/45 of the one, 0.7 · (60 − 40)/(60 − 30) of the other; 8 cells of 27 mm³ each.
    expect(place!.cutOff).toBeCloseTo(216 * (1 - (0.3 * 40) / 45 + (0.7 * 20) / 30), 3);
    expect(place!.void).toBeCloseTo(0.05 * place!.cutOff, 6);
    expect(place!.neck![0]).toBeGreaterThan(48);
    expect(place!.neck![0]).toBeLessThan(72);
  });

  test('a neck in the gating', () => {
    const [place] = find(row('cgg', [90, 40, 120]));
    expect(place).toMatchObject({ shutAt: 40, neckIn: 'gating' });
  });

  test('falling towards the far end: fed, its latest place is told', () => {
    const [place, ...others] = find(row('cccg', [40, 60, 80, 120]));
    expect(others).toEqual([]);
    expect(place).toMatchObject({ solidAt: 80, shutAt: 80, cutOff: 0, void: 0, neckIn: 'none' });
    expect(place!.neck).toBeUndefined();
  });

  test('a gate’s foot that lies against a later casting is no feeder', () => {
    // From the place on: foot 85, neck 40, cup 120.
    const [place, ...others] = find(row('ccggg', [60, 90, 85, 40, 120]));
    expect(others).toEqual([]);
    expect(place).toMatchObject({ solidAt: 90, shutAt: 40, neckIn: 'gating' });
  });

  test('last in a gate’s foot of mostly casting, and the neck over it early: told', () => {
    const [place, ...others] = find(row('ccccggg', [60, 80, 85, 88, 90, 40, 120]));
    expect(others).toEqual([]);
    expect(place).toMatchObject({ solidAt: 90, shutAt: 40, lastIn: 'gating', neckIn: 'gating' });
  });

  test('gating that freezes towards the casting feeds until it is solid there', () => {
    const [place] = find(row('ccgg', [60, 90, 50, 30]));
    expect(place).toMatchObject({ solidAt: 90, shutAt: 50, neckIn: 'gating' });
  });

  test('no way at all', () => {
    const [place] = find(row('cc.g', [60, 90, 0, 120]));
    expect(place).toMatchObject({ solidAt: 90, shutAt: 0, leastGradient: 0 });
    expect(place!.cutOff).toBeCloseTo(2 * 216, 3);
    expect(place!.neck).toBeUndefined();
  });

  test('three in a row: two places with one way out share what hangs on it', () => {
    const [a, b, ...others] = find(row('cccccg', [70, 50, 90, 80, 40, 120]));
    expect(others).toEqual([]);
    expect(a).toMatchObject({ solidAt: 90, shutAt: 40 });
    expect(b).toMatchObject({ solidAt: 70, shutAt: 40 });
    const liquid = (t: number): number =>
      216 * (t / 2 <= 40 ? (0.7 * (t - 40)) / (t / 2) : 1 - 0.6 * (40 / t));
    const all = [70, 50, 90, 80].reduce((s, t) => s + liquid(t), 0);
    expect(a!.cutOff + b!.cutOff).toBeCloseTo(all, 3);
    // Where they part, at 50, the one holds 8 cells and the other 16; the neck's 8 go with either.
    expect(b!.cutOff / all).toBeGreaterThan(8 / 32);
    expect(b!.cutOff / all).toBeLessThan(16 / 32);
  });

  test('one after the other towards the feeder: each by its own neck', () => {
    const found = find(row('ccccg', [70, 40, 90, 60, 120]));
    expect(found.map((p) => [p.solidAt, p.shutAt])).toEqual([
      [90, 60],
      [70, 40],
    ]);
  });

  test('a feeder at either end: the better way counts', () => {
    const [place] = find(row('gcccg', [120, 30, 90, 60, 100]));
    expect(place).toMatchObject({ solidAt: 90, shutAt: 60 });
  });

  test('less than 2 % later than its way out is the grid’s noise', () => {
    const near = find(row('ccg', [90, 88.5, 120]));
    expect(near.map((p) => p.shutAt)).toEqual([90]);
    expect(find(row('ccg', [90, 88, 120])).map((p) => p.shutAt)).toEqual([88]);
  });

  test('fewer than 8 cells are not told', () => {
    const few = rowOf(`${'c'.repeat(20)}${'g'.repeat(20)}`, [
      ...Array<number>(7).fill(90),
      ...Array<number>(13).fill(40),
      ...Array<number>(20).fill(120),
    ]);
    expect(find(few).map((p) => p.shutAt)).toEqual([90]);
  });

  test('a vent is no feeder, and a place in it is not the casting’s', () => {
    expect(find(row('vcg', [100, 40, 120])).map((p) => p.solidAt)).toEqual([40]);
    expect(find(row('vccg', [100, 90, 40, 120]))).toMatchObject([
      { solidAt: 100, shutAt: 40, lastIn: 'vent', neckIn: 'casting' },
    ]);
  });

  test('a mould all of one time has no place that is cut off', () => {
    expect(find(row('ccg', [50, 50, 50]))).toMatchObject([{ solidAt: 50, shutAt: 50, cutOff: 0 }]);
  });

  test('metal that never froze is told as latest', () => {
    const [place] = find(row('ccg', [Number.POSITIVE_INFINITY, 40, 120]));
    expect(place).toMatchObject({ solidAt: Number.POSITIVE_INFINITY, shutAt: 40 });
    expect(place!.cutOff).toBeCloseTo(216, 3);
  });

  test('each casting of a tree has its own', () => {
    const found = find(row('ccgcc', [90, 40, 120, 70, 60]));
    expect(found.map((p) => [p.solidAt, p.shutAt])).toEqual([
      [90, 40],
      [70, 70],
    ]);
  });
});
