/** Hands, cleats, hinges, beams, lugs and casting rules against printed figures; the sources stand beside them. */
import { describe, expect, it } from 'vitest';
import { findAlloy } from '../../core/foundry/alloys/index.js';
import {
  bendingStress,
  cantilever,
  fixedMiddle,
  lugStresses,
  pinBending,
  pinShear,
  ringStress,
  supportedAt,
  supportedMiddle,
  supportedSpread,
} from '../../core/hardware/beams.js';
import { filletRadius, junctionCircle } from '../../core/hardware/casting-rules.js';
import {
  cleatFasteners,
  cleatLength,
  fairleadOpening,
  hornCleatRule,
  ropeBendRadius,
} from '../../core/hardware/cleats.js';
import {
  fingerBreadth,
  fingertipRecess,
  handleRoom,
  leastGripDiameter,
  leastHandleWidth,
  recessRoom,
} from '../../core/hardware/hands.js';
import { doorReaction, pintleReactions, rudderForce } from '../../core/hardware/hinge-loads.js';
import {
  hingeCount,
  knuckleCount,
  knucklesOf,
  leafScrews,
  leafThickness,
  rolledLeafThickness,
} from '../../core/hardware/hinges.js';
import { castAllowables } from '../../core/hardware/load-check.js';
import {
  curvedBarFactors,
  rectangleSection,
  roundSection,
  tubeSection,
} from '../../core/hardware/sections.js';
import { printed } from './printed.js';

const inch = 25.4;
const ksi = 6.894757;

describe('hands, bare and gloved (MIL-STD-1472, minimum handle and recess dimensions, from memory)', () => {
  it.each([
    ['two-finger bar', handleRoom(2), [32, 65, 75]],
    ['one-hand bar', handleRoom(4), [48, 111, 100]],
    ['two-finger bar, gloved', handleRoom(2, 'gloved'), [38, 75, 75]],
    ['one-hand bar, gloved', handleRoom(4, 'gloved'), [50, 125, 100]],
    ['two-finger recess', recessRoom(2), [32, 65, 50]],
    ['one-hand recess', recessRoom(4), [50, 110, 90]],
    ['two-finger recess, gloved', recessRoom(2, 'gloved'), [38, 75, 50]],
    ['one-hand recess, gloved', recessRoom(4, 'gloved'), [90, 135, 100]],
  ] as const)('%s', (_, room, [x, y, z]) => {
    expect(room).toEqual({ depth: x, width: y, reach: z });
  });
  it('one-finger recess or ring 32 by 50 deep, fingertips 19 by 13', () => {
    expect(handleRoom(1)).toEqual({ depth: 32, width: 32, reach: 50 });
    expect(fingertipRecess.bare).toEqual({ opening: 19, depth: 13 });
    expect(fingerBreadth).toMatchObject({ tip: 19, comfortable: 32, two: 65 });
  });
  it.each([
    [6.8, 6],
    [6.9, 13],
    [9, 13],
    [9.1, 19],
    [18, 19],
    [18.1, 25],
  ])('%d kg: grip of %i mm', (kg, diameter) => {
    expect(leastGripDiameter(kg * 9.80665)).toBe(diameter);
  });
  it.each([1, 2, 3, 4] as const)(
    '%i fingers of a large hand (DIN 33402-2, palm 93 mm, from memory) have room in it',
    (n) => {
      for (const cover of ['bare', 'gloved'] as const) {
        expect(handleRoom(n, cover).width).toBeGreaterThan(leastHandleWidth(n, cover));
      }
    },
  );
});

describe('cleats', () => {
  it.each([
    [1 / 4, 4],
    [3 / 8, 6],
    [1 / 2, 8],
    [5 / 8, 10],
    [3 / 4, 12],
  ])(
    '%d in line: %i in (an inch a sixteenth: 1/4 and 3/4 on a rigger’s page, the others in a trade list; seen)',
    (d, l) => {
      expect(cleatLength(d * inch) / inch).toBeCloseTo(l, 12);
    },
  );
  it('8 in cleat: 1-3/4 high, 1-1/4 broad (boatbuilders’ handout, seen)', () => {
    const rule = hornCleatRule((3 / 8) * inch, 8 * inch);
    printed(rule.overallHeight / inch, '1.75');
    printed(rule.baseWidth / inch, '1.25');
    expect(rule.fastenerSpan / inch).toBeGreaterThan(1.75); // the wooden one's
  });
  it('two fasteners to 6 in, four from 8 in (common practice, no source)', () => {
    expect([4, 6, 8, 12].map((l) => cleatFasteners(l * inch))).toEqual([2, 2, 4, 4]);
  });
  it('bends round three line diameters at least, four for better (Cordage Institute, from memory); fairlead 2 d (common practice, no source)', () => {
    expect(2 * ropeBendRadius(12).least).toBe(36);
    expect(2 * ropeBendRadius(12).better).toBe(48);
    expect(fairleadOpening(12).usual).toBe(24);
  });
});

