import { describe, expect, it } from 'vitest';
import { castingTolerance } from '../../../core/foundry/iso-8062.js';
import { leastNormalBacklash } from '../../../core/gear/cast-backlash.js';
import { gearGeometry } from '../../../core/gear/gear-geometry.js';
import { internalCentreDistance, internalTipThickness } from '../../../core/gear/internal.js';
import { internalForm, usualCutterTeeth } from '../../../core/gear/internal-form.js';
import { meshBacklash, meshCircumferential, meshRoom } from '../../../core/gear/mesh-backlash.js';
import { checkPair } from '../../../core/gear/pair-check.js';
import type { PairRequest } from '../../../core/gear/pair-request.js';
import {
  searchInternalPairs,
  searchMesh,
  searchPairs,
  searchRackPairs,
} from '../../../core/gear/pair-search.js';
import { deg, gear } from './gear-cases.js';

const refused = (request: PairRequest) => {
  const { candidates, findings } = searchMesh(request);
  expect(candidates).toEqual([]);
  return findings[0]!;
};

describe('pinions in rings', () => {
  it('m (z₂ − z₁) / 2 with the shifts equal and opposite: 2 × (60 − 20) / 2 = 40 mm', () => {
    const [c] = searchInternalPairs({ gearType: 'spur', teeth: [20, 60], module: 2 }).candidates;
    expect(c!.facts.centreDistance).toBeCloseTo(40, 9);
    expect(c!.gear.profileShift + c!.mate.profileShift).toBeCloseTo(0, 9);
    // The split was to make them alike.
    expect(c!.facts.pinionSliding[0]).toBeCloseTo(c!.facts.ringSliding[1], 1);
  });
  it('meets a centre distance by shift and by helix, and ends the ring’s tips where the pinion’s involute starts', () => {
    for (const gearType of ['spur', 'helical'] as const) {
      const { candidates } = searchInternalPairs({ gearType, ratio: 3.2, centreDistance: 47.3 });
      expect(candidates.length).toBeGreaterThan(1);
      for (const c of candidates) {
        expect(internalCentreDistance(c.gear, c.mate)).toBeCloseTo(47.3, 8);
        expect(c.facts.belowPinionInvolute).toBeLessThan(1e-6);
        expect(c.facts.beyondRingInvolute).toBeLessThan(1e-6);
      }
    }
  });
  it('standard full-depth teeth get shorter tips on the ring, by what the exact pinion wants', () => {
    const [c] = searchInternalPairs({
      gearType: 'spur',
      teeth: [20, 60],
      module: 2,
      profileShift: false,
    }).candidates;
    expect([c!.gear.profileShift, c!.mate.profileShift]).toEqual([0, 0]);
    expect(c!.gear.tipShortening).toBeCloseTo(0, 9);
    expect(c!.mate.tipShortening).toBeGreaterThan(0.1);
    expect(c!.facts.belowPinionInvolute).toBeCloseTo(0, 6);
  });
  it('few teeth of difference: axes that are free open, so that the tips pass', () => {
    const [c] = searchInternalPairs({ gearType: 'spur', teeth: [30, 35], module: 2 }).candidates;
    expect(c!.facts.centreDistance).toBeGreaterThan(5.3);
    expect(c!.facts.pinionTipGap).toBeGreaterThan(-1e-3);
  });
  it('tip thickness of a ring against the exact form', () => {
    for (const ring of [gear(2, 60, 0.1), gear(3, 44, -0.4, 0, { thinning: 0.1 })]) {
      const form = internalForm(ring, usualCutterTeeth(ring.teeth));
      if (!form.ok) throw new Error('refused');
      const { rootRadius, rootAngle, teeth } = form.space;
      expect(internalTipThickness(ring)).toBeCloseTo(2 * rootRadius * (Math.PI / teeth - rootAngle), 9);
    }
  });
});

describe('pinions on racks', () => {
  it('travel in a turn is π m z / cos β', () => {
    const [c] = searchRackPairs({
      gearType: 'helical',
      gearTeeth: 20,
      module: 2,
      helixAngle: 15 * deg,
    }).candidates;
    expect(c!.facts.travelPerTurn).toBeCloseTo((Math.PI * 40) / Math.cos(15 * deg), 9);
  });
  it('a travel asked for a turn is met, and the rack is long enough in pieces of at most 160 mm', () => {
    for (const c of searchRackPairs({ gearType: 'spur', travelPerTurn: 200, travel: 500 }).candidates) {
      expect(Math.abs(c.facts.travelPerTurn / 200 - 1)).toBeLessThanOrEqual(0.02);
      const pitch = Math.PI * c.gear.normalModule;
      expect(c.mate.teeth * c.pieces * pitch).toBeGreaterThan(500 + pitch);
      expect(c.mate.teeth * pitch).toBeLessThanOrEqual(160);
    }
  });
  it('the mounting distance is met by the pinion’s shift: (41.2 − 40) / 2 = 0.6', () => {
    const [c] = searchRackPairs({
      gearType: 'spur',
      gearTeeth: 40,
      module: 2,
      centreDistance: 41.2,
    }).candidates;
    expect(c!.gear.profileShift).toBeCloseTo(0.6, 12);
    expect(c!.mate.profileShift).toBe(0);
  });
});

