import { describe, expect, it } from 'vitest';
import { chordalThickness } from '../../../core/gear/chordal.js';
import { gearGeometry, rootFormDiameter } from '../../../core/gear/gear-geometry.js';
import { scaleGear, withFlankStock, withTipStock } from '../../../core/gear/gear-states.js';
import {
  choosePin,
  idealPinDiameter,
  measureOverPins,
  pinFits,
  stockPinDiameters,
} from '../../../core/gear/over-pins.js';
import { chooseSpan, spanFits, spanOver } from '../../../core/gear/span.js';
import type { GearSpec } from '../../../core/gear/spec.js';
import { type RackOracle, rackOracle } from '../../helpers/rack-oracle.js';
import { deg, gear } from './gear-cases.js';

const oracleOf = (spec: GearSpec) =>
  rackOracle({ ...spec, tipDiameter: gearGeometry(spec).tipDiameter }, 1e-6);

/** Radius at which a ball let down the middle of a space comes to rest, or the bare distance for any offset. */
const ballSeat = (oracle: RackOracle, teeth: number, ball: number, offset = 0): number => {
  const space = Math.PI / teeth;
  let lo = oracle.rootRadius;
  let hi = oracle.tipRadius + ball;
  for (let step = 0; step < 45; step++) {
    const mid = (lo + hi) / 2;
    const gap = oracle.normalDistanceToTooth(mid * Math.cos(space), mid * Math.sin(space)) - offset;
    if (gap < ball / 2) lo = mid;
    else hi = mid;
  }
  return lo;
};

const cases: GearSpec[] = [
  gear(2, 40, 0, 0, { thinning: 0.1 }),
  gear(3, 21, 0.3),
  gear(2, 25, 0.2, 30, { thinning: 0.08 }),
  gear(2.5, 36, -0.2, 15),
];

describe('span measurement against the rolled rack, thinned and shifted teeth', () => {
  it.each(cases)('m $normalModule z $teeth x $profileShift β $helixAngle', (spec) => {
    const chosen = chooseSpan(spec)!;
    const oracle = oracleOf(spec);
    const g = gearGeometry(spec);
    const turn = ((chosen.teethSpanned - 1) * Math.PI) / spec.teeth;
    const flank = oracle.profile.filter((p) => 2 * p.radius > rootFormDiameter(spec));
    // In the section the jaws' distance is the normal span over cos β_b.
    const highest = flank.reduce((a, b) =>
      b.radius * Math.sin(b.angle + turn) > a.radius * Math.sin(a.angle + turn) ? b : a,
    );
    const inSection = 2 * highest.radius * Math.sin(highest.angle + turn);
    expect(inSection * Math.cos(g.baseHelixAngle)).toBeCloseTo(chosen.span, 5);
    // In space: the line of length W, touching the base cylinder and rising at β_b, ends on the outer flanks at
    // heights ± W sin β_b / 2, where the section has turned back by tan β / r a mm.
    const y = (chosen.span * Math.cos(g.baseHelixAngle)) / 2;
    const back = turn - ((chosen.axialExtent / 2) * Math.tan(spec.helixAngle)) / oracle.referenceRadius;
    const end = { x: g.baseDiameter / 2, y };
    const away = oracle.deviationAt(
      end.x * Math.cos(back) + end.y * Math.sin(back),
      end.y * Math.cos(back) - end.x * Math.sin(back),
    );
    expect(Math.abs(away.distance)).toBeLessThan(2e-6);
    expect(away.region).toBe('flank');
    expect(2 * away.radius).toBeCloseTo(chosen.contactDiameter, 5);
  });

  it('asks a helical gear for its face width, and gives up rather than measure off the flank', () => {
    const spec = gear(3, 24, 0.4, 25);
    const wide = chooseSpan(spec, { faceWidth: 30 })!;
    expect(wide.teethSpanned).toBe(5);
    const narrower = chooseSpan(spec, { faceWidth: 19 })!;
    expect(narrower.teethSpanned).toBeLessThan(5);
    expect(narrower.axialExtent + 3).toBeLessThanOrEqual(19);
    expect(chooseSpan(spec, { faceWidth: 8 })).toBeUndefined();
    expect(spanFits(spec, spanOver(spec, 9))).toBe(false);
    expect(chooseSpan(gear(2, 20), { faceWidth: 1 })).toBeDefined();
  });
});

