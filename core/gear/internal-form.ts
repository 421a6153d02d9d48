import { maths } from '../maths/maths.js';
import { type Finding, stop, warn } from '../part/finding.js';
import type { PlaneCurve } from '../solid/sample-curve.js';
import { inv, inverseInvolute } from './involute.js';
import { cartesian, flankPoint, rollAtRadius, transverseRack } from './rack-envelope.js';
import type { GearSpec } from './spec.js';
import { roundTip } from './tip-rounding.js';
import type { ToothForm } from './tooth-form.js';

/**
 * An internal gear, with ISO 21771's meaning of the symbols but its tooth number given as a positive number. A
 * positive profile shift moves the datum line towards the tip, that is inwards: thicker teeth, smaller tip diameter.
 * `rootRadius` is the tip rounding of the cutter.
 */
export type InternalGearSpec = GearSpec;

export interface InternalOptions {
  /** Normal stock on flank, fillet and root, mm. */
  readonly flankStock?: number;
  /** Radial stock on the inner (tip) cylinder, mm. */
  readonly tipStock?: number;
}

export type InternalFormResult =
  | {
      readonly ok: true;
      /** The tooth *space* as if it were an external tooth: what is cut out of the ring. */
      readonly space: ToothForm;
      readonly findings: readonly Finding[];
    }
  | { readonly ok: false; readonly findings: readonly Finding[] };

const mm = (value: number): string => `${Number(value.toFixed(3))} mm`;

/** Tips thinner than this many modules are no teeth (common practice, no source). */
const leastTipFactor = 0.05;
/** Fewer teeth than this between gear and cutter and the cutter's tips trim the gear's (20° full depth, from memory). */
const leastDifference = 10;

/** A cutter of half the gear's teeth, as large as cutters usually come and small enough not to trim the tips. */
export const usualCutterTeeth = (teeth: number): number => Math.max(12, Math.min(25, Math.floor(teeth / 2)));

/**
 * Exact transverse form of the space that a pinion-type cutter leaves in an internal gear: involute flanks, the
 * envelope of the cutter's rounded tip corner as fillet, root cylinder. The point where the corner cuts is where its
 * normal, which runs through the rounding's centre, passes the pitch point: closed form in the cutter's turn.
 *
 * Stock shrinks the cutter by its amount along its normals, so the gear's surface moves by it along its own (exact on
 * flank and root; for a helical gear the fillet's rounding is taken in the transverse section).
 * @param cutterTeeth z₀, at least 5, less than the gear's
 */
