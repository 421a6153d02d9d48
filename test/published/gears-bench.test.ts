/**
 * Sizes of the bench: racks over pins, three pins, roots over pins, indexing. EMGT = "Elements of Metric Gear Technology",
 * MH = Machinery's Handbook; from memory.
 */
import { describe, expect, it } from 'vitest';
import { divisionFor, indexTeeth } from '../../core/gear/indexing.js';
import { measureOverPins } from '../../core/gear/over-pins.js';
import { overNeighbours, overRootPins, overThreePins, rootFromPins } from '../../core/gear/pin-sizes.js';
import { idealRackPin, rackPin } from '../../core/gear/rack-pins.js';
import { deg, gear } from '../core/gear/gear-cases.js';
import { printed } from './printed.js';

describe('rack over a pin', () => {
  const rack = { normalModule: 1, normalPressureAngle: 20 * deg, thinning: 0 };
  it('EMGT, racks over pins: m 1, 20°, pin 1.7, datum line 14 from the back: 15.1774', () => {
    printed(14 + rackPin(rack, 1.7).topHeight, '15.1774');
  });
  it('EMGT: the pin that touches at the datum line is π m / (2 cos α) = 1.6716', () => {
    printed(idealRackPin(rack), '1.6716');
    expect(rackPin(rack, idealRackPin(rack)).contactHeight).toBeCloseTo(0, 12);
  });
  it('DP 1, 20°, in inches: a 1.728 pin stands 1.2330 over the pitch line (as the limit of the wire tables of MH)', () => {
    // Over wires of an ever larger gear, less the pitch diameter: twice what it is on the rack.
    const z = 2_000_000;
    const limit = (measureOverPins(gear(1, z), 1.728).dimension - z) / 2;
    expect(rackPin(rack, 1.728).topHeight).toBeCloseTo(limit, 4);
  });
});

describe('three pins, neighbours and roots', () => {
  it('z 3 by hand: centres on a circle of 10 are 8.6603 apart, and 7.5 from the third to the line of two', () => {
    const m = { ...measureOverPins(gear(1, 21), 1.7), centreDiameter: 10, pinDiameter: 1 };
    printed(overThreePins(m, 3), '8.5000');
    printed(overNeighbours(m, 3), '9.6603');
  });
  it('from two pins to three: MH, van Keuren wires, DP 1, z 25: 27.3511 over two', () => {
    // Two most nearly opposite of 25 are 2 r cos 3.6° apart, so r is 12.8373 and three read r (1 + cos 7.2°) + D.
    const r = (27.3511 - 1.728) / (2 * Math.cos(3.6 * deg));
    const three = overThreePins(measureOverPins(gear(1, 25), 1.728), 25);
    expect(Math.abs(three - (r * (1 + Math.cos(7.2 * deg)) + 1.728))).toBeLessThan(1e-4);
  });
  it.each([
    [20, 35, 1.5],
    [21, 37, 1],
    [7, 9.5, 0.8],
  ])('z %i, d_f %d, pins %d: root and back', (teeth, root, pin) => {
    const size = overRootPins(root, teeth, pin);
    expect(rootFromPins(size, teeth, pin)).toBeCloseTo(root, 12);
    // Two points on a circle, written down once more.
    const step = (Math.floor(teeth / 2) * 2 * Math.PI) / teeth;
    expect(size).toBeCloseTo((root + pin) * Math.sin(step / 2) + pin, 12);
  });
});

describe('plain indexing with a 40 : 1 head (MH)', () => {
  it.each([
    [7, 5, 35, 49],
    [9, 4, 12, 27],
    [13, 3, 3, 39],
    [17, 2, 6, 17],
    [21, 1, 19, 21],
    [24, 1, 26, 39],
    [34, 1, 3, 17],
    [40, 1, 0, 1],
    [47, 0, 40, 47],
    [54, 0, 20, 27],
    [64, 0, 10, 16],
    [100, 0, 8, 20],
    [120, 0, 13, 39],
  ])('%i divisions: %i turns and %i holes of %i', (teeth, turns, holes, circle) => {
    const found = divisionFor(teeth);
    // The handbook may use another circle for the same fraction.
    expect((found?.turns as number) + (found?.holes as number) / (found?.circle as number)).toBeCloseTo(
      turns + holes / circle,
      12,
    );
    expect(Number.isInteger(found?.holes)).toBe(true);
  });
  it.each([51, 53, 57, 59, 61, 63, 67, 69, 71, 73, 77, 79, 81, 83, 87, 89, 91, 93, 97, 99])(
    '%i has none, and is indexed differentially',
    (teeth) => {
      expect(divisionFor(teeth)).toBeUndefined();
    },
  );
  it('marks all of few teeth, else one near each eighth', () => {
    expect(indexTeeth(9)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    expect(indexTeeth(40)).toEqual([1, 6, 11, 16, 21, 26, 31, 36]);
    expect(indexTeeth(25)).toEqual([1, 4, 7, 10, 14, 17, 20, 23]);
  });
});
