/** What a horn cleat bears from its line. N, mm. */
import { bendingStress, cantilever, combinedStress, shearStress } from './beams.js';
import { leastCleatScrew } from './cleats.js';
import type { Bolt, FastenerSeries } from './fastener.js';
import { bolts } from './find-fastener.js';
import { type Allowables, type MemberCheck, stressCheck } from './load-check.js';
import type { Section } from './sections.js';

export interface CleatSizes {
  readonly lineDiameter: number;
  /** A horn where it leaves the neck. */
  readonly hornSection: Section;
  /** The neck, or both legs of an open base together, bent along the cleat. */
  readonly neckSection: Section;
  /** Deck to the underside of the horns at the neck. */
  readonly hornClearance: number;
  readonly baseLength: number;
  /** Between the outer fasteners, along the cleat. */
  readonly fastenerSpan: number;
  readonly fasteners: number;
}

/**
 * Share of the pull that reaches the horns, once the line has gone half round the neck: e^(−µπ), µ 0.25 for rope on
 * metal, is 0.46 (Euler and Eytelwein; µ from memory); a half is taken.
 */
export const hornShare = 0.5;

/**
 * Horn, neck and bolts under the pull of the line. The horn bears its share one line diameter from the neck, the neck
 * the whole at its top (common practice, no source); the bolts hold it from tilting over its base's end, and
 * from sliding.
 */
export function cleatMembers(
  force: number,
  cleat: CleatSizes,
  casting: Allowables,
  bolt: Pick<Bolt, 'stressArea'>,
  boltMaterial: Allowables,
): readonly MemberCheck[] {
  const horn = cantilever(hornShare * force, cleat.lineDiameter);
  const neck = cantilever(force, cleat.hornClearance);
  return [
    stressCheck(
      'horn',
      'bending at the neck',
      combinedStress(bendingStress(horn, cleat.hornSection), shearStress(horn, cleat.hornSection)),
      casting,
    ),
    stressCheck(
      'neck',
      'bending and shear at the base',
      combinedStress(bendingStress(neck, cleat.neckSection), shearStress(neck, cleat.neckSection)),
      casting,
    ),
    stressCheck('bolts', 'tension and shear', boltStress(force, cleat, bolt), boltMaterial),
  ];
}

type BoltedBase = Pick<
  CleatSizes,
  'hornClearance' | 'lineDiameter' | 'baseLength' | 'fastenerSpan' | 'fasteners'
>;

/**
 * Pull on each bolt of the end that lifts, N. The base tilts as a stiff piece over its far end and each bolt pulls in
 * proportion to its distance from there: T₁ = M a₁ / Σ a², M = F (h + d/2) (bolt groups, Shigley, 8-12, from memory).
 */
export function cleatBoltTension(force: number, cleat: BoltedBase): number {
  const moment = force * (cleat.hornClearance + cleat.lineDiameter / 2);
  const far = (cleat.baseLength + cleat.fastenerSpan) / 2;
  const near = (cleat.baseLength - cleat.fastenerSpan) / 2;
  return (moment * far) / ((cleat.fasteners / 2) * (far ** 2 + near ** 2));
}

/** Tension and shear together in the worst bolt, MPa. */
const boltStress = (force: number, cleat: BoltedBase, bolt: Pick<Bolt, 'stressArea'>): number =>
  combinedStress(cleatBoltTension(force, cleat) / bolt.stressArea, force / cleat.fasteners / bolt.stressArea);

/** The thinnest bolt that keeps the half-diameter rule and bears the pull; the thickest there is if none does. */
export function cleatBolt(
  series: FastenerSeries,
  force: number,
  cleat: BoltedBase,
  material: Allowables,
): Bolt {
  const row = bolts[series].filter((bolt) => bolt.diameter >= leastCleatScrew(cleat.lineDiameter) - 1e-9);
  const holding = row.find((bolt) => boltStress(force, cleat, bolt) <= material.tension);
  return holding ?? bolts[series][bolts[series].length - 1]!;
}