export function internalForm(
  spec: InternalGearSpec,
  cutterTeeth: number,
  options: InternalOptions = {},
): InternalFormResult {
  const { flankStock = 0, tipStock = 0 } = options;
  const m = spec.normalModule;
  const cosB = maths.cos(spec.helixAngle);
  const { pressureAngle: at, radius, baseRadius } = transverseRack(spec);
  const invAt = inv(at);
  const tipRadius = radius - m * (spec.addendum + spec.profileShift) + (spec.tipShortening ?? 0) - tipStock;
  if (cutterTeeth >= spec.teeth - 4) {
    return refused(
      stop(
        'cutter-too-large',
        `A cutter of ${cutterTeeth} teeth does not turn inside ${spec.teeth}.`,
        'Use fewer cutter teeth.',
        'cutterTeeth',
      ),
    );
  }
  if (tipRadius < baseRadius) {
    return refused(
      stop(
        'internal-tip-below-base',
        `The tip radius ${mm(tipRadius)} lies inside the base circle ${mm(baseRadius)}, where there is no involute.`,
        'Use more teeth, a smaller addendum or a more negative profile shift.',
        'teeth',
        'addendum',
        'profileShift',
      ),
    );
  }

  const tangent = maths.tan(spec.normalPressureAngle);
  const normalStock = (2 * flankStock) / maths.cos(spec.normalPressureAngle);
  const spaceWidth =
    ((Math.PI * m) / 2 - 2 * spec.profileShift * m * tangent + spec.thinning - normalStock) / cosB;
  const space = { baseRadius, baseHalfAngle: spaceWidth / (2 * radius) + invAt };
  const cutterRadius = (radius * cutterTeeth) / spec.teeth;
  const cutter = {
    baseRadius: (baseRadius * cutterTeeth) / spec.teeth,
    baseHalfAngle: ((Math.PI * m) / 2 + spec.thinning - normalStock) / cosB / (2 * cutterRadius) + invAt,
  };
  const cutterTip = cutterRadius + m * spec.dedendum - flankStock;
  const corner = roundTip(cutter, cutterTip, Math.max(0, spec.rootRadius * m - flankStock), 0);
  if (corner.halfAngle < 0) {
    return refused(
      stop(
        'cutter-pointed',
        'The cutter’s teeth come to a point before their tip.',
        'Use a smaller dedendum or more cutter teeth.',
        'dedendum',
        'cutterTeeth',
      ),
    );
  }

  // Without backlash the cutter's tooth fills the gear's space on the working circles.
  const difference = baseRadius - cutter.baseRadius;
  const workingInv =
    (baseRadius * space.baseHalfAngle - cutter.baseRadius * cutter.baseHalfAngle) / difference;
  const working = workingInv >= 0 ? inverseInvolute(workingInv) : null;
  if (working === null) {
    return refused(
      stop(
        'no-cutting-position',
        'There is no distance at which the cutter meshes with this gear.',
        'Use a less negative profile shift, or another cutter.',
        'profileShift',
        'cutterTeeth',
      ),
    );
  }
  const distance = difference / maths.cos(working);
  const pitchPoint = baseRadius / maths.cos(working);
  const outerRoll = (distance * maths.sin(working) + cutter.baseRadius * corner.roll) / baseRadius;
  const innerRoll = rollAtRadius(space, tipRadius);
  if (outerRoll <= innerRoll) {
    return refused(
      stop(
        'no-flank',
        'The fillet uses up the whole flank.',
        'Use a smaller root radius or a larger dedendum.',
        'rootRadius',
        'dedendum',
      ),
    );
  }

  const tipLand = (Math.PI / spec.teeth - flankPoint(space, innerRoll).angle) * tipRadius * 2;
  if (tipLand < leastTipFactor * m) {
    return refused(
      stop(
        'pointed-tooth',
        `The tooth tips would be ${mm(tipLand)} thick.`,
        'Use less thinning, profile shift or addendum.',
        'thinning',
        'profileShift',
        'addendum',
      ),
    );
  }

  // Away from the cutter's body; a short cutter's rounding stays inside its own working circle.
  const outward = corner.centre.radius >= pitchPoint - distance ? 1 : -1;
  const filletAt = (turn: number) => {
    const angle = corner.centre.angle + turn;
    const [cx, cy] = [
      distance + corner.centre.radius * maths.cos(angle),
      corner.centre.radius * maths.sin(angle),
    ];
    const reach = outward * maths.hypot(cx - pitchPoint, cy);
    const [x, y] = [cx + (corner.rounding * (cx - pitchPoint)) / reach, cy + (corner.rounding * cy) / reach];
    const back = (-turn * cutterTeeth) / spec.teeth;
    return [x * maths.cos(back) - y * maths.sin(back), x * maths.sin(back) + y * maths.cos(back)] as const;
  };
  const atRoot = -corner.centre.angle;
  const atFlank = -working - cutter.baseHalfAngle + corner.roll;
  const fillet: PlaneCurve = { from: atRoot, to: atFlank, at: filletAt };
  const [rx, ry] = filletAt(atRoot);
  const flank: PlaneCurve = { from: outerRoll, to: innerRoll, at: (t) => cartesian(flankPoint(space, t)) };
  const findings =
    spec.teeth - cutterTeeth < leastDifference
      ? [
          warn(
            'cutter-trims-tips',
            `Only ${spec.teeth - cutterTeeth} teeth between gear and cutter: the tips may be trimmed.`,
            `Use at most ${spec.teeth - leastDifference} cutter teeth.`,
            'cutterTeeth',
            { cutterTeeth: spec.teeth - leastDifference },
          ),
        ]
      : [];
  return {
    ok: true,
    findings,
    space: {
      teeth: spec.teeth,
      rack: { ...transverseRack(spec), baseHalfAngle: space.baseHalfAngle },
      tipRadius: distance + cutterTip,
      rootRadius: tipRadius,
      tipHalfAngle: maths.atan2(ry, rx),
      rootAngle: flankPoint(space, innerRoll).angle,
      formRadius: baseRadius * maths.hypot(1, outerRoll),
      undercut: false,
      tipRounding: 0,
      curves: [fillet, flank],
    },
  };
}

const refused = (finding: Finding): InternalFormResult => ({ ok: false, findings: [finding] });