describe('hinges', () => {
  it.each([
    [3.5, '0.123'],
    [4, '0.130'],
    [4.5, '0.134'],
    [5, '0.146'],
    [6, '0.160'],
  ])('%d in butt, standard weight: leaf %s in (lists after BHMA A156.1, from memory)', (length, leaf) => {
    printed(rolledLeafThickness(length * inch) / inch, leaf);
  });
  it.each([
    [4.5, 0.18],
    [5, 0.19],
    [6, 0.203],
  ])(
    '%d in butt: the cast leaf is near the heavy one of %d in (5 in: BHMA highlights, seen; others from memory)',
    (length, leaf) => {
      expect(Math.abs(leafThickness(length * inch) / inch / leaf - 1)).toBeLessThan(0.04);
    },
  );
  it('four screws a leaf in a 5 in hinge (BHMA A156.1 highlights, seen); 5 knuckles, 3 and 2', () => {
    expect(leafScrews(5 * inch)).toBe(4);
    expect(knuckleCount(5 * inch)).toBe(5);
    expect(knucklesOf(5)).toEqual([3, 2]);
    expect(knuckleCount(50)).toBe(3);
  });
  it.each([
    [60, 2],
    [61, 3],
    [90, 3],
    [91, 4],
    [120, 4],
  ])('door %i in high: %i hinges (one for each 30 in; hinge makers’ rule, from memory)', (height, count) => {
    expect(hingeCount(height * inch)).toBe(count);
  });
  it('door 40 kg, 900 wide, hinges 1500 apart: couple 117.68 N (statics: 40 × 9.80665 × 450 / 1500)', () => {
    const r = doorReaction({ mass: 40_000, width: 900, spacing: 1500, hinges: 3 });
    printed(r.horizontal, '117.68');
    printed(r.vertical, '130.76');
  });
  it('rudder 1 m², aspect 2, 10 knots: 132 × 100 × 4/3 × 1.1 = 19 360 N (IACS UR S10, from memory)', () => {
    printed(rudderForce(1e6, Math.SQRT2 * 1000, 10 * 514.444) / 1000, '19.36');
  });
  it('rudder’s centre below the lower pintle by half the spacing: 1.5 F and −0.5 F (statics)', () => {
    expect(pintleReactions(100, -200, 400, 0)).toEqual({ upper: -50, lower: 150 });
  });
});

describe('curved bars: K inside and outside by R/c (Seely and Smith, Advanced Mechanics of Materials, table of K; from memory)', () => {
  // Printed to two places, by slide rule; the inside at R/c 1.4 is 2 % over Winkler's formula in both shapes.
  const near = (ratio: number, value: number) => (ratio === 1.4 ? 0.022 * value : 0.015);
  it.each([
    [1.2, 3.41, 0.54],
    [1.4, 2.4, 0.6],
    [1.6, 1.96, 0.65],
    [1.8, 1.75, 0.68],
    [2, 1.62, 0.71],
    [3, 1.33, 0.79],
    [4, 1.23, 0.84],
    [6, 1.14, 0.89],
    [8, 1.1, 0.91],
    [10, 1.08, 0.93],
  ])('circle or ellipse, R/c %d: %d, %d', (ratio, inside, outside) => {
    const k = curvedBarFactors('ellipse', 2, ratio);
    expect(Math.abs(k.inside - inside)).toBeLessThan(near(ratio, inside));
    expect(Math.abs(k.outside - outside)).toBeLessThan(0.012);
  });
  it.each([
    [1.2, 2.89, 0.57],
    [1.4, 2.13, 0.63],
    [1.6, 1.79, 0.67],
    [1.8, 1.63, 0.7],
    [2, 1.52, 0.73],
    [3, 1.3, 0.81],
    [4, 1.2, 0.85],
    [6, 1.12, 0.9],
    [8, 1.09, 0.92],
    [10, 1.07, 0.94],
  ])('rectangle, R/c %d: %d, %d', (ratio, inside, outside) => {
    const k = curvedBarFactors('rectangle', 2, ratio);
    expect(Math.abs(k.inside - inside)).toBeLessThan(near(ratio, inside));
    expect(Math.abs(k.outside - outside)).toBeLessThan(0.012);
  });
  it('crane hook 3/4 × 4 in, r 2 to 6 in, 5000 lbf: r_n 3.641, 16.9 and −5.63 kpsi (Shigley, example 3-15, from memory)', () => {
    const k = curvedBarFactors('rectangle', 4, 4);
    printed(k.neutralRadius, '3.641');
    const straight = bendingStress({ moment: 5 * 4 }, rectangleSection(0.75, 4));
    printed(5 / 3 + k.inside * straight, '16.9');
    printed(5 / 3 - k.outside * straight, '-5.63');
  });
});

