import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { castingTolerancePlan, plusMinusOf } from '../../core/foundry/casting-tolerance.js';
import { scaleGear, withFlankStock } from '../../core/gear/gear-states.js';
import { measureOverPins } from '../../core/gear/over-pins.js';
import { toothForm } from '../../core/gear/tooth-form.js';
import { pairDimensions } from '../../core/job/dimension-rows.js';
import type { DimensionRow } from '../../core/job/summary.js';
import { noStock } from '../../core/part/stock.js';
import { referenceDimensions, thicknessDimensions } from '../../generators/gear/tooth-dimensions.js';
import { deg, gear } from '../core/gear/gear-cases.js';

const seed = 20261125;

interface Request {
  readonly module: number;
  readonly teeth: number;
  readonly shift: number;
  readonly helix: number;
  readonly stock: number;
  readonly growth: number;
  readonly xy: number;
}

const specOf = (r: Request) => gear(r.module, r.teeth, r.shift, r.helix, { thinning: 0.05 });

/** Rows of the teeth of one gear, as a job makes them. */
function rowsOf(r: Request): readonly DimensionRow[] {
  const spec = specOf(r);
  const of = (flank: number) => {
    const made = toothForm(spec, { flankStock: flank, tipStock: flank });
    if (!made.ok) throw new Error('no tooth');
    const stock = { ...noStock, flank, tip: flank };
    const state = { spec, form: made.form, stock, measurableWidth: 12 * r.module };
    return [...thicknessDimensions(state), ...referenceDimensions(state)];
  };
  const xy = r.growth * r.xy;
  return pairDimensions(of(0), of(r.stock), [xy, xy, r.growth], r.growth);
}

const requests = fc.record({
  module: fc.constantFrom(1, 1.5, 2, 3, 5),
  teeth: fc.integer({ min: 14, max: 90 }),
  shift: fc.double({ min: 0, max: 0.5, noNaN: true }),
  helix: fc.constantFrom(0, 0, 15, 25, 30),
  stock: fc.constantFrom(0, 0.05, 0.1, 0.2),
  growth: fc.double({ min: 1, max: 1.03, noNaN: true }),
  xy: fc.constantFrom(1, 0.997, 1.004),
});

