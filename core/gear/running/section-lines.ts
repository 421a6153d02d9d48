import { maths } from '../../maths/maths.js';
import type { Vec2 } from '../../solid/types.js';
import { curvatureOf, onLineOfAction } from './contacts.js';
import { type RunningPair, turnAt } from './running-pair.js';
import type { FlankSide } from './stand.js';

/** Radii of a member's circles, mm; of a rack heights over its datum line, its pitch line at 0 where it runs as drawn. */
export interface MemberCircles {
  /** x of the centre on the line of centres; of a rack that of its datum line. */
  readonly centre: number;
  /** Null for a rack. */
  readonly base: number | null;
  readonly pitch: number;
  readonly tip: number;
  readonly root: number;
}

export function pairCircles(pair: RunningPair): {
  readonly gear: MemberCircles;
  readonly mate: MemberCircles;
} {
  const { mesh, gearForm, mateForm, pitchRadius } = pair;
  const gear = {
    centre: 0,
    base: pair.baseRadius,
    pitch: pitchRadius,
    tip: gearForm.tipRadius,
    root: gearForm.rootRadius,
  };
  const a = mesh.distance;
  if ('pitch' in mateForm) {
    const { tipHeight: tip, rootHeight: root } = mateForm;
    return { gear, mate: { centre: a, base: null, pitch: a - pitchRadius, tip, root } };
  }
  const base = mateForm.rack.baseRadius;
  return {
    gear,
    mate:
      mesh.kind === 'internal'
        ? // The ring's space has its tip at the ring's root.
          { centre: -a, base, pitch: a + pitchRadius, tip: mateForm.rootRadius, root: mateForm.tipRadius }
        : { centre: a, base, pitch: a - pitchRadius, tip: mateForm.tipRadius, root: mateForm.rootRadius },
  };
}

/** Places on +X where the mate's tip and root cross the line of centres, mm from the gear's axis. */
export function mateOnCentres(
  { mesh }: RunningPair,
  { centre, tip, root }: MemberCircles,
): {
  readonly tip: number;
  readonly root: number;
} {
  const outward = mesh.kind === 'internal' ? 1 : -1;
  return { tip: centre + outward * tip, root: centre + outward * root };
}

/** A size measured between two points, mm. */
export interface SectionSize {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly value: number;
}

export interface SectionSizes {
  /** c_1: the gear's tip to the mate's root; c_2: the mate's tip to the gear's root. Both on the line of centres. */
  readonly gearClearance: SectionSize;
  readonly mateClearance: SectionSize;
  /** j_bt: between the flanks that do not touch, along their common normal; half of it where the teeth stand midway. */
  readonly backlash: SectionSize;
}

/** What is measured in the plane at a height, the gear turned by `angle`, rad. */
export function sectionSizes(pair: RunningPair, angle: number, z: number, side: FlankSide): SectionSizes {
  const { gear, mate } = pairCircles(pair);
  const at = mateOnCentres(pair, mate);
  const along = (from: number, to: number): SectionSize => ({
    from: [from, 0],
    to: [to, 0],
    value: to - from,
  });
  return {
    gearClearance: along(gear.tip, at.root),
    mateClearance: along(gear.root, at.tip),
    backlash: gapBetween(pair, angle + turnAt(pair, z), side),
  };
}

/** The gap of the pair of flanks that is nearest the pitch point. */
function gapBetween(pair: RunningPair, turned: number, side: FlankSide): SectionSize {
  const open: FlankSide = side === 'leading' ? 'trailing' : 'leading';
  const whole = pair.backlash * maths.cos(pair.pressureAngle);
  const value = side === 'midway' ? whole / 2 : whole;
  const atPitchPoint = pair.pitchRadius * maths.sin(pair.pressureAngle) - value / 2;
  const first = curvatureOf(pair, turned, 0, open);
  const curvature = first + pair.basePitch * Math.round((atPitchPoint - first) / pair.basePitch);
  return {
    from: onLineOfAction(pair, curvature, open),
    to: onLineOfAction(pair, curvature + value, open),
    value,
  };
}

/** The line of action from A to E, and on to the base circles' tangent points (a rack has none of its own), mm. */
export function lineOfAction(pair: RunningPair, side: FlankSide) {
  const { path, mesh, pressureAngle, pitchRadius } = pair;
  const whole = mesh.distance * maths.sin(pressureAngle);
  const far = mesh.kind === 'external' ? whole : path.to + 0.3 * (path.to - path.from);
  const at = (curvature: number): Vec2 => onLineOfAction(pair, curvature, side);
  return {
    tangent: [at(0), at(far)] as const,
    /** A and E. */
    path: [at(path.from), at(path.to)] as const,
    pitchPoint: [pitchRadius, 0] as Vec2,
  };
}
