import { maths } from '../maths/maths.js';
import { type Finding, note, stop } from '../part/finding.js';
import { internalContact, specificSliding } from './contact.js';
import { externalFlankTable, type FlankTable, internalFlankTable } from './flank-table.js';
import { gearGeometry, minimumProfileShift, tipThickness } from './gear-geometry.js';
import {
  internalBacklash,
  internalCentreDistance,
  internalPressureAngleAt,
  internalReferenceDistance,
  internalTipThickness,
} from './internal.js';
import { type InternalGearSpec, internalForm, usualCutterTeeth } from './internal-form.js';
import { inv } from './involute.js';
import {
  judgeClearance,
  judgePinionFoot,
  judgePlay,
  judgeRatio,
  judgeTip,
  judgeUndercut,
  mm,
} from './mesh-findings.js';
import { overlapRatio } from './pair.js';
import { pairLimits } from './pair-findings.js';
import type { GearSpec } from './spec.js';
import { leastOver } from './tip-path.js';
import { toothForm } from './tooth-form.js';

export interface InternalPairOptions {
  /** mm; the pair's own by default. */
  readonly centreDistance?: number;
  /** Teeth of the pinion cutter that generates the ring. */
  readonly cutterTeeth?: number;
  readonly faceWidth?: number;
}

/** Lengths mm, angles rad. */
export interface InternalPairFacts {
  readonly centreDistance: number;
  readonly referenceCentreDistance: number;
  readonly workingPressureAngle: number;
  /** ε_α of the flanks there are: between the tips, and no further than both involutes reach. */
  readonly contactRatio: number;
  readonly overlapRatio: number | null;
  readonly backlash: { readonly circumferential: number; readonly normal: number };
  /** Specific sliding where contact is nearest the pinion's root and tip: on the pinion, on the ring. */
  readonly pinionSliding: readonly [root: number, tip: number];
  readonly ringSliding: readonly [tip: number, root: number];
  /** Pinion tip to ring root, ring tip to pinion root. */
  readonly pinionTipClearance: number;
  readonly ringTipClearance: number;
  /** How far the ring's tip reaches below the start of the pinion's involute along the line of action; ≤ 0 is right. */
  readonly belowPinionInvolute: number;
  /** How far the pinion's tip reaches past the end of the ring's involute into its fillet; ≤ 0 is right. */
  readonly beyondRingInvolute: number;
  /** Least gap between the ring's tip corner and the pinion's tooth, and the pinion's and the ring's, as they run. */
  readonly ringTipGap: number;
  readonly pinionTipGap: number;
  /** Least room at the ring's tips when the pinion is moved in along a radius; below 0 it must be slid in endwise. */
  readonly radialRoom: number;
}

export interface InternalPairCheck {
  readonly facts: InternalPairFacts | null;
  readonly findings: readonly Finding[];
}

