/** What hinges, gudgeons and pintles bear. mm, g, N, MPa. */
import { maths } from '../maths/maths.js';
import { bendingStress, combinedStress, pinBending, pinShear } from './beams.js';
import { gravity } from './hands.js';
import { type Allowables, type MemberCheck, stressCheck } from './load-check.js';
import { rectangleSection } from './sections.js';

export interface DoorLoad {
  /** g */
  readonly mass: number;
  readonly width: number;
  /** Between the top and the bottom hinge, mm. */
  readonly spacing: number;
  readonly hinges: number;
  /** Extra weight at the latch edge, N: someone leaning on it. */
  readonly edgeForce?: number;
}

/** What the top hinge bears. */
export interface HingeReaction {
  /** Weight, N, were it shared evenly, and all of it on one hinge, as where they are not fitted alike. */
  readonly vertical: number;
  readonly verticalAlone: number;
  /** Pull away from the post, N: W (w/2) / spacing, the couple that keeps the door from falling. */
  readonly horizontal: number;
  /** √(horizontal² + verticalAlone²), N: what to size one hinge for. */
  readonly design: number;
}

/** By statics alone: the door's weight acts at half its width. */
export function doorReaction(door: DoorLoad): HingeReaction {
  const weight = (door.mass / 1000) * gravity;
  const edge = door.edgeForce ?? 0;
  const horizontal = (weight * (door.width / 2) + edge * door.width) / door.spacing;
  const verticalAlone = weight + edge;
  return {
    vertical: verticalAlone / door.hinges,
    verticalAlone,
    horizontal,
    design: maths.hypot(horizontal, verticalAlone),
  };
}

/**
 * Force on each hinge of a chest lid, N: half its weight on the hinges, three times over for the lid that is let
 * fall (common practice, no source).
 */
export const lidReaction = (mass: number, hinges: number, impact = 3): number =>
  (impact * ((mass / 1000) * gravity)) / 2 / hinges;

export interface HingeSizes {
  readonly pinDiameter: number;
  readonly holeDiameter: number;
  readonly knuckleDiameter: number;
  readonly knuckles: number;
  readonly knuckleLength: number;
  readonly knuckleGap: number;
  readonly leafThickness: number;
  /** Pin's axis to the leaf's middle plane, mm; 0 where the leaf runs to the pin's axis. */
  readonly leafOffset: number;
}

/**
 * Pin, knuckles and leaf root under `force` at right angles to the pin. The pin is taken as cut at two planes and bent
 * over three knuckles whatever their number; the leaf with fewer knuckles bears on its (n − 1)/2.
 */
export function hingeMembers(
  force: number,
  hinge: HingeSizes,
  casting: Allowables,
  rod: Allowables,
): readonly MemberCheck[] {
  const { pinDiameter: d, knuckleLength: l, knuckleGap, leafThickness: t } = hinge;
  const bearing = ((hinge.knuckles - 1) / 2) * l;
  const wall = (hinge.knuckleDiameter - hinge.holeDiameter) / 2;
  const root = rectangleSection(bearing, t);
  return [
    stressCheck('pin', 'shear', pinShear(force, d, 2), rod, 'shear'),
    stressCheck('pin', 'bending between the knuckles', pinBending(force, d, l, l, knuckleGap), rod),
    stressCheck('knuckles', 'bearing on the pin', force / (d * bearing), casting, 'bearing'),
    stressCheck('knuckles', 'tension in the wall', force / (2 * wall * bearing), casting),
    stressCheck(
      'leaf',
      'tension and bending where it joins the knuckles',
      force / root.area + bendingStress({ moment: force * hinge.leafOffset }, root),
      casting,
    ),
  ];
}

/**
 * Pull on the screws of a leaf pulled off the wood at its pin, N in all: F (1 + a/b), the leaf heeling on its far
 * edge; `a` from the pin to the screws' line, `b` from there to the far edge.
 */
export const leafScrewPull = (force: number, a: number, b: number): number => force * (1 + a / b);

/** The leaf bent over the screws' line, less its screw holes. */
export const leafBending = (
  force: number,
  a: number,
  leaf: { readonly length: number; readonly thickness: number },
  holes: number,
  casting: Allowables,
): MemberCheck =>
  stressCheck(
    'leaf',
    'bending at the screws',
    bendingStress({ moment: force * a }, rectangleSection(leaf.length - holes, leaf.thickness)),
    casting,
  );

/** 1 knot, mm/s, exact (International Hydrographic Conference, 1929). */
export const knot = 1_852_000 / 3600;

/**
 * Side force of a rudder put hard over, N: C_R = 132 A V² κ₁ κ₂ κ₃, A in m², V in knots (IACS UR S10, from memory):
 * κ₁ = (Λ + 2)/3 with the aspect ratio Λ = h²/A, at most 2; κ₂ 1.1 for a foil or flat plate going ahead; κ₃ 1 outside a
 * propeller's race. Written for ships: on skiffs an estimate, which a wave or the ground exceeds.
 * @param area mm²
 * @param height of the blade, mm
 * @param speed mm/s
 */
export function rudderForce(area: number, height: number, speed: number): number {
  const aspect = Math.min(2, height ** 2 / area);
  return ((132 * area) / 1e6) * (speed / knot) ** 2 * ((aspect + 2) / 3) * 1.1;
}

/**
 * Forces on two pintles, N, by levers: `upper` and `lower` are the heights of their gudgeons, `centre` that of the
 * blade's middle, all from one level, mm. A force below the lower pintle overloads it and turns the upper one's.
 */
export function pintleReactions(force: number, centre: number, upper: number, lower: number) {
  if (!(upper > lower)) throw new RangeError(`upper gudgeon at ${upper} mm; it must be above ${lower} mm`);
  const onUpper = (force * (centre - lower)) / (upper - lower);
  return { upper: onUpper, lower: force - onUpper };
}

/**
 * A pintle that stands from its strap like a stud, and its gudgeon: bending over half the gudgeon and the gap, shear,
 * bearing. Both may be cast: pass the materials.
 */
export function pintleMembers(
  force: number,
  pintle: { readonly diameter: number; readonly gudgeonHeight: number; readonly gap: number },
  pintleMaterial: Allowables,
  gudgeonMaterial: Allowables,
): readonly MemberCheck[] {
  const { diameter, gudgeonHeight, gap } = pintle;
  const bending = (32 * force * (gap + gudgeonHeight / 2)) / (Math.PI * maths.pow(diameter, 3));
  return [
    stressCheck(
      'pintle',
      'bending and shear at its root',
      combinedStress(bending, pinShear(force, diameter, 1)),
      pintleMaterial,
    ),
    stressCheck(
      'gudgeon',
      'bearing on the pintle',
      force / (diameter * gudgeonHeight),
      gudgeonMaterial,
      'bearing',
    ),
  ];
}

/** Usual sizes of rudder fittings by the pintle, mm (common practice, no source). */
export const gudgeonRule = (pintleDiameter: number) => ({
  /** Gudgeon along the pintle. */
  gudgeonHeight: 1.5 * pintleDiameter,
  /** Metal round the hole. */
  wall: Math.max(3, 0.5 * pintleDiameter),
  /** Hole less pintle: looser than a hinge, it must go in under water. */
  clearance: 0.3 + 0.02 * pintleDiameter,
  /** Upper pintle shorter than the lower by this, so that they enter one after the other. */
  pintleStep: pintleDiameter,
  pintleLength: 2.2 * pintleDiameter,
  strapThickness: Math.max(3, 0.35 * pintleDiameter),
  strapWidth: Math.max(15, 2 * pintleDiameter),
});
