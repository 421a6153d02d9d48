import { describe, expect, it } from 'vitest';
import {
  countersinkSeat,
  edgeDistance,
  headLand,
  leastPitch,
  leastPlate,
} from '../../../core/hardware/fastener-seat.js';
import { fastenerFitting, soldLength } from '../../../core/hardware/fastener-text.js';
import {
  bolts,
  fastener,
  fastenerAtLeast,
  fastenerNames,
  fasteners,
  parseFastener,
  woodScrews,
} from '../../../core/hardware/find-fastener.js';
import { insertPocket } from '../../../core/hardware/inserts.js';
import {
  pinFittings,
  pinLength,
  rodAtLeast,
  rodAtMost,
  rodName,
  stockRods,
} from '../../../core/hardware/rods.js';

describe('names', () => {
  it('every name is its own, and is read back', () => {
    expect(new Set(fastenerNames).size).toBe(fastenerNames.length);
    for (const f of fasteners) expect(parseFastener(f.name)).toEqual({ ok: true, value: f });
  });
  it.each([
    ['m5', 'M5'],
    [' M 5 ', 'M5'],
    ['M5x0.8', 'M5'],
    ['M5 × 25', 'M5'],
    ['1/4"', '1/4in'],
    ['1/4 in', '1/4in'],
    ['1/4', '1/4in'],
    ['1/4-20 UNC', '1/4in'],
    ['¼in', '1/4in'],
    ['#8', '#8'],
    ['No. 8', '#8'],
    ['no 10', '#10'],
    ['8 gauge', '#8'],
    ['8g', '#8'],
    ['#8-32', '#8-32'],
    ['4 mm', '4mm'],
  ])('%s is %s', (text, name) => {
    expect(parseFastener(text)).toMatchObject({ ok: true, value: { name } });
  });
  it.each([
    ['M7', 'the nearest are M6 and M8'],
    ['M20', 'the nearest is M16'],
    ['#11', 'the nearest are #10 and #12'],
    ['#20', 'the nearest is #14'],
    ['9/16in', 'the nearest are 1/2in and 5/8in'],
    ['3.7mm', 'the nearest are 3.5mm and 4mm'],
    ['N5', 'did you mean M5?'],
    ['8', 'write M8 for a bolt, #8 for a wood screw by gauge or 8mm for a metric one'],
    ['', 'write it like M5, 1/4in, #8-32 or #8'],
  ])('%s: %s', (text, remedy) => {
    expect(parseFastener(text)).toMatchObject({ ok: false, remedy });
  });
  it('a long or odd text is refused quietly', () => {
    for (const text of ['x'.repeat(1e5), '\u0000', '1/0in', '__proto__', 'M']) {
      expect(parseFastener(text).ok).toBe(false);
    }
    expect(() => fastener('M7')).toThrow('M7 is no fastener of the tables; the nearest are M6 and M8');
  });
});

describe('tables', () => {
  it('sizes rise; holes clear the shank, each fit wider; heads stand over the hole and are blunt', () => {
    for (const row of [bolts.metric, bolts.inch, woodScrews.metric, woodScrews.inch]) {
      row.forEach((f, i) => {
        if (i > 0) expect(f.diameter).toBeGreaterThan(row[i - 1]!.diameter);
        const { fine, medium, coarse } = f.clearanceHole;
        expect(f.diameter < fine && fine < medium && medium < coarse).toBe(true);
        for (const head of f.countersunk) {
          expect(head.theoreticalDiameter).toBeGreaterThan(coarse);
          expect(head.actualDiameter.most).toBeLessThanOrEqual(head.theoreticalDiameter);
          expect(head.actualDiameter.least).toBeLessThan(head.actualDiameter.most);
        }
      });
    }
  });
  it('the thinnest at least as thick; the thickest beyond the table', () => {
    expect(fastenerAtLeast('bolt', 'metric', 5).name).toBe('M5');
    expect(fastenerAtLeast('bolt', 'metric', 5.01).name).toBe('M6');
    expect(fastenerAtLeast('bolt', 'inch', 99).name).toBe('5/8in');
    expect(fastenerAtLeast('wood-screw', 'inch', 4.1).name).toBe('#8');
  });
});

