import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gearGeometry } from '../../core/gear/gear-geometry.js';
import { internalCentreDistance } from '../../core/gear/internal.js';
import { internalForm, usualCutterTeeth } from '../../core/gear/internal-form.js';
import { checkInternalPair } from '../../core/gear/internal-pair-check.js';
import { type MeshKind, meshRoom } from '../../core/gear/mesh-backlash.js';
import { centreDistance } from '../../core/gear/pair.js';
import { appraise } from '../../core/gear/pair-appraisal.js';
import { checkPair } from '../../core/gear/pair-check.js';
import { pairLimits } from '../../core/gear/pair-findings.js';
import type { AnyRankedPair } from '../../core/gear/pair-ranking.js';
import type { PairRequest } from '../../core/gear/pair-request.js';
import { searchMesh } from '../../core/gear/pair-search.js';
import { rackForm } from '../../core/gear/rack-form.js';
import { checkRackPair, rackMountingDistance } from '../../core/gear/rack-pair.js';
import { toothForm } from '../../core/gear/tooth-form.js';
import { sampleCurve } from '../../core/solid/sample-curve.js';
import { anyInternalRequest, anyPairRequest, anyRackRequest } from '../helpers/any-pair-request.js';
import { formProfile } from '../helpers/form-profile.js';
import { type Rolled, rollInRing, rollOnRack, rollPair } from '../helpers/rolling-pair.js';

const runs = Number(process.env.PATTERNWRIGHT_PAIR_RUNS ?? 40);
const chord = 4e-5;

/** Turns the sampled teeth against each other: points and circles only. */
function roll(pair: AnyRankedPair): Rolled {
  const pinion = toothForm(pair.gear);
  if (!pinion.ok) throw new Error('refused form');
  const first = formProfile(pinion.form, chord);
  if (pair.mesh === 'external') {
    const mate = toothForm(pair.mate);
    if (!mate.ok) throw new Error('refused form');
    return rollPair(first, formProfile(mate.form, chord), pair.facts.centreDistance, 8);
  }
  if (pair.mesh === 'internal') {
    const ring = internalForm(pair.mate, usualCutterTeeth(pair.mate.teeth));
    if (!ring.ok) throw new Error('refused form');
    return rollInRing(first, formProfile(ring.space, chord), pair.facts.centreDistance, 8);
  }
  const rack = rackForm(pair.mate);
  if (!rack.ok) throw new Error('refused form');
  const tooth = rack.form.curves
    .flatMap((c) => sampleCurve(c, chord).points)
    .map(([half, height]) => ({ half, height }))
    .sort((a, b) => a.height - b.height);
  return rollOnRack(first, tooth, rack.form.pitch, pair.facts.mountingDistance, 8);
}

function leastGap({ mesh, facts }: AnyRankedPair): number {
  if (mesh === 'external') return Math.min(facts.gear.tipGap, facts.mate.tipGap);
  return Math.min(facts.pinionTipGap, mesh === 'internal' ? facts.ringTipGap : facts.rackTipGap);
}

/** The worst that was met with, mm; shown when the runs are asked for by name. */
interface Worst {
  tight: number;
  loose: number;
  error: number;
}

function expectRuns(pair: AnyRankedPair, worst: Worst): void {
  const run = roll(pair);
  const play = pair.facts.backlash.circumferential;
  expect(run.tipInRoot).toBe(false);
  // A tip that cuts in by less than the check minds (1 µm) takes so much play, more where flank and circle slant.
  const cut = Math.max(0, -leastGap(pair));
  expect(cut).toBeLessThanOrEqual(pairLimits.overlap);
  expect(run.leastPlay).toBeGreaterThan(play - 1.5e-3 - 4 * cut);
  worst.tight = Math.max(worst.tight, play - run.leastPlay);
  // Sections of helical gears with ε_α below 1 hand over between sections: only then may one run ahead.
  if (pair.facts.contactRatio < 1.02) return;
  expect(run.mostPlay).toBeLessThan(play + 2e-3);
  expect(run.transmissionError).toBeLessThan(2e-3);
  worst.loose = Math.max(worst.loose, run.mostPlay - play);
  worst.error = Math.max(worst.error, run.transmissionError);
}

/** What the request asks for and what the pair says of itself. */
function expectMeets(request: PairRequest, pair: AnyRankedPair): void {
  const { gear, mate, mesh, faceWidth } = pair;
  const { distance } = appraise(pair);
  if (request.centreDistance !== undefined) expect(distance).toBe(request.centreDistance);
  const own =
    mesh === 'external'
      ? centreDistance(gear, mate)
      : mesh === 'internal'
        ? internalCentreDistance(gear, mate)
        : rackMountingDistance(gear);
  // Without their thinning the teeth mesh free of backlash just there.
  expect(own).toBeCloseTo(distance, 7);
  if (request.teeth) expect([gear.teeth, mate.teeth]).toEqual(request.teeth);
  if (request.gearTeeth !== undefined) expect(gear.teeth).toBe(request.gearTeeth);
  const tolerance = request.ratioTolerance! + 1e-9;
  if (request.ratio !== undefined)
    expect(Math.abs(pair.ratio! / request.ratio - 1)).toBeLessThanOrEqual(tolerance);
  if (mesh === 'rack') {
    const { travelPerTurn } = pair.facts;
    if (request.travelPerTurn !== undefined)
      expect(Math.abs(travelPerTurn / request.travelPerTurn - 1)).toBeLessThanOrEqual(tolerance);
    const pitch = travelPerTurn / gear.teeth;
    expect(mate.teeth * pair.pieces).toBeGreaterThanOrEqual(pair.rackTeeth);
    if (request.travel !== undefined) expect(pair.rackTeeth * pitch).toBeGreaterThan(request.travel);
  }
  const across =
    mesh === 'external'
      ? Math.max(...[gear, mate].map((s) => gearGeometry(s).tipDiameter))
      : mesh === 'internal'
        ? pair.outsideDiameter
        : gearGeometry(gear).tipDiameter;
  if (request.largestDiameter !== undefined)
    expect(across).toBeLessThanOrEqual(request.largestDiameter + 1e-6);
  if (typeof request.module === 'number') expect(gear.normalModule).toBe(request.module);
  if (request.helixAngle !== undefined) expect(gear.helixAngle).toBe(request.helixAngle);
  if (request.faceWidth !== undefined) expect(faceWidth).toBe(request.faceWidth);
  if (request.profileShift === false) expect([gear.profileShift, mate.profileShift]).toEqual([0, 0]);
  if (request.keepMate)
    expect([mate.profileShift, mate.thinning, mate.tipShortening ?? 0]).toEqual([0, 0, 0]);
  expectBacklash(request, pair);
}

