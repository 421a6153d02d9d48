import { maths } from '../maths/maths.js';
import type { Finding } from '../part/finding.js';
import { stop } from '../part/finding.js';
import { type BacklashSizes, backlashSizes } from './backlash.js';
import { type LineContact, lineContact, specificSliding } from './contact.js';
import { externalFlankTable, type FlankTable } from './flank-table.js';
import { gearGeometry, minimumProfileShift, tipThickness } from './gear-geometry.js';
import {
  centreDistance,
  overlapRatio,
  pathOfContact,
  referenceCentreDistance,
  workingDiameters,
} from './pair.js';
import { judgePair } from './pair-findings.js';
import type { GearSpec } from './spec.js';
import { tipGap } from './tip-path.js';
import { toothForm } from './tooth-form.js';

export interface PairOptions {
  /** mm; by default where the gears' own thickness, without thinning, meshes free of backlash. */
  readonly centreDistance?: number;
  /** Face width in mesh, mm; of one half of a double-helical gear. Without it the overlap ratio is not known. */
  readonly faceWidth?: number;
  /** Tip roundings as made, mm. */
  readonly tipRounding?: readonly [gear: number, mate: number];
}

/** What the pair asks of one of its gears. Lengths mm, diameters in the transverse section. */
export interface PairMember {
  readonly tipDiameter: number;
  readonly rootDiameter: number;
  readonly workingDiameter: number;
  /** d_Ff: the involute starts here, from the exact tooth form. */
  readonly formDiameter: number;
  /** d_Nf: the lowest point of the flank that touches the mate. */
  readonly activeRootDiameter: number;
  /** d_Na: the highest. */
  readonly activeTipDiameter: number;
  /** s_an in the normal section, before any tip rounding. */
  readonly tipThickness: number;
  readonly undercut: boolean;
  /** x_min; at or above it the rack does not undercut. */
  readonly minimumProfileShift: number;
  /** Specific sliding where contact is nearest the root and nearest the tip; −Infinity at the base circle. */
  readonly slidingAtRoot: number;
  readonly slidingAtTip: number;
  /** From this gear's tip circle to the mate's root circle. */
  readonly tipClearance: number;
  /** How far the mate's tip reaches below the start of this involute along the line of action; ≤ 0 is right. */
  readonly belowInvolute: number;
  /** Least gap between the mate's tip and this tooth as they run, flank and fillet; below 0 they cut into each other. */
  readonly tipGap: number;
}

export interface PairFacts {
  readonly centreDistance: number;
  readonly referenceCentreDistance: number;
  /** α_wt, rad. */
  readonly workingPressureAngle: number;
  /** ε_α of the flanks there really are: between the tips, and not below the start of either involute. */
  readonly contactRatio: number;
  /** ε_α between the tip circles, as handbooks reckon it. */
  readonly nominalContactRatio: number;
  /** ε_β; null without a face width on helical teeth, 0 for spur gears. */
  readonly overlapRatio: number | null;
  /** ε_γ = ε_α + ε_β. */
  readonly totalContactRatio: number | null;
  /** g_α, mm. */
  readonly pathLength: number;
  readonly backlash: BacklashSizes;
  readonly gear: PairMember;
  readonly mate: PairMember;
}

export interface PairCheck {
  /** Null when the pair cannot be reckoned at all; the findings say why. */
  readonly facts: PairFacts | null;
  readonly findings: readonly Finding[];
}