describe('seats', () => {
  it('the cone, from mouth to hole, has the head’s angle; a recess sinks it by so much', () => {
    for (const f of fasteners) {
      const seat = countersinkSeat(f);
      if (seat === undefined) continue;
      const slope = Math.atan2((seat.mouthDiameter - seat.holeDiameter) / 2, seat.coneDepth);
      expect(2 * slope).toBeCloseTo(seat.angle, 12);
      expect(countersinkSeat(f, { recess: 0.7 })!.coneDepth).toBeCloseTo(seat.coneDepth + 0.7, 12);
      expect(seat.coneDepth / leastPlate(seat)).toBeLessThanOrEqual(2 / 3 + 1e-12);
      expect(leastPlate(seat) - seat.coneDepth).toBeGreaterThanOrEqual(1 - 1e-12);
      // At the least edge distance and pitch a land is left round the mouth.
      const land = headLand(seat.mouthDiameter);
      expect(edgeDistance(f) - seat.mouthDiameter / 2).toBeGreaterThanOrEqual(land - 1e-12);
      expect(leastPitch(f) - seat.mouthDiameter).toBeGreaterThanOrEqual(land - 1e-12);
    }
  });
  it('no countersunk head, no seat', () => {
    expect(countersinkSeat(fastener('5/8in'))).toBeUndefined();
    expect(countersinkSeat(fastener('M12'), { standard: 'ISO 7046' })).toBeUndefined();
  });
  it('an insert’s pocket takes the insert', () => {
    for (const bolt of [...bolts.metric, ...bolts.inch]) {
      const pocket = insertPocket(bolt);
      expect(pocket.pocketDiameter).toBeGreaterThan(pocket.outsideDiameter);
      expect(pocket.outsideDiameter - bolt.diameter).toBeGreaterThanOrEqual(bolt.diameter / 2 - 1e-9);
      expect(pocket.pocketDepth).toBeGreaterThan(pocket.length);
    }
  });
});

describe('rods and the cut list', () => {
  it('stock above and below a size', () => {
    expect(rodAtLeast('metric', 4.2)).toBe(5);
    expect(rodAtMost('metric', 4.2)).toBe(4);
    expect(rodAtLeast('inch', 6)).toBeCloseTo(6.35, 12);
    expect(rodAtMost('inch', 1)).toBe(stockRods.inch[0]);
    expect(rodAtLeast('metric', 99)).toBe(20);
  });
  it('is called as the merchant calls it', () => {
    expect(rodName(6)).toBe('6 mm');
    expect(rodName(6.35)).toBe('1/4 in');
    expect(rodName((3 / 32) * 25.4)).toBe('3/32 in');
  });
  it('pins as rows: flush, riveted, with a split pin', () => {
    expect(pinFittings('silicon bronze', 6, 76.2)).toEqual([
      { quantity: 1, text: 'silicon bronze rod 6 mm × 76.5 mm' },
    ]);
    expect(pinLength(6, 76, ['riveted', 'riveted'])).toBe(82);
    expect(pinFittings('brass', 6, 20, ['flush', 'split-pin'], 2)).toEqual([
      { quantity: 2, text: 'brass rod 6 mm × 27 mm' },
      { quantity: 2, text: 'split pin ISO 1234 1.6 mm' },
    ]);
  });
  it('fasteners as rows, in lengths that are sold', () => {
    expect(soldLength(fastener('M5'), 21)).toBe(25);
    expect(soldLength(fastener('#8'), 26)).toBeCloseTo(31.75, 12);
    expect(fastenerFitting(fastener('M5'), 4, 25)).toEqual({
      quantity: 4,
      text: 'countersunk screw ISO 7046 M5 × 25 mm',
    });
    expect(fastenerFitting(fastener('#8'), 6, 31.75, 'countersunk', 'brass').text).toBe(
      'brass countersunk wood screw #8 × 1-1/4 in',
    );
    expect(fastenerFitting(fastener('1/4in'), 2, 50, 'hexagon').text).toBe('hexagon bolt 1/4in UNC × 50 mm');
  });
});