function expectBacklash({ backlash, thinningSplit, keepMate }: PairRequest, pair: AnyRankedPair): void {
  const { gear, mate, mesh } = pair;
  const { circumferential, normal } = pair.facts.backlash;
  expect(circumferential).toBeCloseTo(pair.backlash.circumferential, 6);
  expect(Math.min(gear.thinning, mate.thinning)).toBeGreaterThanOrEqual(-1e-9);
  if (thinningSplit === 'equal' && !keepMate) expect(gear.thinning).toBeCloseTo(mate.thinning, 12);
  if (thinningSplit === 'wheel' && !keepMate) expect(Math.min(gear.thinning, mate.thinning)).toBe(0);
  if (backlash === undefined) expect(normal).toBeCloseTo(pair.backlash.asked!, 6);
  else if (backlash.kind === 'circumferential') expect(circumferential).toBeCloseTo(backlash.value, 6);
  else if (backlash.kind === 'normal') expect(normal).toBeCloseTo(backlash.value, 6);
  else if (backlash.kind === 'centre-distance') {
    const { distance } = appraise(pair);
    expect(meshRoom({ kind: mesh, gear, mate, distance })).toBeCloseTo(backlash.value, 5);
  } else expect(circumferential).toBeCloseTo(pair.backlash.cast!.recommended, 6);
}

/** The checks it claims to pass, made again from its numbers alone. */
function expectChecked({ gear, mate, mesh, facts, findings }: AnyRankedPair): void {
  const again =
    mesh === 'external'
      ? checkPair(gear, mate, { centreDistance: facts.centreDistance })
      : mesh === 'internal'
        ? checkInternalPair(gear, mate, { centreDistance: facts.centreDistance })
        : checkRackPair(gear, mate, { mountingDistance: facts.mountingDistance });
  // Without a face width there is no ε_β to make up for a low ε_α.
  const stops = again.findings.filter((f) => f.severity === 'stop' && f.code !== 'contact-ratio-below-one');
  expect(stops).toEqual([]);
  expect(facts.contactRatio + facts.overlapRatio!).toBeGreaterThanOrEqual(1);
  const clearances =
    mesh === 'external'
      ? [facts.gear.tipClearance, facts.mate.tipClearance]
      : mesh === 'internal'
        ? [facts.pinionTipClearance, facts.ringTipClearance]
        : [facts.pinionTipClearance, facts.rackTipClearance];
  const least = pairLimits.tipClearance * gear.normalModule - 1e-9;
  expect(findings.some((f) => f.code === 'small-tip-clearance')).toBe(Math.min(...clearances) < least);
}

const cases: readonly [MeshKind, fc.Arbitrary<PairRequest>][] = [
  ['external', anyPairRequest],
  ['internal', anyInternalRequest],
  ['rack', anyRackRequest],
];

describe(`pair search over random requests, seed 20774, ${runs} of each kind (PATTERNWRIGHT_PAIR_RUNS)`, () => {
  it.each(cases)(
    '%s: every pair it gives meets the request and runs; every refusal names a constraint and the miss',
    (_, requests) => {
      let [met, refused, pairs] = [0, 0, 0];
      const worst: Worst = { tight: 0, loose: 0, error: 0 };
      fc.assert(
        fc.property(requests, (request) => {
          const { candidates, findings } = searchMesh({ ...request, count: 2 });
          if (candidates.length > 0) {
            met++;
            expect(findings).toEqual([]);
            for (const pair of candidates) {
              expectMeets(request, pair);
              expectChecked(pair);
              expectRuns(pair, worst);
              pairs++;
            }
            return;
          }
          refused++;
          expect(findings.length).toBeGreaterThan(0);
          for (const f of findings) {
            expect(f.severity).toBe('stop');
            // Which and by how much: there is a figure in it, or it asks for what is missing.
            if (f.code !== 'size-not-given') expect(f.message).toMatch(/\d/);
          }
        }),
        { seed: 20_774, numRuns: runs },
      );
      if (process.env.PATTERNWRIGHT_PAIR_RUNS)
        console.log(`met ${met} by ${pairs} pairs, refused ${refused}; worst, mm:`, worst);
      expect(met).toBeGreaterThan(runs / 5);
      expect(refused).toBeGreaterThan(runs / 20);
    },
    7_200_000,
  );
});
