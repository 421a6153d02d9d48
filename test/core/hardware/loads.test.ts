import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alloys, findAlloy } from '../../../core/foundry/alloys/index.js';
import {
  archedGripStress,
  combinedStress,
  lugStresses,
  supportedMiddle,
  supportedSpread,
} from '../../../core/hardware/beams.js';
import { cleatBolt, cleatBoltTension, cleatMembers } from '../../../core/hardware/cleat-loads.js';
import { hornCleatRule } from '../../../core/hardware/cleats.js';
import { fastener } from '../../../core/hardware/find-fastener.js';
import {
  doorReaction,
  hingeMembers,
  leafScrewPull,
  pintleMembers,
} from '../../../core/hardware/hinge-loads.js';
import { buttHingeRule, knuckleCount, knuckleLength, knucklesOf } from '../../../core/hardware/hinges.js';
import {
  allowableLoadNote,
  boltAllowables,
  boltMaterials,
  castAllowables,
  checkLoad,
  describeMember,
  forceCheck,
  loadFindings,
  rodAllowables,
  rodMaterials,
  stressCheck,
} from '../../../core/hardware/load-check.js';
import { lineLoad } from '../../../core/hardware/ropes.js';
import {
  curvedBarFactors,
  ellipseSection,
  rectangleSection,
  roundSection,
  superellipseSection,
} from '../../../core/hardware/sections.js';

const bronze = castAllowables(findAlloy('tin-bronze')!);

/** A section's area and second moment by adding 20 000 strips, each at its middle. */
function byStrips(height: number, widthAt: (y: number) => number) {
  const n = 20_000;
  let [area, inertia] = [0, 0];
  for (let i = 0; i < n; i++) {
    const y = ((i + 0.5) / n - 0.5) * height;
    const strip = (widthAt(y) * height) / n;
    area += strip;
    inertia += strip * y * y;
  }
  return { area, inertia };
}

describe('sections against strips', () => {
  it.each([2, 2.5, 3, 4, 8])('superellipse 14 × 9, exponent %d', (n) => {
    const section = superellipseSection(14, 9, n);
    const strips = byStrips(9, (y) => 14 * (1 - Math.abs((2 * y) / 9) ** n) ** (1 / n));
    expect(section.area / strips.area).toBeCloseTo(1, 5);
    expect(section.inertia / strips.inertia).toBeCloseTo(1, 5);
    expect(section.modulus).toBeCloseTo(section.inertia / 4.5, 9);
  });
  it('exponent 2 is the ellipse, a large one nearly the rectangle', () => {
    expect(superellipseSection(14, 9, 2).inertia).toBeCloseTo(ellipseSection(14, 9).inertia, 9);
    expect(superellipseSection(14, 9, 1000).modulus / rectangleSection(14, 9).modulus).toBeCloseTo(1, 4);
  });
  it.each([
    ['rectangle', 6, 5],
    ['rectangle', 6, 3.2],
    ['ellipse', 6, 5],
    ['ellipse', 6, 300],
  ] as const)('curved bar, %s %d high at R %d: neutral radius A/∫dA/r by strips', (shape, height, radius) => {
    const width = (y: number) => (shape === 'rectangle' ? 1 : Math.sqrt(1 - ((2 * y) / height) ** 2));
    const { area } = byStrips(height, width);
    const overR = byStrips(height, (y) => width(y) / (radius + y)).area;
    expect(curvedBarFactors(shape, height, radius).neutralRadius / (area / overR)).toBeCloseTo(1, 4);
  });
  it('bends hardly at all: factors run to 1 without losing their digits', () => {
    for (const shape of ['rectangle', 'ellipse'] as const) {
      for (const radius of [1e3, 2e3, 1e5, 1e7]) {
        const { inside, outside } = curvedBarFactors(shape, 2, radius);
        expect(Math.abs(inside - 1)).toBeLessThan(2 / radius + 1e-8);
        expect(Math.abs(outside - 1)).toBeLessThan(2 / radius + 1e-8);
      }
    }
    expect(() => curvedBarFactors('ellipse', 6, 3)).toThrow('half the section');
  });
});

describe('allowables', () => {
  it('each alloy has them: tension at most 1/4 of tensile and 2/3 of yield, shear 1/√3 of it', () => {
    expect(alloys).toHaveLength(20);
    for (const alloy of alloys) {
      const a = castAllowables(alloy);
      expect(a.tension).toBeGreaterThan(5);
      expect(a.tension).toBeLessThanOrEqual(alloy.strength.tensile / 4);
      if (alloy.strength.yield !== null)
        expect(a.tension).toBeLessThanOrEqual((2 / 3) * alloy.strength.yield);
      expect(combinedStress(0, a.shear)).toBeCloseTo(a.tension, 12);
      expect(a.basis).toContain('MPa');
    }
    expect(() => castAllowables(alloys[0]!, 0.5)).toThrow('at least 1');
  });
  it('rods and bolts say their standard', () => {
    for (const material of rodMaterials) {
      expect(rodAllowables(material).basis).toMatch(/ASTM .*from memory/);
      expect(rodAllowables(material).basis).not.toContain('as cast');
    }
    for (const material of boltMaterials) {
      expect(boltAllowables(material).basis).toMatch(/(ISO|ASTM) .*from memory/);
    }
  });
});

