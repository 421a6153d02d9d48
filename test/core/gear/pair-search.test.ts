import { describe, expect, it } from 'vitest';
import { gearGeometry, minimumProfileShift } from '../../../core/gear/gear-geometry.js';
import { lewisBeam } from '../../../core/gear/lewis.js';
import { centreDistance } from '../../../core/gear/pair.js';
import { checkPair } from '../../../core/gear/pair-check.js';
import type { PairRequest } from '../../../core/gear/pair-request.js';
import { searchPairs } from '../../../core/gear/pair-search.js';
import { shiftRange, splitShift } from '../../../core/gear/shift-split.js';
import { deg, gear } from './gear-cases.js';

const found = (request: PairRequest) => {
  const { candidates, findings } = searchPairs(request);
  expect(findings).toEqual([]);
  expect(candidates.length).toBeGreaterThan(0);
  return candidates;
};
const refused = (request: PairRequest) => {
  const { candidates, findings } = searchPairs(request);
  expect(candidates).toEqual([]);
  expect(findings.length).toBeGreaterThan(0);
  return findings[0]!;
};

describe('pairs for a request', () => {
  it('helix angle to a centre distance is the closed form cos β = m_n (z₁ + z₂) / (2 a)', () => {
    for (const c of found({ gearType: 'helical', ratio: 2.5, centreDistance: 100, module: 2 })) {
      if (c.by !== 'helix') continue;
      const sum = c.gear.teeth + c.mate.teeth;
      expect(c.gear.helixAngle).toBeCloseTo(Math.acos((2 * sum) / 200), 12);
      expect(centreDistance(c.gear, c.mate)).toBeCloseTo(100, 9);
      expect(c.gear.profileShift + c.mate.profileShift).toBeCloseTo(0, 12);
    }
  });
  it('profile shift to a centre distance meets it exactly', () => {
    const best = found({ gearType: 'spur', ratio: 3, centreDistance: 100 });
    for (const c of best) expect(centreDistance(c.gear, c.mate)).toBeCloseTo(100, 9);
    // Asked for nothing, the backlash is ISO/TR 10064-2's least.
    for (const c of best)
      expect(c.facts.backlash.normal).toBeCloseTo((2 / 3) * (0.06 + 0.05 + 0.03 * c.module.module), 9);
  });
  it('a hunting tooth comes before an even ratio where the tolerance leaves room', () => {
    const [first] = found({ gearType: 'spur', ratio: 3, module: 2, ratioTolerance: 0.03 });
    expect(first!.mate.teeth % first!.gear.teeth).not.toBe(0);
    expect(first!.reasons.join(' ')).toMatch(/hunting tooth/i);
    const [exact] = found({ gearType: 'spur', ratio: 3, module: 2, ratioTolerance: 0 });
    expect(exact!.reasons.join(' ')).toMatch(/No hunting tooth: \d+ and \d+ share the factor/);
  });
  it('series II only ranks behind: asked for nothing else it is found', () => {
    expect(found({ gearType: 'spur', ratio: 2, module: { from: 2, to: 2.5 } })[0]!.module.series).toBe('I');
    expect(found({ gearType: 'spur', ratio: 2, module: { from: 2.2, to: 2.3 } })[0]!.module.module).toBe(
      2.25,
    );
    expect(found({ gearType: 'spur', ratio: 2, diametralPitch: { from: 9, to: 11 } })[0]!.module.module).toBe(
      2.54,
    );
  });
  it('keeps to the space there is, and to tooth numbers and face width asked for', () => {
    for (const c of found({ gearType: 'spur', ratio: 3, largestDiameter: 150, largestCentreDistance: 95 })) {
      expect(gearGeometry(c.mate).tipDiameter).toBeLessThanOrEqual(150);
      expect(c.facts.centreDistance).toBeLessThanOrEqual(95);
    }
    const [c] = found({ gearType: 'double-helical', teeth: [19, 58], module: 2, faceWidth: 40 });
    expect([c!.gear.teeth, c!.mate.teeth]).toEqual([19, 58]);
    expect(c!.facts.overlapRatio).toBeGreaterThanOrEqual(1);
  });
  it('backlash as asked, whichever way', () => {
    const request: PairRequest = { gearType: 'spur', teeth: [20, 41], module: 2 };
    for (const kind of ['circumferential', 'normal', 'centre-distance'] as const) {
      const [c] = found({ ...request, backlash: { kind, value: 0.1 } });
      const sizes = c!.facts.backlash;
      expect(
        {
          circumferential: sizes.circumferential,
          normal: sizes.normal,
          'centre-distance': sizes.centreDistance,
        }[kind],
      ).toBeCloseTo(0.1, 9);
    }
  });
  it('the same request gives the same answer', () => {
    const request: PairRequest = { gearType: 'helical', ratio: 3, centreDistance: 80 };
    expect(searchPairs(request)).toEqual(searchPairs(request));
  });
});

