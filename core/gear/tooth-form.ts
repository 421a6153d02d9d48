import { maths } from '../maths/maths.js';
import { type Finding, stop } from '../part/finding.js';
import type { PlaneCurve } from '../solid/sample-curve.js';
import { maxRootRadius } from './basic-rack.js';
import {
  cartesian,
  filletPoint,
  flankPoint,
  rollAtRadius,
  type TransverseRack,
  transverseRack,
} from './rack-envelope.js';
import type { GearSpec } from './spec.js';
import { roundTip, type Tip } from './tip-rounding.js';

/** Offsets and easing applied to the exact tooth, mm, each ≥ 0. */
export interface ToothOptions {
  /** Normal stock on flank, fillet and root. */
  readonly flankStock?: number;
  /** Radial stock on the tip cylinder. */
  readonly tipStock?: number;
  /** Radius of the rounding between flank and tip cylinder in the transverse section; 0 leaves them sharp. */
  readonly tipRounding?: number;
}

/** The exact transverse tooth: half of it as smooth curves from the tip land down to the root, tooth centred on +X. */
export interface ToothForm {
  readonly teeth: number;
  readonly rack: TransverseRack;
  /** mm */
  readonly tipRadius: number;
  readonly rootRadius: number;
  /** Half angle of the tip land, rad. */
  readonly tipHalfAngle: number;
  /** Where the fillet meets the root cylinder, rad from the tooth's middle. */
  readonly rootAngle: number;
  /** Radius of the lowest point of the involute, mm. */
  readonly formRadius: number;
  readonly undercut: boolean;
  /** Tip rounding as made: the one asked for or the largest that fits, mm. */
  readonly tipRounding: number;
  /** Tip rounding (when there is one), flank, fillet: each from high to low on the +angle side. */
  readonly curves: readonly PlaneCurve[];
}

export type ToothFormResult =
  | { readonly ok: true; readonly form: ToothForm }
  | { readonly ok: false; readonly findings: readonly Finding[] };

const refused = (...findings: Finding[]): ToothFormResult => ({ ok: false, findings });
const mm = (value: number): string => `${Number(value.toFixed(3))} mm`;

/**
 * The exact tooth that the basic rack cuts, closed form throughout but for the undercut corner, which is
 * solved to 1e-12. Refuses, with findings, teeth that the rack cannot leave: rounding that does not fit the
 * rack's tip, root at or below zero, pointed tip, tooth cut through at its foot.
 */
export function toothForm(spec: GearSpec, options: ToothOptions = {}): ToothFormResult {
  const { flankStock = 0, tipStock = 0, tipRounding = 0 } = options;
  const m = spec.normalModule;
  const rack = transverseRack(spec, flankStock);
  const tipRadius =
    rack.radius + m * (spec.addendum + spec.profileShift) - (spec.tipShortening ?? 0) + tipStock;

  if (rack.tipFlat < -1e-9 * m) {
    const fit = maxRootRadius(spec, spec.thinning / m);
    return refused(
      stop(
        'root-radius-too-large',
        `The root radius factor ${spec.rootRadius} does not fit the rack's tip; at most ${Math.max(0, Math.floor(fit * 1000) / 1000)} fits.`,
        'Use a smaller root radius, dedendum or pressure angle.',
        'rootRadius',
        'dedendum',
        'pressureAngle',
        { rootRadius: Math.max(0, Math.floor(fit * 1000) / 1000) },
      ),
    );
  }
  if (rack.rootRadius < 0.2 * m) {
    return refused(
      stop(
        'root-at-axis',
        `The root circle would have a radius of ${mm(rack.rootRadius)}: the teeth reach the axis.`,
        'Use more teeth or a more positive profile shift.',
        'teeth',
        'profileShift',
      ),
    );
  }
  if (tipRadius <= rack.baseRadius || tipRadius <= rack.rootRadius) {
    return refused(
      stop(
        'no-flank',
        `The tip circle (radius ${mm(tipRadius)}) leaves no involute above the base circle (radius ${mm(rack.baseRadius)}).`,
        'Use a more positive profile shift, a larger addendum or more teeth.',
        'profileShift',
        'teeth',
      ),
    );
  }

  const foot = joinFillet(rack);
  const tip = roundTip(rack, tipRadius, tipRounding, foot.roll);
  const findings = checkTooth(rack, m, tipRadius, tip, foot);
  if (findings.length > 0) return { ok: false, findings };

  const flank: PlaneCurve = { from: tip.roll, to: foot.roll, at: (t) => cartesian(flankPoint(rack, t)) };
  const fillet: PlaneCurve = { from: foot.psi, to: Math.PI / 2, at: (t) => cartesian(filletPoint(rack, t)) };
  return {
    ok: true,
    form: {
      teeth: spec.teeth,
      rack,
      tipRadius,
      rootRadius: rack.rootRadius,
      tipHalfAngle: tip.halfAngle,
      rootAngle: filletPoint(rack, Math.PI / 2).angle,
      formRadius: rack.baseRadius * maths.hypot(1, foot.roll),
      undercut: foot.undercut,
      tipRounding: tip.rounding,
      curves: tip.curve ? [tip.curve, flank, fillet] : [flank, fillet],
    },
  };
}

