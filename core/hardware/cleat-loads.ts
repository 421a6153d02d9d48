/** What a horn cleat bears from its line. N, mm. */
import { bendingStress, cantilever, combinedStress, shearStress } from './beams.js';
import type { Bolt } from './fastener.js';
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
  /** Between the outer fasteners, along the cleat. */
  readonly fastenerSpan: number;
  readonly fasteners: number;
}

/**
 * Horn, neck and bolts under the whole pull of the line. The line is taken to bear on one horn 1.5 diameters from the
 * neck (two turns beside each other), and on the neck at its top (common practice, no source). The bolts at one end
 * hold against tilting, and all of them against sliding.
 */
export function cleatMembers(
  force: number,
  cleat: CleatSizes,
  casting: Allowables,
  bolt: Pick<Bolt, 'stressArea'>,
  boltMaterial: Allowables,
): readonly MemberCheck[] {
  const horn = cantilever(force, 1.5 * cleat.lineDiameter);
  const neck = cantilever(force, cleat.hornClearance);
  const tension = cleatBoltTension(force, cleat);
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
    stressCheck(
      'bolts',
      'tension and shear',
      combinedStress(tension / bolt.stressArea, force / cleat.fasteners / bolt.stressArea),
      boltMaterial,
    ),
  ];
}

/** Pull on each bolt of the end that the cleat tilts away from, N: F (h + d/2) / (span × half the bolts). */
export const cleatBoltTension = (
  force: number,
  cleat: Pick<CleatSizes, 'hornClearance' | 'lineDiameter' | 'fastenerSpan' | 'fasteners'>,
): number =>
  (force * (cleat.hornClearance + cleat.lineDiameter / 2)) / (cleat.fastenerSpan * (cleat.fasteners / 2));