describe('dimension over pins against a ball let down into the rolled space', () => {
  it.each(cases)('m $normalModule z $teeth x $profileShift β $helixAngle', (spec) => {
    const chosen = choosePin(spec)!;
    expect(stockPinDiameters).toContain(chosen.pinDiameter);
    const oracle = oracleOf(spec);
    const seat = ballSeat(oracle, spec.teeth, chosen.pinDiameter);
    expect(2 * seat).toBeCloseTo(chosen.centreDiameter, 4);
    const across = spec.teeth % 2 === 0 ? 1 : Math.cos((90 * deg) / spec.teeth);
    expect(2 * seat * across + chosen.pinDiameter).toBeCloseTo(chosen.dimension, 4);
    expect(chosen.outerDiameter).toBeGreaterThan(gearGeometry(spec).tipDiameter);
    expect(chosen.innerDiameter).toBeGreaterThan(gearGeometry(spec).rootDiameter);
  });

  it.each(cases)('the ideal pin touches at d + 2 x m_n: m $normalModule z $teeth', (spec) => {
    const contact = measureOverPins(spec, idealPinDiameter(spec)).contactDiameter;
    const middle = gearGeometry(spec).referenceDiameter + 2 * spec.profileShift * spec.normalModule;
    expect(contact).toBeCloseTo(middle, 9);
  });

  it('refuses a pin that drops to the base circle, and picks none when none fits', () => {
    expect(() => measureOverPins(gear(2, 20), 0.2)).toThrow(/pin diameter is 0\.2 mm.*at least/);
    expect(choosePin(gear(2, 20), [0.5, 9])).toBeUndefined();
    const small = measureOverPins(gear(2, 20), 2.7);
    expect(pinFits(gear(2, 20), small)).toBe(false);
  });
});

describe('flank stock', () => {
  it.each(cases)(
    'is a parallel of the part’s flank, in space: m $normalModule z $teeth β $helixAngle',
    (spec) => {
      const stock = 0.15;
      const part = oracleOf(spec);
      const casting = oracleOf(withFlankStock(spec, stock));
      const from = rootFormDiameter(spec) / 2 + stock;
      let checked = 0;
      for (const point of casting.profile) {
        if (point.radius < from || point.radius > casting.tipRadius - stock || checked++ % 60 !== 0) continue;
        expect(Math.abs(part.normalDistanceToTooth(point.x, point.y) - stock)).toBeLessThan(1e-5);
      }
      expect(checked).toBeGreaterThan(300);
    },
  );

  it.each(cases)(
    'span grows by 2 s; a ball smaller by 2 s sits where the part’s does: m $normalModule',
    (spec) => {
      const stock = 0.15;
      const k = chooseSpan(spec)!.teethSpanned;
      const thick = withFlankStock(spec, stock);
      expect(spanOver(thick, k).span - spanOver(spec, k).span).toBeCloseTo(2 * stock, 12);
      const pin = choosePin(spec)!.pinDiameter;
      const seated = measureOverPins(thick, pin - 2 * stock).centreDiameter;
      expect(seated).toBeCloseTo(measureOverPins(spec, pin).centreDiameter, 10);
      // And the same ball on the casting, against the part's profile moved out by the stock.
      const seat = ballSeat(oracleOf(spec), spec.teeth, pin, stock);
      expect(measureOverPins(thick, pin).centreDiameter).toBeCloseTo(2 * seat, 4);
    },
  );

  it('tip stock moves only the tip; scaling takes every inspection size with it', () => {
    const spec = gear(2, 25, 0.2, 20, { thinning: 0.05, tipShortening: 0.1 });
    expect(gearGeometry(withTipStock(spec, 0.3)).tipDiameter).toBeCloseTo(
      gearGeometry(spec).tipDiameter + 0.6,
      12,
    );
    expect(spanOver(withTipStock(spec, 0.3), 4)).toEqual(spanOver(spec, 4));
    const g = 1.021;
    const grown = scaleGear(spec, g);
    expect(spanOver(grown, 4).span).toBeCloseTo(g * spanOver(spec, 4).span, 11);
    expect(measureOverPins(grown, 3.5 * g).dimension).toBeCloseTo(
      g * measureOverPins(spec, 3.5).dimension,
      11,
    );
    expect(gearGeometry(grown).tipDiameter).toBeCloseTo(g * gearGeometry(spec).tipDiameter, 11);
    expect(chordalThickness(grown).thickness).toBeCloseTo(g * chordalThickness(spec).thickness, 11);
    // With the same, unscaled pin the dimension over pins does not simply scale: the pin sits deeper.
    expect(measureOverPins(grown, 3.5).dimension).toBeLessThan(g * measureOverPins(spec, 3.5).dimension);
  });
});

describe('chordal thickness', () => {
  it('is the chord of the rolled tooth at the reference circle (spur)', () => {
    const spec = gear(3, 17, 0.2, 0, { thinning: 0.1 });
    const oracle = oracleOf(spec);
    const r = oracle.referenceRadius;
    const half = oracle.halfAngleAt(r);
    const chord = chordalThickness(spec);
    expect(chord.thickness).toBeCloseTo(2 * r * Math.sin(half), 9);
    expect(chord.height).toBeCloseTo(oracle.tipRadius - r * Math.cos(half), 9);
  });
});