/** Checks a pinion in a ring on their exact teeth. Never throws for gears that share module and angles. */
export function checkInternalPair(
  pinion: GearSpec,
  ring: InternalGearSpec,
  options: InternalPairOptions = {},
): InternalPairCheck {
  const wrong = notMates(pinion, ring);
  if (wrong) return { facts: null, findings: [wrong] };
  const pinionForm = toothForm(pinion);
  const ringForm = internalForm(ring, options.cutterTeeth ?? usualCutterTeeth(ring.teeth));
  if (!pinionForm.ok || !ringForm.ok) {
    const findings = [
      ...(pinionForm.ok ? [] : pinionForm.findings.map((f) => ({ ...f, message: `Pinion: ${f.message}` }))),
      ...(ringForm.ok ? [] : ringForm.findings.map((f) => ({ ...f, message: `Ring: ${f.message}` }))),
    ];
    return { facts: null, findings };
  }
  let distance: number;
  let alphaWt: number;
  try {
    distance = options.centreDistance ?? internalCentreDistance(pinion, ring);
    alphaWt = internalPressureAngleAt(pinion, ring, distance);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const finding = stop(
      'no-mesh',
      error.message,
      'Use a smaller sum of profile shifts or a larger centre distance.',
      'profileShift',
      'centreDistance',
    );
    return { facts: null, findings: [finding] };
  }

  const [p, r] = [externalFlankTable(pinionForm.form), internalFlankTable(ringForm.space)];
  const { tangentDistance: whole, from, to } = internalContact(p, r, distance, alphaWt);
  const onPinion = (rho: number) => specificSliding(rho, rho + whole, pinion.teeth, ring.teeth);
  const onRing = (rho: number) => specificSliding(rho + whole, rho, ring.teeth, pinion.teeth);
  const gaps = tipGaps(p, r, distance, alphaWt);
  const facts: InternalPairFacts = {
    centreDistance: distance,
    referenceCentreDistance: internalReferenceDistance(pinion, ring),
    workingPressureAngle: alphaWt,
    contactRatio: Math.max(0, to - from) / gearGeometry(pinion).transverseBasePitch,
    overlapRatio:
      pinion.helixAngle === 0
        ? 0
        : options.faceWidth === undefined
          ? null
          : overlapRatio(pinion, options.faceWidth),
    backlash: internalBacklash(pinion, ring, distance),
    pinionSliding: [onPinion(from), onPinion(to)],
    ringSliding: [onRing(from), onRing(to)],
    pinionTipClearance: r.tipRadius - distance - p.tipRadius,
    ringTipClearance: r.rootRadius - distance - p.rootRadius,
    belowPinionInvolute: p.lowCurvature - (r.lowCurvature - whole),
    beyondRingInvolute: p.highCurvature + whole - r.highCurvature,
    ...gaps,
  };
  return { facts, findings: [...ringForm.findings, ...judge(pinion, ring, facts)] };
}

/**
 * The tip corners carried round their axes, the flanks touching: ring axis at the origin, pinion axis at
 * (a, 0), pitch point beyond it on +X, both turning the same way.
 */
function tipGaps(
  pinion: FlankTable,
  ring: FlankTable,
  distance: number,
  alphaWt: number,
): Pick<InternalPairFacts, 'ringTipGap' | 'pinionTipGap' | 'radialRoom'> {
  const ratio = pinion.teeth / ring.teeth;
  const pinionMiddle = inv(alphaWt) - pinion.baseHalfAngle;
  const spaceMiddle = inv(alphaWt) - ring.baseHalfAngle;
  const [pinionRadius, pinionHalf] = pinion.tip.at(-1) as readonly [number, number];
  const [ringRadius, ringHalf] = ring.tip[0] as readonly [number, number];
  const pinionCorner = (turn: number): [number, number] => {
    const angle = pinionMiddle + pinionHalf + turn;
    return [distance + pinionRadius * maths.cos(angle), pinionRadius * maths.sin(angle)];
  };
  const ringCorner = (turn: number): [number, number] => {
    const angle = spaceMiddle + ringHalf + turn * ratio;
    return [ringRadius * maths.cos(angle), ringRadius * maths.sin(angle)];
  };
  const inSpace = (turn: number): number => {
    const [x, y] = pinionCorner(turn);
    const radius = maths.hypot(x, y);
    const profile = ring.at(radius);
    if (profile === undefined) return Number.POSITIVE_INFINITY;
    return (profile.angle - (maths.atan2(y, x) - spaceMiddle - turn * ratio)) * radius * profile.share;
  };
  const onTooth = (turn: number): number => {
    const [x, y] = ringCorner(turn);
    const radius = maths.hypot(x - distance, y);
    const profile = pinion.at(radius);
    if (profile === undefined) return Number.POSITIVE_INFINITY;
    return (maths.atan2(y, x - distance) - pinionMiddle - turn - profile.angle) * radius * profile.share;
  };
  // Well past the turns at which the tips leave each other on either side.
  const reach = Math.min(
    Math.PI,
    3 * maths.acos(Math.max(-1, Math.min(1, meeting(pinionRadius, ringRadius, distance)))) + 0.2,
  );
  // Moved along the radius a corner keeps its height over it; it may be no higher than the corner it passes.
  const room = (turn: number): number => ringCorner(turn)[1] - pinionCorner(turn)[1];
  return {
    pinionTipGap: leastOver(inSpace, -reach, reach, 400).value,
    ringTipGap: leastOver(onTooth, -reach, reach, 400).value,
    radialRoom: leastOver(room, 0, Math.PI / 2 - (pinionMiddle + pinionHalf), 200).value,
  };
}

