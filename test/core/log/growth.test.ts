import { describe, expect, test } from 'vitest';
import { alloys, findAlloy } from '../../../core/foundry/alloys/index.js';
import { handbookGrowth } from '../../../core/foundry/growth.js';
import { growthFromLog, printerErrorFromLog } from '../../../core/log/growth.js';
import type { MeasuredSize, PourRecord } from '../../../core/log/record.js';
import { pour } from '../../helpers/pour.js';
import { normal } from '../../helpers/pours.js';
import { seeded } from '../../helpers/seeded.js';

const inch = 25.4;
const sizesOf = (pairs: readonly (readonly [number, number])[], axis: 'xy' | 'z' = 'xy'): MeasuredSize[] =>
  pairs.map(([pattern, casting], i) => ({ name: `D${i}`, axis, pattern, casting }));
const learnt = (records: readonly PourRecord[]) => growthFromLog(records, 'tin-bronze', 'gypsum-bonded');

describe('a pattern of 1.490 in came out, filed, at 1.457 in', () => {
  const size = { name: 'D', axis: 'xy' as const, pattern: 1.49 * inch, casting: 1.457 * inch };

  test('one reading gives the growth, 1.490 / 1.457, and no interval', () => {
    const growth = learnt([pour({ sizes: [size] })]);
    expect(growth).toMatchObject({ interval: null, n: 1, unit: 'readings', outliers: [] });
    expect(growth?.value).toBeCloseTo(1.49 / 1.457, 12);
    expect(growth?.basis.rule).toContain('no interval');
  });

  test('our growth for bronze leaves a file’s worth of stock on it: 0.05 to 0.3 mm a side', () => {
    // Filed, it is the finished part; what the growth does not explain was filed off.
    const value = handbookGrowth(findAlloy('tin-bronze')!);
    const side = ((1.49 / value - 1.457) / 2) * inch;
    expect(side).toBeGreaterThan(0.05);
    expect(side).toBeLessThan(0.3);
    const noted = learnt([pour({ sizes: [{ ...size, removed: 2 * side }] })]);
    expect(noted?.value).toBeCloseTo(value, 9);
  });
});

describe('what counts', () => {
  test('alloy and mould are kept apart, and nothing comes of nothing', () => {
    const sizes = sizesOf([[51, 50]]);
    const records = [
      pour({ sizes }),
      pour({ alloy: 'yellow-brass', sizes: sizesOf([[52, 50]]) }),
      pour({ investment: 'phosphate-bonded', sizes: sizesOf([[53, 50]]) }),
      pour({ sizes: [{ name: 'D', axis: 'xy', nominal: 60, casting: 50 }] }),
    ];
    expect(learnt(records)).toMatchObject({ value: 51 / 50, n: 1 });
    expect(growthFromLog(records, 'aluminium', 'gypsum-bonded')).toBeUndefined();
    expect(learnt([])).toBeUndefined();
  });

  test('many sizes of two pours have one degree of freedom, not many', () => {
    const two = [1.015, 1.017].map((g) => pour({ sizes: sizesOf([20, 30, 40, 50].map((c) => [c * g, c])) }));
    const growth = learnt(two)!;
    // t(0.975, 1) = 12.706 (NIST/SEMATECH e-Handbook 1.3.6.7.2); s/√n = 0.001.
    expect(growth.interval!.high - growth.value).toBeCloseTo(12.706 * 0.001, 6);
    expect(growth).toMatchObject({ n: 2, unit: 'pours', readings: 8 });
  });

  test('a misread size and a pour of the wrong alloy are named and left out', () => {
    const scatter = [0.0004, -0.0003, 0.0001, -0.0002, 0.0003, -0.0001, 0.0002, 0];
    const records = scatter.map((d, i) =>
      pour({
        date: `2026-05-0${i + 1}`,
        flask: `can ${i}`,
        sizes: sizesOf([20, 40, 60].map((c) => [c * (1.016 + d), c])),
      }),
    );
    const clean = learnt(records)!;
    expect(clean.outliers).toEqual([]);
    records[2] = pour({
      date: '2026-05-03',
      flask: 'can 2',
      sizes: sizesOf([
        [20.32, 20],
        [46.2, 40],
        [60.96, 60],
      ]),
    });
    const misread = learnt(records)!;
    expect(misread.outliers).toEqual([{ date: '2026-05-03', flask: 'can 2', size: 'D1', ratio: 46.2 / 40 }]);
    expect(Math.abs(misread.value - clean.value)).toBeLessThan(0.0001);
    records[5] = pour({ date: '2026-05-06', sizes: sizesOf([20, 40, 60].map((c) => [c * 1.03, c])) });
    const foreign = learnt(records)!;
    expect(foreign.outliers).toMatchObject([{ size: 'D1' }, { date: '2026-05-06', size: null }]);
    expect(Math.abs(foreign.value - clean.value)).toBeLessThan(0.0002);
  });

  test('the printer’s error is apart from the contraction', () => {
    const random = seeded(11);
    const [growth, across, upward] = [1.0165, 0.996, 1.002];
    const records = Array.from({ length: 12 }, () => {
      const g = growth + 0.0008 * normal(random);
      const size = (name: string, axis: 'xy' | 'z', nominal: number, e: number): MeasuredSize => {
        const pattern = nominal * e + 0.01 * normal(random);
        return { name, axis, nominal, pattern, casting: pattern / g + 0.01 * normal(random) };
      };
      return pour({
        settings: { plastic: 'pla' },
        sizes: [size('D', 'xy', 60, across), size('H', 'z', 40, upward)],
      });
    });
    for (const [axis, error] of [
      ['xy', across],
      ['z', upward],
    ] as const) {
      const found = printerErrorFromLog(records, 'pla', axis)!;
      expect(found.interval!.low).toBeLessThan(error);
      expect(found.interval!.high).toBeGreaterThan(error);
    }
    const { interval } = learnt(records)!;
    expect(interval!.low).toBeLessThan(growth);
    expect(interval!.high).toBeGreaterThan(growth);
    expect(printerErrorFromLog(records, null, 'xy')).toBeUndefined();
  });
});

