/** Moments, shears and stresses of plain beams, arches, rings, lugs and pins. N, mm, MPa. */
import { maths } from '../maths/maths.js';
import { curvedBarFactors, type Section } from './sections.js';

/** Largest moment N·mm and shear N of a beam. */
export interface BeamLoad {
  readonly moment: number;
  readonly shear: number;
}

/** Built in at one end, the force at `arm` from it (Gere; Machinery's Handbook, from memory, as those below). */
export const cantilever = (force: number, arm: number): BeamLoad => ({ moment: force * arm, shear: force });

/** Built in at one end, `force` in all spread evenly over `length`. */
export const cantileverSpread = (force: number, length: number): BeamLoad => ({
  moment: (force * length) / 2,
  shear: force,
});

/** On two supports, force in the middle: F l / 4. */
export const supportedMiddle = (force: number, span: number): BeamLoad => ({
  moment: (force * span) / 4,
  shear: force / 2,
});

/** On two supports, `force` in all spread over the middle `spread` of the span: F (2 l − s) / 8. */
export const supportedSpread = (force: number, span: number, spread = span): BeamLoad => ({
  moment: (force * (2 * span - spread)) / 8,
  shear: force / 2,
});

/** On two supports, force at `a` from one of them: F a (l − a) / l. */
export const supportedAt = (force: number, span: number, a: number): BeamLoad => ({
  moment: (force * a * (span - a)) / span,
  shear: (force * Math.max(a, span - a)) / span,
});

/** Both ends built in, force in the middle: F l / 8 at ends and middle. */
export const fixedMiddle = (force: number, span: number): BeamLoad => ({
  moment: (force * span) / 8,
  shear: force / 2,
});

/** σ = M / Z, MPa. */
export const bendingStress = (load: Pick<BeamLoad, 'moment'>, section: Pick<Section, 'modulus'>): number =>
  load.moment / section.modulus;

/** Largest shear stress, MPa: the section's factor times V / A. */
export const shearStress = (
  load: Pick<BeamLoad, 'shear'>,
  section: Pick<Section, 'area' | 'shearFactor'>,
): number => (section.shearFactor * load.shear) / section.area;

/** √(σ² + 3 τ²), MPa: bending or tension with shear at one place (von Mises). */
export const combinedStress = (normal: number, shear: number): number =>
  Math.sqrt(normal ** 2 + 3 * shear ** 2);

/**
 * Arched grip of a pull as a bar on two feet, pulled in the middle over `spread` mm: the feet hold only against
 * rising, which overrates the middle and so is safe; the grip's curvature raises its inner side's stress.
 * @param radius of the grip's centre line, mm; left out for a straight bar
 */
export function archedGripStress(
  force: number,
  span: number,
  spread: number,
  section: Section,
  curve?: { readonly shape: 'rectangle' | 'ellipse'; readonly height: number; readonly radius: number },
): number {
  const straight = bendingStress(supportedSpread(force, span, Math.min(spread, span)), section);
  if (curve === undefined) return straight;
  const { inside, outside } = curvedBarFactors(curve.shape, curve.height, curve.radius);
  return straight * Math.max(inside, outside, 1);
}

/**
 * Closed ring pulled apart at two opposite places: moments F R/π under the loads and F R (1/2 − 1/π) at the sides,
 * where F/2 pulls too (Timoshenko, Strength of Materials, thin ring; Roark, table 17, case 1; from memory).
 * @param radius of the centre line, mm
 */
export function ringStress(
  force: number,
  radius: number,
  section: Section,
  curve: { readonly shape: 'rectangle' | 'ellipse'; readonly height: number },
): { readonly underLoad: number; readonly side: number } {
  const { inside, outside } = curvedBarFactors(curve.shape, curve.height, radius);
  const factor = Math.max(inside, outside);
  return {
    underLoad: (factor * ((force * radius) / Math.PI)) / section.modulus,
    side: (factor * (force * radius * (1 / 2 - 1 / Math.PI))) / section.modulus + force / (2 * section.area),
  };
}

/** A plate with a pin through it, pulled away from its root. mm. */
export interface Lug {
  /** Plate's width across the pull, at the hole. */
  readonly width: number;
  readonly thickness: number;
  readonly holeDiameter: number;
  readonly pinDiameter: number;
  /** Hole's centre to the edge it is pulled towards. */
  readonly edge: number;
}

/**
 * Stresses of a lug: net tension F/((w − d) t), shear-out along two planes F/(2 (e − d/2) t), bearing F/(d_p t).
 * Plain averages as in textbooks of machine elements (Shigley, 8-12; from memory): no stress concentration. A lug
 * with no metal left has an infinite stress.
 */
export function lugStresses(force: number, lug: Lug) {
  const { width, thickness, holeDiameter, pinDiameter, edge } = lug;
  const over = (area: number): number => (area > 0 ? force / area : Number.POSITIVE_INFINITY);
  return {
    netTension: over((width - holeDiameter) * thickness),
    shearOut: over(2 * (edge - holeDiameter / 2) * thickness),
    bearing: over(pinDiameter * thickness),
  };
}

/** Average shear stress of a round pin cut at `planes` places: F / (n π d²/4), MPa. */
export const pinShear = (force: number, diameter: number, planes: number): number =>
  force / (planes * (Math.PI / 4) * diameter ** 2);

/**
 * Bending of a pin in a fork: the middle lug `inner` thick, the outer ones `outer` thick, a gap beside it. The pin is
 * taken as resting at the middle of each lug: M = F/2 (outer/2 + gap + inner/4) (Shigley, clevis pin; from memory).
 */
export const pinBending = (force: number, diameter: number, inner: number, outer: number, gap = 0): number =>
  bendingOfRound((force / 2) * (outer / 2 + gap + inner / 4), diameter);

const bendingOfRound = (moment: number, diameter: number): number =>
  (32 * moment) / (Math.PI * maths.pow(diameter, 3));