describe('split of the profile shift', () => {
  const [a, b] = [gear(2, 14), gear(2, 49)];
  it('balanced sliding: the full check finds the same sliding at both roots', () => {
    const x1 = splitShift(a, b, 0.2, 'balanced-sliding')!;
    const { facts } = checkPair(gear(2, 14, x1), gear(2, 49, 0.2 - x1));
    expect(facts!.gear.slidingAtRoot).toBeCloseTo(facts!.mate.slidingAtRoot, 1);
    const [c] = found({ gearType: 'spur', teeth: [14, 49], module: 2, centreDistance: 63.3 });
    expect(c!.facts.gear.slidingAtRoot).toBeCloseTo(c!.facts.mate.slidingAtRoot, 6);
  });
  it('equal strength: equal Lewis factors', () => {
    const [c] = found({ gearType: 'spur', teeth: [18, 40], module: 2, split: 'equal-strength' });
    const [first, second] = [c!.gear, c!.mate].map((s) => lewisBeam({ ...s, thinning: 0 }));
    if (!first?.ok || !second?.ok) throw new Error('refused');
    expect(first.beam.formFactor / second.beam.formFactor).toBeCloseTo(1, 2);
  });
  it('no undercut: the pinion gets just its least shift when that is all it needs', () => {
    expect(splitShift(a, b, 0, 'no-undercut')).toBeCloseTo(minimumProfileShift(a), 12);
    expect(splitShift(gear(2, 30), gear(2, 40), 0, 'no-undercut')).toBe(0);
  });
  it('a sum beyond both ranges is refused', () => {
    expect(splitShift(a, b, 3, 'no-undercut')).toBeNull();
    const [least, most] = shiftRange(a);
    expect(least).toBeCloseTo(minimumProfileShift(a), 12);
    expect(most).toBeLessThan(0.8);
  });
});

describe('requests that cannot be met say which part fails and by how much', () => {
  it('centre distance; the one it names instead is met', () => {
    const request: PairRequest = { gearType: 'helical', teeth: [19, 57], module: 2, centreDistance: 75 };
    const finding = refused(request);
    expect(finding.code).toBe('centre-distance-not-met');
    const [, reach, miss] = /bear ([\d.]+) mm, ([\d.]+) mm too much/.exec(finding.message)!;
    expect(Number(reach) - Number(miss)).toBeCloseTo(75, 2);
    // Right at the limit the mate’s tips just reach below the involute; they are shortened to end there.
    const [edge] = found({ ...request, centreDistance: Number(reach) + 0.001 });
    expect(edge!.mate.tipShortening).toBeGreaterThan(0);
    expect(edge!.facts.gear.belowInvolute).toBeCloseTo(0, 6);
    refused({ ...request, centreDistance: Number(reach) - 0.01 });
  });
  it('without profile shift; it says so', () => {
    const finding = refused({
      gearType: 'spur',
      teeth: [20, 40],
      module: 2,
      centreDistance: 60.5,
      profileShift: false,
    });
    expect(finding.message).toMatch(/runs at 60 mm, 0\.5 mm too little/);
    expect(finding.remedy).toMatch(/allow profile shift/);
    found({ gearType: 'spur', teeth: [20, 40], module: 2, centreDistance: 60.5 });
  });
  it('space; the room it names is enough', () => {
    const request: PairRequest = { gearType: 'spur', ratio: 8, module: 2, largestDiameter: 60 };
    const finding = refused(request);
    expect(finding.code).toBe('too-large-across');
    const room = Number(/is ([\d.]+) mm across/.exec(finding.message)![1]);
    found({ ...request, largestDiameter: room + 0.001 });
    expect(refused({ gearType: 'spur', ratio: 8, module: 2, largestCentreDistance: 50 }).code).toBe(
      'centres-too-far',
    );
  });
  it('ratio; the tolerance it names is enough', () => {
    const request: PairRequest = { gearType: 'spur', ratio: Math.PI, ratioTolerance: 1e-5, module: 2 };
    const finding = refused(request);
    expect(finding.code).toBe('ratio-not-met');
    found({ ...request, ratioTolerance: Number(/Allow ([\d.]+) %/.exec(finding.remedy)![1]) / 100 });
    expect(refused({ gearType: 'spur', ratio: 30, module: 2 }).message).toMatch(/33\.333|% off/);
  });
  it.each([
    ['no-module', { gearType: 'spur', ratio: 2, module: { from: 2.05, to: 2.1 } }],
    ['no-module', { gearType: 'spur', ratio: 2, diametralPitch: { from: 25, to: 26 } }],
    ['ratio-not-given', { gearType: 'spur', module: 2 }],
    ['size-not-given', { gearType: 'spur', ratio: 2 }],
    ['module-and-diametral-pitch', { gearType: 'spur', ratio: 2, module: 2, diametralPitch: 12 }],
    ['bad-request', { gearType: 'spur', ratio: Number.NaN, module: 2 }],
    ['bad-request', { gearType: 'spur', teeth: [12.5, 30], module: 2 }],
    ['bad-request', { gearType: 'spur', ratio: 2, module: 2, helixAngle: 20 * deg }],
    ['bad-request', { gearType: 'helical', ratio: 2, module: -1 }],
    ['contact-ratio-below-one', { gearType: 'spur', teeth: [8, 120], module: 2, profileShift: false }],
  ] as const)('%s', (code, request) => {
    const finding = refused(request);
    expect(finding.code).toBe(code);
    expect(finding.remedy.length).toBeGreaterThan(10);
  });
});
