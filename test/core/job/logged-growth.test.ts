import { describe, expect, test } from 'vitest';
import { findAlloy } from '../../../core/foundry/alloys/index.js';
import { loggedGrowthFindings } from '../../../core/job/logged-growth.js';
import { growthFromLog } from '../../../core/log/growth.js';
import { pour } from '../../helpers/pour.js';

const bronze = findAlloy('tin-bronze')!;
const log = [1.0164, 1.0168, 1.0166].map((g, i) =>
  pour({ id: `test-000${i}`, sizes: [{ name: 'D', axis: 'xy', pattern: 50 * g, casting: 50 }] }),
);
const found = (records: typeof log, ...growths: { value: number; way: string }[]) =>
  loggedGrowthFindings(
    growthFromLog(records, 'tin-bronze', 'gypsum-bonded'),
    bronze,
    'gypsum-bonded',
    growths,
  );

describe('the pour log and a job', () => {
  test('a growth in the log that is not used is told with value and interval', () => {
    const [note, ...more] = found(log, { value: 1.0156, way: 'handbook' }, { value: 1.02, way: 'set' });
    expect(more).toEqual([]);
    expect(note).toMatchObject({ severity: 'note', code: 'growth-in-log' });
    // s/√n = 0.0002/√3, t(0.975, 2) = 4.303: ± 0.0005.
    expect(note!.message).toContain('1.0166 (95 % interval 1.0161 to 1.0171, from 3 pours)');
    expect(note!.message).toContain('grown by 1.0156, 1.0200');
  });

  test('where it is used, nothing is said unless it is a poor guide', () => {
    expect(found(log, { value: 1.0166, way: 'log' })).toEqual([]);
    expect(found(log.slice(0, 1), { value: 1.0164, way: 'log' })).toMatchObject([
      { severity: 'warn', code: 'logged-growth-uncertain' },
    ]);
    expect(found(log.slice(0, 2), { value: 1.0166, way: 'log' })).toEqual([]);
  });

  test('nothing in the log for the alloy and mould: nothing is said', () => {
    expect(found([], { value: 1.0156, way: 'handbook' })).toEqual([]);
    expect(
      loggedGrowthFindings(growthFromLog(log, 'tin-bronze', 'phosphate-bonded'), bronze, 'phosphate-bonded', [
        { value: 1.0156, way: 'handbook' },
      ]),
    ).toEqual([]);
  });
});
