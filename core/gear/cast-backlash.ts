import { castingTolerance, largestToleranceDimension } from '../foundry/iso-8062.js';
import { maths } from '../maths/maths.js';
import { type Finding, note, warn } from '../part/finding.js';
import { gearGeometry } from './gear-geometry.js';
import {
  circumferentialPerNormal,
  type Mesh,
  type MeshKind,
  meshPressureAngle,
  meshThinning,
} from './mesh-backlash.js';
import { centreDistance } from './pair.js';
import type { GearSpec } from './spec.js';

/**
 * Least normal backlash j_bn,min = (2/3) (0.06 + 0.0005 a + 0.03 m_n), mm, that leaves room for oil, warmth and
 * small errors of mounting: ISO/TR 10064-2:1996, annex A (from memory), for iron gears in iron housings.
 */
export const leastNormalBacklash = (distance: number, normalModule: number): number =>
  (2 / 3) * (0.06 + 0.0005 * distance + 0.03 * normalModule);

export interface CastBacklashRequest {
  /** DCTG of the teeth, 1 to 12, where the flanks stay as cast. */
  readonly toothGrade: number;
  /** DCTG of the centre distance where the shafts sit in cast holes; left out, `centreTolerance` counts. */
  readonly centreGrade?: number;
  /** Half width of the centre distance's tolerance where it is bored or adjusted, mm; 0 by default. */
  readonly centreTolerance?: number;
  /** Total indicator reading of the teeth about each bore, mm; 0 by default. ISO 8062 has no figure for it. */
  readonly runout?: number;
  /** mm; the pair's own by default, which internal and rack pairs have to give. */
  readonly distance?: number;
  /** External when left out. */
  readonly mesh?: MeshKind;
}

/** Where the recommended backlash comes from; each share circumferential at the working pitch circle, mm. */
export interface CastBacklash {
  /** j_wt that keeps the least backlash when every size is at the end of its tolerance that binds. */
  readonly recommended: number;
  /** The same when the deviations are summed by squares: nearly all pairs still run free. */
  readonly likely: number;
  readonly shares: {
    readonly least: number;
    readonly gearTeeth: number;
    readonly mateTeeth: number;
    readonly centreDistance: number;
    readonly runout: number;
  };
  /** Most and least the recommendation turns out to be over the tolerances, mm. */
  readonly range: readonly [least: number, most: number];
  /** Total thinning to draw, mm (normal, both gears together). */
  readonly thinning: number;
  readonly findings: readonly Finding[];
}

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** Thinner than this share of the tooth, thinning costs more strength than it is worth (common practice, no source). */
const mostThinning = 0.15;

/**
 * Backlash to draw into gears that run as cast. The normal tooth thickness may come out half the casting tolerance
 * thicker on both gears, the centre distance half of its tolerance shorter; 2 Δa tan α_wt turns the second into
 * backlash (ISO 21771:2007), as it does each gear's eccentricity, half its runout.
 * The same holds in a ring, whose axes bind when they
 * move apart, and on a rack.
 * Errors as `castingTolerance`: a grade or size outside ISO 8062-3.
 */
export function castBacklash(gear: GearSpec, mate: GearSpec, request: CastBacklashRequest): CastBacklash {
  const distance = request.distance ?? centreDistance(gear, mate);
  const mesh: Mesh = { kind: request.mesh ?? 'external', gear, mate, distance };
  const alphaWt = meshPressureAngle(mesh);
  const perNormal = circumferentialPerNormal(mesh);
  const toCircumferential = maths.cos(gear.normalPressureAngle) * perNormal;
  const findings: Finding[] = [];

  const ofTeeth = (spec: GearSpec): number =>
    (castingTolerance(gearGeometry(spec).normalThickness, request.toothGrade) / 2) * toCircumferential;
  const fromCentres = (change: number): number => 2 * change * maths.tan(alphaWt);
  let centre = request.centreTolerance ?? 0;
  if (request.centreGrade !== undefined) {
    centre = castingTolerance(Math.min(distance, largestToleranceDimension), request.centreGrade) / 2;
    if (distance > largestToleranceDimension) {
      findings.push(
        note(
          'centre-distance-beyond-table',
          `ISO 8062-3 is known here up to ${largestToleranceDimension} mm; the centre distance is ${mm(distance)}, taken at the table's end.`,
          'Bore the shafts to a tolerance of your own and give that.',
          'centreDistance',
        ),
      );
    }
  }
  const shares = {
    least: leastNormalBacklash(distance, gear.normalModule) * perNormal,
    gearTeeth: ofTeeth(gear),
    mateTeeth: ofTeeth(mate),
    centreDistance: fromCentres(centre),
    runout: 2 * fromCentres((request.runout ?? 0) / 2),
  };
  const parts = [shares.gearTeeth, shares.mateTeeth, shares.centreDistance, shares.runout];
  const worst = parts.reduce((sum, part) => sum + part, 0);
  const recommended = shares.least + worst;
  const thinning = meshThinning(recommended, mesh);
  const thinnest = Math.min(gearGeometry(gear).normalThickness, gearGeometry(mate).normalThickness);
  if (thinning / 2 > mostThinning * thinnest) {
    findings.push(
      warn(
        'backlash-thins-teeth',
        `At DCTG ${request.toothGrade} the teeth would be drawn ${mm(thinning / 2)} thinner, ${Math.round((50 * thinning) / thinnest)} % of their thickness.`,
        'Finish the flanks, hold a finer casting grade or use a larger module.',
        'toothGrade',
        'normalModule',
      ),
    );
  }
  return {
    recommended,
    likely: shares.least + maths.hypot(...parts),
    shares,
    range: [shares.least, recommended + worst],
    thinning,
    findings,
  };
}