/** Checks an external pair of gears in full, on the exact teeth that the rack cuts. Never throws for legal gears. */
export function checkPair(gear: GearSpec, mate: GearSpec, options: PairOptions = {}): PairCheck {
  const mismatch = matesFinding(gear, mate);
  if (mismatch) return { facts: null, findings: [mismatch] };
  const [roundGear, roundMate] = options.tipRounding ?? [0, 0];
  const forms = [
    toothForm(gear, { tipRounding: roundGear }),
    toothForm(mate, { tipRounding: roundMate }),
  ] as const;
  const [gearForm, mateForm] = forms;
  if (!gearForm.ok || !mateForm.ok) {
    const refused = forms.flatMap((form, i) =>
      form.ok ? [] : form.findings.map((f) => ({ ...f, message: `Gear ${i + 1}: ${f.message}` })),
    );
    return { facts: null, findings: refused };
  }
  const distance = options.centreDistance ?? ownCentreDistance(gear, mate);
  const least = referenceCentreDistance(gear, mate) * maths.cos(gearGeometry(gear).transversePressureAngle);
  if (distance === null || !(distance > least))
    return { facts: null, findings: [baseFinding(distance, least)] };

  const alphaWt = maths.acos(least / distance);
  const tables = [externalFlankTable(gearForm.form), externalFlankTable(mateForm.form)] as const;
  const contact = lineContact(...tables, distance, alphaWt);
  const basePitch = gearGeometry(gear).transverseBasePitch;
  const contactRatio = contact.length / basePitch;
  const overlap =
    gear.helixAngle === 0
      ? 0
      : options.faceWidth === undefined
        ? null
        : overlapRatio(gear, options.faceWidth);
  const facts: PairFacts = {
    centreDistance: distance,
    referenceCentreDistance: referenceCentreDistance(gear, mate),
    workingPressureAngle: alphaWt,
    contactRatio,
    nominalContactRatio: pathOfContact(gear, mate, distance).nominalLength / basePitch,
    overlapRatio: overlap,
    totalContactRatio: overlap === null ? null : contactRatio + overlap,
    pathLength: contact.length,
    backlash: backlashSizes(gear, mate, distance),
    gear: memberFacts([gear, mate], tables, contact, distance, alphaWt),
    mate: memberFacts([mate, gear], [tables[1], tables[0]], reversed(contact), distance, alphaWt),
  };
  return { facts, findings: judgePair(gear, mate, facts) };
}

/** The same line of action seen from the mate. */
const reversed = (c: LineContact): LineContact => ({
  ...c,
  from: c.tangentDistance - c.to,
  to: c.tangentDistance - c.from,
  belowGearInvolute: c.belowMateInvolute,
  belowMateInvolute: c.belowGearInvolute,
});

function memberFacts(
  [own, other]: readonly [GearSpec, GearSpec],
  [ownTable, otherTable]: readonly [FlankTable, FlankTable],
  contact: LineContact,
  distance: number,
  alphaWt: number,
): PairMember {
  const g = gearGeometry(own);
  const sliding = (rho: number) =>
    specificSliding(rho, contact.tangentDistance - rho, own.teeth, other.teeth);
  const diameterAt = (rho: number) => 2 * maths.hypot(ownTable.baseRadius, rho);
  return {
    tipDiameter: g.tipDiameter,
    rootDiameter: 2 * ownTable.rootRadius,
    workingDiameter: workingDiameters(own, other, distance)[0],
    formDiameter: diameterAt(ownTable.lowCurvature),
    activeRootDiameter: diameterAt(contact.from),
    activeTipDiameter: diameterAt(contact.to),
    tipThickness: tipThickness(own),
    undercut: own.profileShift < minimumProfileShift(own) - 1e-9,
    minimumProfileShift: minimumProfileShift(own),
    slidingAtRoot: sliding(contact.from),
    slidingAtTip: sliding(contact.to),
    tipClearance: distance - ownTable.tipRadius - otherTable.rootRadius,
    belowInvolute: contact.belowGearInvolute,
    tipGap: tipGap(ownTable, otherTable, distance, alphaWt),
  };
}

/** Null when the shift sum is so low that no mesh exists. */
function ownCentreDistance(gear: GearSpec, mate: GearSpec): number | null {
  try {
    return centreDistance(gear, mate);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

function matesFinding(gear: GearSpec, mate: GearSpec): Finding | null {
  const shared = [
    ['normalModule', 'module', 'mm', 1],
    ['normalPressureAngle', 'pressure angle', '°', 180 / Math.PI],
    ['helixAngle', 'helix angle', '°', 180 / Math.PI],
  ] as const;
  for (const [key, name, unit, scale] of shared) {
    if (Math.abs(gear[key] - mate[key]) <= 1e-9) continue;
    const [a, b] = [gear[key], mate[key]].map((v) => `${Number((v * scale).toFixed(4))} ${unit}`);
    return stop(
      'not-mates',
      `The ${name} is ${a} on one gear and ${b} on the other.`,
      `Give both the same ${name}; a helical pair has one left and one right hand.`,
      key,
    );
  }
  return null;
}

const baseFinding = (distance: number | null, least: number): Finding =>
  distance === null
    ? stop(
        'no-mesh',
        'The profile shifts are so negative that the teeth mesh at no centre distance.',
        'Use a larger sum of profile shifts.',
        'profileShift',
      )
    : stop(
        'base-circles-overlap',
        `The centre distance ${Number(distance.toFixed(3))} mm leaves no line of action; these base circles need more than ${Number(least.toFixed(3))} mm.`,
        'Use a larger centre distance, fewer teeth or a smaller module.',
        'centreDistance',
      );