describe('sizes of the teeth over part, casting and pattern', () => {
  it(`span, pins, chord and reference sizes of 400 gears (seed ${seed})`, () => {
    const seen = { span: 0, pins: 0, chord: 0, lead: 0 };
    fc.assert(
      fc.property(requests, (r) => {
        const rows = rowsOf(r);
        const spec = specOf(r);
        const find = (start: string) => rows.find((row) => row.symbol.startsWith(start));
        const grown = r.growth * r.xy;
        // Two parallel flanks move out by the stock each: 2 s, whatever the gear.
        const span = find('W_');
        if (span) {
          seen.span++;
          expect(span.casting - span.part).toBeCloseTo(2 * r.stock, 9);
          expect(span.pattern).toBeCloseTo(span.casting * grown, 9);
        }
        // One size over pins at most; the pins are as large in the pattern as in the part.
        const overPins = rows.filter((row) => row.symbol.startsWith('M_'));
        expect(overPins.length).toBeLessThanOrEqual(1);
        for (const row of overPins) {
          seen.pins++;
          const pin = Number(row.symbol.slice(2));
          const stocked = withFlankStock(spec, r.stock);
          expect(row.part).toBeCloseTo(measureOverPins(spec, pin).dimension, 9);
          expect(row.casting).toBeCloseTo(measureOverPins(stocked, pin).dimension, 9);
          const at = (factor: number) => measureOverPins(scaleGear(stocked, factor), pin).dimension;
          expect(row.pattern).toBeCloseTo(at(grown), 9);
          expect(row.printed).toBeCloseTo(at(r.growth), 9);
          // A grown pin would read larger by more than its own growth; the real one sits deeper.
          if (grown > 1.001) expect(row.pattern).toBeLessThan(row.casting * grown);
        }
        const chord = find('s_cc');
        if (chord) {
          seen.chord++;
          // Flanks moved by s along their normal thicken s_n by 2 s / cos α, the constant chord by 2 s cos α.
          expect(chord.casting - chord.part).toBeCloseTo(2 * r.stock * Math.cos(20 * deg), 9);
          expect(find('h_cc')?.castingTolerance).toBeUndefined();
        }
        for (const symbol of ['d', 'd_b', 'p_z', 'p_x']) {
          const row = rows.find((x) => x.symbol === symbol);
          expect(row === undefined).toBe(r.helix === 0 && symbol.startsWith('p'));
          if (!row) continue;
          if (symbol === 'p_z') seen.lead++;
          expect(row).toMatchObject({ part: row.casting, role: 'reference', detail: true });
          expect(row.castingTolerance).toBeUndefined();
          expect(row.pattern).toBeCloseTo(row.part * (row.axis === 'z' ? r.growth : grown), 9);
        }
      }),
      { seed, numRuns: 400 },
    );
    // Most gears have each of them.
    expect(seen.span).toBeGreaterThan(300);
    expect(seen.pins).toBeGreaterThan(380);
    expect(seen.chord).toBeGreaterThan(300);
    expect(seen.lead).toBeGreaterThan(200);
  });

  it('a pin that suits the part but not the casting gives way to the next that suits both', () => {
    const size = (symbol: string, value: number) =>
      ({ symbol, name: symbol, value, unit: 'mm', axis: 'xy', method: 'pins', choice: 'over pins' }) as const;
    const rows = pairDimensions(
      [size('M_3', 40), size('M_3.5', 41), size('M_4', 42)],
      [size('M_4', 42.4), { ...size('M_3.5', 41.3), atGrowth: (g: number) => 41.3 + 100 * (g - 1) }],
      [1.02, 1.02, 1.02],
      1.02,
    );
    expect(rows.map((r) => r.symbol)).toEqual(['M_3.5']);
    expect(rows[0]?.pattern).toBeCloseTo(43.3, 12);
    const none = pairDimensions(
      [size('M_3', 40), size('M_4', 42)],
      [{ ...size('M_3', 40.3), atGrowth: () => undefined }, size('M_4', 42.4)],
      [1, 1, 1],
      1,
    );
    expect(none.map((r) => r.symbol)).toEqual(['M_4']);
  });
});

describe('casting tolerance of a size', () => {
  // ISO 8062-3:2007 table of DCTG, grade 7, total width (from memory).
  it.each([
    [8, 0.74],
    [20, 0.82],
    [40, 0.9],
    [41.3, 1],
    [120, 1.2],
    [400, 1.6],
  ])('%f mm: DCTG 7 is %f mm wide', (size, width) => {
    expect(castingTolerancePlan.grade).toBe(7);
    expect(plusMinusOf(size)).toBe(width / 2);
  });
  it('none where the standard has none', () => {
    expect(plusMinusOf(401)).toBeUndefined();
    expect(plusMinusOf(0)).toBeUndefined();
  });
  it('goes by the casting, and not to angles, counts or settings', () => {
    const size = (symbol: string, value: number, more = {}) =>
      ({ symbol, name: symbol, value, unit: 'mm', axis: 'xy', method: '', ...more }) as const;
    const part = [
      size('b', 39.5),
      size('h_c', 2, { role: 'setting' }),
      { ...size('t', 0.3), unit: 'rad', axis: 'none' } as const,
    ];
    const casting = [
      size('b', 40.5),
      size('h_c', 2, { role: 'setting' }),
      { ...part[2], unit: 'rad' } as const,
    ];
    const rows = pairDimensions(part, casting as typeof part, [1, 1, 1], 1);
    expect(rows.map((r) => r.castingTolerance)).toEqual([0.5, undefined, undefined]);
  });
});