describe('the 95 % interval holds the true growth in 95 ± 2 % of 1,000 synthetic logs', () => {
  /** Pours scatter, callipers err, and one reading may be a millimetre or two off. */
  const log = (random: () => number, pours: number, sizes: readonly number[], bad: number): PourRecord[] => {
    const wrong = Math.floor(random() * pours * sizes.length);
    return Array.from({ length: pours }, (_, i) => {
      const g = truth + 0.0012 * normal(random);
      const pairs = sizes.map((casting, k) => {
        const slip = i * sizes.length + k === wrong ? bad * (random() < 0.5 ? -1 : 1) : 0;
        return [casting * g + 0.015 * normal(random) + slip, casting + 0.015 * normal(random)] as const;
      });
      return pour({ sizes: sizesOf(pairs) });
    });
  };
  const truth = 1.0165;

  test.each([
    ['8 pours of three sizes', 8, [20, 40, 60], 0, 1],
    ['8 pours of three sizes, one reading 2 mm off', 8, [20, 40, 60], 2, 2],
    ['15 pours of five sizes', 15, [10, 20, 30, 50, 80], 0, 3],
    ['15 pours of five sizes, one reading 1 mm off', 15, [10, 20, 30, 50, 80], 1, 4],
    ['6 pours of one size', 6, [40], 0, 5],
    ['6 pours of one size, one reading 2 mm off', 6, [40], 2, 6],
    ['5 pours of two sizes, one reading 3 mm off', 5, [30, 60], 3, 7],
  ] as const)('%s', (_, pours, sizes, bad, seed) => {
    const random = seeded(seed);
    let held = 0;
    let off = 0;
    for (let run = 0; run < 1000; run++) {
      const { value, interval } = learnt(log(random, pours, sizes, bad))!;
      if (interval!.low <= truth && truth <= interval!.high) held++;
      off += (value - truth) / 1000;
    }
    expect(held).toBeGreaterThanOrEqual(930);
    expect(held).toBeLessThanOrEqual(970);
    // And the estimate itself leans neither way.
    expect(Math.abs(off)).toBeLessThan(0.0002);
  });
});

test('every alloy’s handbook growth could be told from a log', () => {
  for (const alloy of alloys) {
    const g = handbookGrowth(alloy);
    const records = [0.9995, 1, 1.0005].map((s) =>
      pour({ alloy: alloy.name, sizes: sizesOf([[50 * g * s, 50]]) }),
    );
    const { interval } = growthFromLog(records, alloy.name, 'gypsum-bonded')!;
    expect(interval!.low).toBeLessThan(g);
    expect(interval!.high).toBeGreaterThan(g);
  }
});
