import { describe, expect, test } from 'vitest';
import { relateFaults } from '../../../core/log/faults.js';
import type { Fault } from '../../../core/log/record.js';
import { reportLog } from '../../../core/log/report.js';
import { manyPours } from '../../helpers/many-pours.js';
import { pour } from '../../helpers/pour.js';
import { seeded } from '../../helpers/seeded.js';

const at = (metalTemperature: number, ...faults: Fault[]) => pour({ settings: { metalTemperature }, faults });

describe('faults and settings', () => {
  test('cold metal that misran: related, with bands, halves and intervals', () => {
    const cold = Array.from({ length: 10 }, (_, i) =>
      at(1060 + 4 * i, ...(i < 9 ? (['misrun'] as const) : [])),
    );
    const hot = Array.from({ length: 10 }, (_, i) =>
      at(1120 + 4 * i, ...(i < 1 ? (['misrun'] as const) : [])),
    );
    const { relations, counts } = relateFaults([...cold, ...hot], 'tin-bronze');
    const [relation] = relations;
    expect(relation).toMatchObject({
      fault: 'misrun',
      setting: 'metalTemperature',
      verdict: 'related',
      split: { at: 1120, below: { count: 9, total: 10 }, above: { count: 1, total: 10 } },
    });
    // Two-sided Fisher for 9, 1; 1, 9: 2 (10·10 + 1) / C(20, 10) by hand.
    expect(relation!.p).toBeCloseTo((2 * (10 * 10 + 1)) / 184_756, 9);
    expect(relation!.bands.map((b) => [b.from, b.to])).toEqual([
      [1050, 1075],
      [1075, 1100],
      [1100, 1125],
      [1125, 1150],
      [1150, 1175],
    ]);
    expect(relation!.bands.reduce((n, b) => n + b.total, 0)).toBe(20);
    expect(counts.misrun).toMatchObject({ count: 10, total: 20 });
    expect(counts.cracks.interval!.low).toBe(0);
  });

  test('with few pours it says that they are too few, however clear they look', () => {
    const few = [1060, 1065, 1070, 1130, 1135, 1140].map((t) =>
      at(t, ...(t < 1100 ? (['misrun'] as const) : [])),
    );
    expect(relateFaults(few, 'tin-bronze').relations).toMatchObject([{ verdict: 'too few' }]);
  });

  test('a setting that never changed, or was never noted, says nothing', () => {
    const same = Array.from({ length: 20 }, (_, i) => at(1100, ...(i % 2 ? (['flash'] as const) : [])));
    expect(relateFaults(same, 'tin-bronze').relations).toEqual([]);
    expect(relateFaults([pour({ faults: ['flash'] })], 'tin-bronze').relations).toEqual([]);
  });

  test('faults that have nothing to do with the settings are called related in under 5 % of 1,000 logs; seed 5', () => {
    const random = seeded(5);
    let false_alarms = 0;
    for (let run = 0; run < 1000; run++) {
      const log = Array.from({ length: 30 }, () =>
        pour({
          settings: { metalTemperature: 1050 + 150 * random(), flaskTemperature: 400 + 250 * random() },
          faults: (['misrun', 'porosity', 'flash'] as const).filter(() => random() < 0.3),
        }),
      );
      if (relateFaults(log, 'tin-bronze').relations.some((r) => r.verdict === 'related')) false_alarms++;
    }
    expect(false_alarms).toBeLessThan(50);
  });
});

test('ten thousand pours are reported', () => {
  const report = reportLog(manyPours(10_000));
  expect(report.pours).toBe(10_000);
  expect(report.growth[0]!.all.value).toBeCloseTo(1.017, 4);
});
