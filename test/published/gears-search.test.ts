/** The pair search against a printed example. */
import { describe, expect, it } from 'vitest';
import { searchPairs } from '../../core/gear/pair-search.js';

describe('tooth numbers from module, centre distance and ratio (Elements of Metric Gear Technology, Table 4-2, seen)', () => {
  it('m 3, a 54, i 0.8: 16 and 20', () => {
    const { candidates } = searchPairs({
      gearType: 'spur',
      ratio: 1 / 0.8,
      ratioTolerance: 0,
      module: 3,
      centreDistance: 54,
      profileShift: false,
      leastTeeth: 10,
    });
    expect(candidates.map((c) => [c.gear.teeth, c.mate.teeth])).toEqual([[16, 20]]);
  });
});