describe('load check', () => {
  const members = (load: number) => [
    stressCheck('grip', 'bending', load / 4, bronze),
    stressCheck('eye', 'shear-out', load / 100, bronze, 'shear'),
    forceCheck('screws', 'pulling out', load / 2, 400),
  ];
  it('the weakest sets the allowable load; the order is by utilisation', () => {
    const check = checkLoad(100, members(100));
    expect(check.weakest.member).toBe('grip');
    expect(check.allowableLoad).toBeCloseTo(4 * bronze.tension, 9);
    expect(check.members.map((m) => m.member)).toEqual(['grip', 'screws', 'eye']);
  });
  it('the allowable load does not depend on the load asked (seed 4)', () => {
    const base = checkLoad(1, members(1)).allowableLoad;
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1e5, noNaN: true }), (load) => {
        expect(checkLoad(load, members(load)).allowableLoad / base).toBeCloseTo(1, 9);
        expect(checkLoad(base, members(base)).utilisation).toBeCloseTo(1, 9);
      }),
      { seed: 4 },
    );
  });
  it('words: too light, little to spare, nothing', () => {
    const words = {
      part: 'the pull',
      use: 'a pull of one hand',
      remedy: 'make it thicker',
      parameters: ['size'],
    };
    expect(loadFindings(checkLoad(400, members(400)), words)).toEqual([
      {
        severity: 'warn',
        code: 'too-light',
        message:
          'The pull is too light for a pull of one hand: 400 N against an allowable 276 N, by the grip, bending: 100 MPa of 69 MPa (145 %).',
        remedy: 'Make it thicker; never lift people or hang loads over them with it.',
        parameters: ['size'],
      },
    ]);
    expect(loadFindings(checkLoad(250, members(250)), words)[0]?.code).toBe('near-allowable-load');
    expect(loadFindings(checkLoad(200, members(200)), words)).toEqual([]);
    expect(allowableLoadNote(checkLoad(100, members(100)), { part: 'the pull' }).message).toBe(
      'The pull may bear 276 N as a bench estimate; its weakest place is the grip, bending.',
    );
    expect(describeMember(forceCheck('screws', 'pulling out', 100, 400), 'in')).toBe(
      'screws, pulling out: 22.5 lbf of 89.9 lbf (25 %)',
    );
  });
  it('no metal left is no load', () => {
    const stress = lugStresses(100, { width: 10, thickness: 4, holeDiameter: 10, pinDiameter: 10, edge: 20 });
    const check = checkLoad(100, [stressCheck('eye', 'net tension', stress.netTension, bronze)]);
    expect(check.allowableLoad).toBe(0);
    expect(loadFindings(check, { part: 'the eye', use: 'it', remedy: 'widen it' })[0]?.message).not.toContain(
      'NaN',
    );
    expect(() => checkLoad(0, members(1))).toThrow('over 0');
    expect(() => checkLoad(1, [])).toThrow('no member');
  });
});

describe('grips', () => {
  it('spread over nothing is a force in the middle; over all of the span, half its moment', () => {
    expect(supportedSpread(100, 80, 0)).toEqual(supportedMiddle(100, 80));
    expect(supportedSpread(100, 80).moment).toBe(supportedMiddle(100, 80).moment / 2);
  });
  it('an arch is stressed more than a straight bar, the more the sharper it bends', () => {
    const section = ellipseSection(12, 10);
    const stress = (radius?: number) =>
      archedGripStress(
        200,
        100,
        60,
        section,
        radius === undefined ? undefined : { shape: 'ellipse', height: 10, radius },
      );
    expect(stress(100)).toBeGreaterThan(stress());
    expect(stress(20)).toBeGreaterThan(stress(100));
  });
});

