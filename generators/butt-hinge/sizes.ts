import { leafScrews, leafThickness, nearStep } from '../../core/hardware/index.js';
import type { Vec2 } from '../../core/solid/types.js';
import { type HingeCore, hingeCore, notchSizes, rivetMouth } from '../hinge/core-sizes.js';
import { faceStart, type KnuckleSection } from '../hinge/knuckle-section.js';
import { chooseLeafScrew, type LeafScrew, screwPlaces } from '../hinge/leaf-screws.js';
import type { TurningSizes } from '../hinge/motion-findings.js';
import type { ButtHingeParameters } from './parameters.js';

/** Every size of a butt hinge, finished, mm. */
export interface ButtHingeSizes extends HingeCore {
  readonly length: number;
  readonly section: KnuckleSection;
  /** Axis to the floor of the notches. */
  readonly notchFloor: number;
  readonly notchRadius: number;
  /** Mouth of the countersink for a riveted end, 0 for none. */
  readonly rivetMouth: number;
  readonly screw: LeafScrew;
  readonly screwsAt: readonly Vec2[];
}

/** Both leaves are alike as they turn. */
export const turningOf = (s: ButtHingeSizes): TurningSizes => ({
  sections: [s.section, s.section],
  notchFloor: s.notchFloor,
  notchRadius: s.notchRadius,
  gap: s.row.gap,
});

/** The sizes the parameters stand for; a given one is never changed. */
export function buttHingeSizes(p: ButtHingeParameters): ButtHingeSizes {
  const core = hingeCore({ ...p, rowLength: p.size, usualThickness: leafThickness(p.size) });
  const { thickness, barrelRadius, closedGap } = core;
  const length = p.size;
  const edge = p.edge ?? Math.min(thickness / 3, Math.max(0.5, nearStep(p.series, thickness / 6)));
  const fillet = p.fillet ?? Math.max(1.5, nearStep(p.series, thickness / 2));
  const section: KnuckleSection = {
    barrelRadius,
    faceDrop: closedGap / 2,
    backDrop: Math.min(barrelRadius, closedGap / 2 + thickness),
    reach: (p.openWidth ?? length) / 2,
    fillet,
    backFillet: fillet,
    edge,
  };
  const notch = notchSizes(p);
  const notchFloor = barrelRadius + notch.leafGap;
  const count = p.screws ?? leafScrews(length);
  const flat = {
    from: Math.max(notchFloor, faceStart(section) || 0),
    to: section.reach,
    length,
  };
  const screw = chooseLeafScrew(p.screw, p.series, { thickness, width: flat.to - flat.from, length }, count);
  return {
    ...core,
    length,
    section,
    notchFloor,
    notchRadius: notch.notchRadius,
    rivetMouth: rivetMouth(p.pinEnds, core),
    screw,
    screwsAt: screwPlaces(screw, flat, count),
  };
}