describe('beams, rings, lugs and pins', () => {
  it.each([
    ['cantilever F l', cantilever(12, 10).moment, 120],
    ['two supports, middle: F l/4', supportedMiddle(12, 10).moment, 30],
    ['two supports, spread: F l/8', supportedSpread(12, 10).moment, 15],
    ['two supports, at a: F a b/l', supportedAt(12, 10, 2).moment, 19.2],
    ['built in, middle: F l/8', fixedMiddle(12, 10).moment, 15],
  ])('%s (Machinery’s Handbook, beams; from memory)', (_, moment, expected) => {
    expect(moment).toBeCloseTo(expected, 12);
  });
  it('thin ring pulled apart: 0.318 P R under the load, 0.182 P R and P/2 at the side (Timoshenko, from memory)', () => {
    const section = roundSection(1);
    const { underLoad, side } = ringStress(1, 1e6, section, { shape: 'ellipse', height: 1 });
    printed((underLoad * section.modulus) / 1e6, '0.318');
    printed((side * section.modulus) / 1e6, '0.182');
  });
  it('sections 20 × 30: I 45 000, Z 3000; bar ø20: I 7854, Z 785.4; tube 20/10: I 7363 (Machinery’s Handbook formulas)', () => {
    expect(rectangleSection(20, 30)).toMatchObject({ inertia: 45_000, modulus: 3000 });
    printed(roundSection(20).inertia, '7854');
    printed(roundSection(20).modulus, '785.4');
    printed(tubeSection(20, 10).inertia, '7363');
  });
  it('largest shear of a thin tube is twice the average, of a bar 4/3 (Gere, from memory)', () => {
    expect(tubeSection(100, 99.99).shearFactor).toBeCloseTo(2, 3);
    expect(tubeSection(100, 0).shearFactor).toBeCloseTo(4 / 3, 12);
  });
  it('lug 30 × 8, hole and pin 10, edge 15, 4 kN: 25, 25 and 50 MPa (plain averages: F/160, F/160, F/80)', () => {
    const s = lugStresses(4000, { width: 30, thickness: 8, holeDiameter: 10, pinDiameter: 10, edge: 15 });
    expect(s.netTension).toBeCloseTo(25, 12);
    expect(s.shearOut).toBeCloseTo(25, 12);
    expect(s.bearing).toBeCloseTo(50, 12);
  });
  it('pin ø10 in double shear at 4 kN: 25.46 MPa; bent over 8 in 8 by F/2 (4 + 2): 122.2 MPa', () => {
    printed(pinShear(4000, 10, 2), '25.46');
    printed(pinBending(4000, 10, 8, 8), '122.2');
  });
});

describe('cast strengths, minima of separately cast bars (from memory)', () => {
  it.each([
    ['C83600', 30, 14, 'B584'],
    ['C85400', 30, 11, 'B584'],
    ['C85700', 40, 14, 'B584'],
    ['C86500', 65, 25, 'B584'],
    ['C87300', 45, 18, 'B584'],
    ['C87500', 60, 24, 'B584'],
    ['C90300', 40, 18, 'B584'],
    ['C90500', 40, 18, 'B584'],
    ['C92200', 34, 16, 'B584'],
    ['C93200', 30, 14, 'B584'],
    ['C95400', 75, 30, 'B148'],
  ])('%s: %i and %i ksi (ASTM %s)', (uns, tensile, proof, _) => {
    const alloy = findAlloy(uns)!;
    printed(alloy.strength.tensile / ksi, String(tensile));
    printed(alloy.strength.yield! / ksi, String(proof));
  });
  it('grey iron class 30: 30 ksi (ASTM A48)', () => {
    printed(findAlloy('grey-iron')!.strength.tensile / ksi, '30');
  });
  it('C90500 over 4: 10 000 psi, the bronze of catalogues of Lewis ratings (seen)', () => {
    printed(castAllowables(findAlloy('C90500')!).tension / ksi, '10.0');
  });
});

describe('casting rules', () => {
  it('fillet a third to a half of the section (founders’ rule, from memory)', () => {
    expect(filletRadius(9)).toMatchObject({ least: 3, usual: 4.5 });
  });
  it('T of equal sharp sections holds a circle of 1.25 t (Heuvers’ circles, from memory)', () => {
    expect(junctionCircle(8, 8, 0)).toBeCloseTo(10, 12);
  });
});