describe('a mate that is there already', () => {
  const request: PairRequest = {
    gearType: 'spur',
    teeth: [13, 52],
    module: 2,
    centreDistance: 65,
    keepMate: true,
  };
  it('stays standard; the pinion may be as undercut as the one it replaces', () => {
    const [c] = searchPairs(request).candidates;
    expect([
      c!.gear.profileShift,
      c!.mate.profileShift,
      c!.mate.thinning,
      c!.mate.tipShortening ?? 0,
    ]).toEqual([0, 0, 0, 0]);
    expect(c!.findings.map((f) => f.code)).toContain('undercut');
    // All of the backlash is on gear 1.
    const whole = checkPair(c!.gear, gear(2, 52), { centreDistance: 65 });
    expect(whole.facts!.backlash.normal).toBeCloseTo(leastNormalBacklash(65, 2), 9);
  });
  it('further apart the pinion takes the whole shift', () => {
    const [c] = searchPairs({ ...request, centreDistance: 66 }).candidates;
    expect(c!.mate).toMatchObject({ profileShift: 0, thinning: 0 });
    expect(c!.gear.profileShift).toBeGreaterThan(0.4);
  });
});

describe('backlash', () => {
  it('as cast: half the DCTG of each tooth, of the centre distance, and the least', () => {
    const [c] = searchPairs({
      gearType: 'spur',
      teeth: [20, 40],
      module: 3,
      profileShift: false,
      backlash: { kind: 'as-cast', toothGrade: 5, centreGrade: 6 },
    }).candidates;
    const wanted =
      leastNormalBacklash(90, 3) / Math.cos(20 * deg) +
      castingTolerance(4.71, 5) +
      castingTolerance(90, 6) * Math.tan(20 * deg);
    expect(c!.facts.backlash.circumferential).toBeCloseTo(wanted, 9);
    expect(c!.backlash.cast!.shares.least).toBeCloseTo(leastNormalBacklash(90, 3) / Math.cos(20 * deg), 9);
  });
  it.each(['external', 'internal', 'rack'] as const)(
    '%s: the three ways of asking come to the same, and at the end of the room nothing is left',
    (kind) => {
      const t = { thinning: 0.08 };
      const [a, b] = [gear(2, 20, 0.2, 15, t), gear(2, 57, -0.2, 15, t)];
      const own = { external: 77 / 2, internal: 37 / 2, rack: 10 }[kind] * (2 / Math.cos(15 * deg));
      const mesh = { kind, gear: a, mate: b, distance: own + (kind === 'rack' ? 0.4 : 0) };
      const { circumferential, normal } = meshBacklash(mesh);
      expect(normal).toBeCloseTo(0.16 * Math.cos(20 * deg), 9);
      expect(meshCircumferential('normal', normal, mesh)).toBeCloseTo(circumferential, 12);
      const room = meshRoom(mesh);
      expect(meshCircumferential('centre-distance', room, mesh)).toBeCloseTo(circumferential, 9);
      const bound = { ...mesh, distance: mesh.distance + (kind === 'internal' ? room : -room) };
      expect(meshBacklash(bound).circumferential).toBeCloseTo(0, 9);
    },
  );
  it('all on the wheel, the ring or the rack', () => {
    for (const mesh of ['external', 'internal', 'rack'] as const) {
      const base = mesh === 'rack' ? { gearTeeth: 20 } : { teeth: [20, 60] as const };
      const [c] = searchMesh({
        gearType: 'spur',
        mesh,
        module: 2,
        thinningSplit: 'wheel',
        ...base,
      }).candidates;
      expect(c!.gear.thinning).toBe(0);
      expect(c!.mate.thinning).toBeCloseTo(c!.backlash.thinning.total, 12);
    }
  });
});

describe('a load in the ranking', () => {
  const material = {
    name: 'm',
    allowableStress: 69,
    basis: '',
    elasticModulus: 105_000,
    surfaceEndurance: null,
  };
  it('teeth that carry it come first, though finer ones would do without a load', () => {
    const request: PairRequest = { gearType: 'spur', ratio: 3, largestDiameter: 240 };
    const materials = [material, material] as const;
    const light = searchPairs({ ...request, load: { materials, torque: 1000 } }).candidates[0]!;
    const heavy = searchPairs({ ...request, load: { materials, torque: 60_000 } }).candidates[0]!;
    expect(heavy.load!.share).toBeLessThanOrEqual(1);
    expect(heavy.gear.normalModule).toBeGreaterThan(light.gear.normalModule);
    expect(gearGeometry(heavy.mate).tipDiameter).toBeLessThanOrEqual(240);
  });
});