interface Foot {
  /** Roll angle of the flank's lowest point. */
  readonly roll: number;
  /** ψ of the fillet's highest point. */
  readonly psi: number;
  readonly undercut: boolean;
}

/** Where flank and fillet meet: tangentially, or at the corner of the undercut. */
function joinFillet(rack: TransverseRack): Foot {
  if (rack.rollAtRounding >= 0)
    return { roll: rack.rollAtRounding, psi: rack.normalPressureAngle, undercut: false };
  // Above the base circle the trochoid starts inside the involute and ends outside it: one crossing between.
  const excess = (psi: number): number => {
    const p = filletPoint(rack, psi);
    return p.angle - flankPoint(rack, rollAtRadius(rack, p.radius)).angle;
  };
  let outside = rack.normalPressureAngle;
  let inside = psiAtBaseCircle(rack);
  if (excess(inside) >= 0) return { roll: 0, psi: inside, undercut: true };
  for (let i = 0; i < 200 && Math.abs(outside - inside) > 1e-15; i++) {
    const middle = (outside + inside) / 2;
    if (excess(middle) > 0) outside = middle;
    else inside = middle;
  }
  return { roll: rollAtRadius(rack, filletPoint(rack, inside).radius), psi: inside, undercut: true };
}

/** ψ at which the trochoid crosses the base circle, or π/2 when the root lies above it. */
function psiAtBaseCircle(rack: TransverseRack): number {
  let above = rack.normalPressureAngle;
  let below = Math.PI / 2;
  if (filletPoint(rack, below).radius >= rack.baseRadius) return below;
  for (let i = 0; i < 200 && below - above > 1e-15; i++) {
    const middle = (above + below) / 2;
    if (filletPoint(rack, middle).radius >= rack.baseRadius) above = middle;
    else below = middle;
  }
  return above;
}

/** A tooth foot thinner than this many modules is no tooth (common practice, no source). */
const leastFootFactor = 0.15;

function checkTooth(
  rack: TransverseRack,
  normalModule: number,
  tipRadius: number,
  tip: Tip,
  foot: Foot,
): readonly Finding[] {
  const formRadius = rack.baseRadius * maths.hypot(1, foot.roll);
  if (tip.halfAngle < 0 || (tip.rounding === 0 && tip.halfAngle * tipRadius < 1e-3)) {
    return [
      stop(
        'pointed-tooth',
        `The flanks meet below the tip circle: tip thickness would be ${mm(2 * tip.halfAngle * tipRadius)}.`,
        'Use less profile shift, a smaller addendum, a smaller pressure angle or more teeth.',
        'profileShift',
        'addendum',
        'teeth',
      ),
    ];
  }
  if (formRadius >= tipRadius || tip.roll <= foot.roll) {
    return [
      stop(
        'undercut-to-tip',
        'Undercut removes the whole flank.',
        'Use more teeth or a more positive profile shift.',
        'teeth',
        'profileShift',
      ),
    ];
  }
  const footThickness = 2 * leastHalfThickness(rack, foot);
  if (footThickness < leastFootFactor * normalModule) {
    return [
      stop(
        'tooth-cut-through',
        `Undercut leaves a tooth foot ${mm(Math.max(0, footThickness))} thick, less than ${leastFootFactor} modules.`,
        'Use more teeth or a more positive profile shift.',
        'teeth',
        'profileShift',
      ),
    ];
  }
  return [];
}

/** Half the least thickness of the tooth along its fillet, mm. */
function leastHalfThickness(rack: TransverseRack, foot: Foot): number {
  const steps = 64;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= steps; i++) {
    const p = filletPoint(rack, foot.psi + ((Math.PI / 2 - foot.psi) * i) / steps);
    least = Math.min(least, p.angle * p.radius);
  }
  return least;
}