/** Cosine of the pinion's turn, seen from its axis, at which its tip circle meets the ring's. */
const meeting = (pinionTip: number, ringTip: number, distance: number): number =>
  (ringTip ** 2 - distance ** 2 - pinionTip ** 2) / (2 * distance * pinionTip);

function notMates(pinion: GearSpec, ring: InternalGearSpec): Finding | null {
  const apart = (['normalModule', 'normalPressureAngle', 'helixAngle'] as const).find(
    (key) => Math.abs(pinion[key] - ring[key]) > 1e-9,
  );
  if (apart) {
    return stop(
      'not-mates',
      'Pinion and ring differ in module, pressure angle or helix angle.',
      'Give both the same; an internal helical pair has the same hand on both.',
      apart,
    );
  }
  if (ring.teeth > pinion.teeth) return null;
  return stop(
    'ring-too-small',
    `The ring has ${ring.teeth} teeth, the pinion ${pinion.teeth}.`,
    'Give the ring more teeth than the pinion, usually at least 8 to 10 more.',
    'teeth',
  );
}

function judge(pinion: GearSpec, ring: InternalGearSpec, facts: InternalPairFacts): readonly Finding[] {
  const m = pinion.normalModule;
  const findings = [
    ...judgeRatio(facts.contactRatio + (facts.overlapRatio ?? 0)),
    ...judgePlay(facts.backlash.circumferential, 'bring the axes closer together'),
    ...judgeClearance(facts.pinionTipClearance, m, 'The pinion’s tips', 'the ring’s root'),
    ...judgeClearance(facts.ringTipClearance, m, 'The ring’s tips', 'the pinion’s root'),
    ...judgePinionFoot(
      'internal-involute-interference',
      'The ring’s tips',
      facts.ringTipGap,
      facts.belowPinionInvolute,
      m,
    ),
    ...judgeTip(tipThickness(pinion), m, 'The pinion’s teeth'),
    ...judgeTip(internalTipThickness(ring), m, 'The ring’s teeth'),
    ...judgeUndercut(pinion.profileShift, minimumProfileShift(pinion)),
  ];
  if (facts.pinionTipGap < -pairLimits.overlap) {
    const intoFillet = facts.beyondRingInvolute > 0;
    findings.push(
      stop(
        intoFillet ? 'tip-fillet-interference' : 'internal-fouling',
        intoFillet
          ? `The pinion’s tips cut ${mm(-facts.pinionTipGap)} into the ring’s fillets.`
          : `The pinion’s tips foul the ring’s by ${mm(-facts.pinionTipGap)} as they run in and out of mesh: too few teeth between them.`,
        intoFillet
          ? 'Shorten the pinion’s tips or use a smaller root radius on the ring.'
          : 'Use more teeth of difference, shorter tips, or a larger centre distance with a negative sum of profile shifts.',
        'teeth',
        'addendum',
        intoFillet ? 'rootRadius' : 'profileShift',
      ),
    );
  }
  if (facts.radialRoom < -pairLimits.overlap) {
    findings.push(
      note(
        'no-radial-assembly',
        `The pinion does not go in along a radius: the tips overlap by ${mm(-facts.radialRoom)}.`,
        'Slide it in endwise, or use more teeth of difference.',
        'teeth',
      ),
    );
  }
  return findings;
}