describe('requests that cannot be met say which part fails and by how much', () => {
  it.each<[string, PairRequest, RegExp]>([
    [
      'bad-request',
      { gearType: 'spur', mesh: 'internal', teeth: [40, 30], module: 2 },
      /30, of the ring round 40/,
    ],
    ['bad-request', { gearType: 'spur', mesh: 'internal', ratio: 0.5, module: 2 }, /0\.5 in a ring/],
    ['bad-request', { gearType: 'spur', mesh: 'rack', ratio: 2, module: 2 }, /2 on a rack/],
    [
      'bad-request',
      { gearType: 'spur', ratio: 2, module: 2, backlash: { kind: 'as-cast', toothGrade: 14 } },
      /14/,
    ],
    ['no-double-helical-mate', { gearType: 'double-helical', mesh: 'rack', module: 2 }, /rack/],
    ['travel-without-rack', { gearType: 'spur', ratio: 2, module: 2, travel: 300 }, /no rack/],
    [
      'travel-not-met',
      { gearType: 'spur', mesh: 'rack', module: 2, travelPerTurn: 500 },
      /376\.991 mm, 24\.6 % off/,
    ],
    ['ratio-contradicts-teeth', { gearType: 'spur', teeth: [20, 40], ratio: 3, module: 2 }, /33\.3 % off/],
    [
      'too-large-across',
      { gearType: 'spur', mesh: 'internal', ratio: 4, module: 3, largestDiameter: 100 },
      /mm too much/,
    ],
    [
      'centre-distance-not-met',
      { gearType: 'spur', mesh: 'internal', teeth: [20, 60], module: 2, centreDistance: 45 },
      /mm too (much|little)/,
    ],
    [
      'centre-distance-not-met',
      { gearType: 'spur', mesh: 'rack', gearTeeth: 20, module: 2, centreDistance: 24 },
      /21\.6 mm, 2\.4 mm too little/,
    ],
    [
      'backlash-not-met',
      { gearType: 'spur', teeth: [20, 40], module: 1, backlash: { kind: 'normal', value: 2.5 } },
      /more than the [\d.]+ mm they can spare/,
    ],
    [
      'backlash-not-met',
      { gearType: 'spur', teeth: [12, 14], module: 1, backlash: { kind: 'centre-distance', value: 3 } },
      /3 mm: there is no mesh so far off/,
    ],
  ])('%s: %j', (code, request, message) => {
    const finding = refused(request);
    expect(finding.code).toBe(code);
    expect(finding.message).toMatch(message);
    expect(finding.remedy.length).toBeGreaterThan(10);
  });
});

describe('the figure a remedy names is one that can be had', () => {
  const named = (text: string, what: RegExp): number => Number(what.exec(text)?.[1]);
  it.each<[PairRequest, number]>([
    [{ gearType: 'spur', teeth: [20, 40], module: 2 }, 100],
    [{ gearType: 'spur', teeth: [20, 40], module: 2 }, 62.8],
    [{ gearType: 'spur', teeth: [20, 40], module: 2 }, 30],
    [{ gearType: 'spur', mesh: 'internal', teeth: [20, 60], module: 2 }, 50],
    [{ gearType: 'spur', mesh: 'rack', gearTeeth: 20, module: 2 }, 24],
  ])('centre distance: %j at %d', (request, centreDistance) => {
    const { code, remedy } = refused({ ...request, centreDistance });
    expect(code).toBe('centre-distance-not-met');
    const can = named(remedy, /of ([\d.]+) mm/);
    expect(Math.abs(can - centreDistance)).toBeGreaterThan(0.01);
    // Nothing of the distance is in the way there, and a hundredth farther it is again.
    const codeAt = (distance: number) =>
      searchMesh({ ...request, centreDistance: distance }).findings[0]?.code;
    expect(codeAt(can)).not.toBe('centre-distance-not-met');
    expect(codeAt(can + 0.01 * Math.sign(centreDistance - can))).toBe('centre-distance-not-met');
  });
  it('space across', () => {
    const request = { gearType: 'spur', ratio: 4, module: 3 } as const;
    const room = named(refused({ ...request, largestDiameter: 40 }).remedy, /for ([\d.]+) mm/);
    expect(searchMesh({ ...request, largestDiameter: room }).candidates).not.toEqual([]);
    expect(searchMesh({ ...request, largestDiameter: room - 0.002 }).candidates).toEqual([]);
  });
  it('backlash: of the gear whose teeth can spare least', () => {
    const request = { gearType: 'spur', teeth: [20, 30], module: 1 } as const;
    const codeAt = (value: number) =>
      searchMesh({ ...request, backlash: { kind: 'circumferential', value } }).findings[0];
    const most = named(codeAt(2)?.remedy ?? '', /most ([\d.]+) mm/);
    expect(codeAt(most)?.code).not.toBe('backlash-not-met');
    expect(codeAt(most + 0.01)?.code).toBe('backlash-not-met');
    // Split equally already, and no casting grade asked for.
    expect(codeAt(2)?.remedy).not.toMatch(/equally|grade/);
  });
});