describe('cleat', () => {
  const cleat = {
    lineDiameter: 12,
    hornSection: ellipseSection(16, 18),
    neckSection: rectangleSection(18, 40),
    hornClearance: 20,
    baseLength: 80,
    fastenerSpan: 50,
    fasteners: 4,
  };
  it('bolts hold the tilting: their moments about the base’s far end balance the line’s', () => {
    const far = cleatBoltTension(1000, cleat);
    const near = far * (15 / 65);
    expect(2 * far * 65 + 2 * near * 15).toBeCloseTo(1000 * (20 + 6), 9);
  });
  it.each([
    ['polyester', 6],
    ['polyester', 12],
    ['polyester', 20],
    ['nylon', 12],
    ['manila', 12.7],
  ] as const)('a tin-bronze cleat by the rule holds a fifth of %s %d mm’s strength', (fibre, d) => {
    const rule = hornCleatRule(d);
    const load = lineLoad(fibre, d);
    const sizes = {
      ...rule,
      lineDiameter: d,
      hornSection: roundSection(rule.hornDiameter.root),
      neckSection: rectangleSection(rule.baseWidth / 2, rule.fastenerSpan),
      hornClearance: rule.hornClearance.root,
    };
    const stainless = boltAllowables('stainless steel A2-70');
    const bolt = cleatBolt('metric', load, sizes, stainless);
    expect(bolt.diameter).toBeGreaterThanOrEqual(d / 2);
    const check = checkLoad(load, cleatMembers(load, sizes, bronze, bolt, stainless));
    expect(check.utilisation).toBeLessThan(1);
    const horn = check.members.find((m) => m.member === 'horn')!;
    expect(horn.utilisation).toBeLessThan(1);
    expect(horn.utilisation).toBeGreaterThan(0.2);
    expect(horn.value).toBeGreaterThan((0.5 * load * d) / sizes.hornSection.modulus);
  });
  it('every member grows with the load; a thicker horn carries more', () => {
    const m6 = fastener('M6');
    if (m6.kind !== 'bolt') throw new Error('M6');
    const check = (load: number, horn: number) =>
      checkLoad(
        load,
        cleatMembers(
          load,
          { ...cleat, hornSection: ellipseSection(horn, horn) },
          bronze,
          m6,
          rodAllowables('silicon bronze'),
        ),
      );
    expect(check(2000, 18).allowableLoad).toBeCloseTo(check(1000, 18).allowableLoad, 6);
    expect(check(1000, 10).weakest.member).toBe('horn');
    expect(check(1000, 11).allowableLoad).toBeGreaterThan(check(1000, 10).allowableLoad);
  });
});

describe('hinges', () => {
  it('a leaf’s knuckles and gaps make up its length (seed 5)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 25, max: 400, noNaN: true }),
        fc.constantFrom('metric', 'inch'),
        (length, series) => {
          const rule = buttHingeRule(length, series as 'metric' | 'inch');
          const { knuckles: n, knuckleLength: l, knuckleGap: gap } = rule;
          expect(n % 2).toBe(1);
          expect(n * l + (n - 1) * gap).toBeCloseTo(length, 9);
          expect(knucklesOf(n)[0] + knucklesOf(n)[1]).toBe(n);
          expect(rule.holeDiameter).toBeGreaterThan(rule.pinDiameter);
          expect((rule.knuckleDiameter - rule.holeDiameter) / 2).toBeGreaterThanOrEqual(2);
          expect(l).toBeGreaterThan(rule.pinDiameter);
          expect(rule.leafThickness).toBeGreaterThanOrEqual(2.5);
        },
      ),
      { seed: 5 },
    );
    expect(knuckleCount(300, 60)).toBe(5);
    expect(() => knuckleLength(80, 4)).toThrow('must be odd');
  });
  it('a door’s couple: doubling its width doubles it, doubling the spacing halves it; weight at the latch counts double', () => {
    const door = { mass: 20_000, width: 600, spacing: 900, hinges: 2 };
    const { horizontal } = doorReaction(door);
    expect(doorReaction({ ...door, width: 1200 }).horizontal).toBeCloseTo(2 * horizontal, 9);
    expect(doorReaction({ ...door, spacing: 1800 }).horizontal).toBeCloseTo(horizontal / 2, 9);
    const leaning = doorReaction({ ...door, edgeForce: 20 * 9.80665 });
    expect(leaning.horizontal).toBeCloseTo(3 * horizontal, 9);
    expect(leaning.design).toBeCloseTo(Math.hypot(3 * horizontal, 40 * 9.80665), 9);
  });
  it('a 3 in hinge bears a locker door of 10 kg with much to spare, and a soft pin is its weakest when thin', () => {
    const rule = buttHingeRule(76.2, 'metric');
    const load = doorReaction({ mass: 10_000, width: 500, spacing: 600, hinges: 2 }).design;
    const brass = castAllowables(findAlloy('yellow-brass')!);
    const check = (pinDiameter: number) =>
      checkLoad(
        load,
        hingeMembers(
          load,
          { ...rule, pinDiameter, leafOffset: rule.knuckleDiameter / 2 - rule.leafThickness / 2 },
          brass,
          rodAllowables('brass'),
        ),
      );
    expect(check(rule.pinDiameter).utilisation).toBeLessThan(0.6);
    expect(check(2).weakest.member).toBe('pin');
    expect(check(2).allowableLoad).toBeLessThan(check(3).allowableLoad);
  });
  it('a leaf pries on its screws: twice the pull when they stand midway', () => {
    expect(leafScrewPull(100, 10, 10)).toBe(200);
  });
  it('a pintle’s stud: stress by the cube of its diameter but for the shear', () => {
    const at = (diameter: number) =>
      pintleMembers(500, { diameter, gudgeonHeight: 15, gap: 1 }, bronze, bronze)[0]!.value;
    expect(at(10) / at(20)).toBeGreaterThan(7);
    expect(at(10) / at(20)).toBeLessThan(8);
    const bending = (500 * 8.5) / roundSection(10).modulus;
    const shear = 500 / roundSection(10).area;
    expect(at(10)).toBeCloseTo(Math.sqrt(bending ** 2 + 3 * shear ** 2), 9);
  });
});
