import { fingerBreadth } from '../../core/hardware/hands.js';
import { leastPinWall, stockRods } from '../../core/hardware/rods.js';
import { nearStep, upStep } from '../../core/hardware/size-steps.js';
import { planOf } from '../hardware/ring-plan.js';
import type { HatchPullParameters } from './parameters.js';

/** Every size of a hatch pull, mm and radians: the given ones, and the others worked out from `size`. */
export interface HatchPullSizes {
  readonly fingers: number;
  /** Clear opening across the pull (along the pin), mm. */
  readonly eyeWidth: number;
  /** Clear opening along the pull, mm. */
  readonly eyeLength: number;
  readonly rimWidth: number;
  readonly thickness: number;
  /** Leg of the 45° bevel on every edge, mm; 0 for sharp edges. */
  readonly bevel: number;
  /** Length of the relieved underside, from the free end towards the eye, mm; 0 for no lip. */
  readonly lipLength: number;
  readonly lipAngle: number;
  readonly tabWidth: number;
  /** Pin axis to the eye's near edge, mm. */
  readonly pinDistance: number;
  /** Pin axis to the tab's end, mm. */
  readonly pinToEnd: number;
  readonly holeDiameter: number;
  readonly filletRadius: number;
}

/** Bevels below this are made as sharp edges, mm: finer than any printed layer. */
export const leastBevel = 0.05;

/** A lip shorter than this is none, mm: no finger finds it. */
export const leastLip = 0.5;

/** Two fingers ask for 65 mm where one asks for 32 mm. */
const twoFingerWidth = fingerBreadth.two / fingerBreadth.comfortable;

/** The sizes the parameters stand for; a given one is never changed. */
export function hatchPullSizes(p: HatchPullParameters): HatchPullSizes {
  const near = (value: number): number => nearStep(p.series, value);
  const up = (value: number): number => upStep(p.series, value);

  const eyeLength = p.eyeLength ?? p.size;
  const eyeWidth = p.eyeWidth ?? (p.fingers === 2 ? near(p.size * twoFingerWidth) : p.size);
  const thickness = p.thickness ?? near(3 + 0.2 * p.size);
  const rimWidth = p.rimWidth ?? thickness;
  const givenBevel = p.bevel ?? near(0.22 * Math.min(thickness, rimWidth));
  const bevel = givenBevel < leastBevel ? 0 : givenBevel;
  const filletRadius = p.filletRadius ?? near(thickness / 2);
  const tabWidth = p.tabWidth ?? near(p.size * (p.fingers === 2 ? 0.8 : 0.7));
  const holeDiameter = (p.pinDiameter ?? rodFor(p, thickness)) + p.pinClearance;
  const pinToEnd =
    p.pinToEnd ?? up(Math.max(thickness / 2, holeDiameter / 2 + leastPinWall(holeDiameter) + 0.5));
  const plan = planOf({ eyeWidth, eyeLength, rimWidth, tabWidth, filletRadius });
  // Behind rim and fillets, with a neck long enough for a gate between hole and eye.
  const pinDistance =
    p.pinDistance ??
    up(
      Math.max(plan.filletX, plan.halfX + plan.outer) +
        holeDiameter / 2 +
        p.size / 10 -
        plan.halfX -
        plan.inner,
    );
  return {
    fingers: p.fingers,
    eyeWidth,
    eyeLength,
    rimWidth,
    thickness,
    bevel,
    lipLength:
      (p.lipLength ?? leastLip) < leastLip
        ? 0
        : (p.lipLength ?? lipFor(p.lipAngle, rimWidth, thickness, bevel)),
    lipAngle: p.lipAngle,
    tabWidth,
    pinDistance,
    pinToEnd,
    holeDiameter,
    filletRadius,
  };
}

/** Longest lip that stays off the eye's bevel and leaves 0.6 of the thickness, and room for bevels, at its end. */
function lipFor(lipAngle: number, rimWidth: number, thickness: number, bevel: number): number {
  const depth = Math.min(0.4 * thickness, thickness - 2 * bevel - 1);
  const longest = Math.min(rimWidth - bevel - 0.5, depth / Math.tan(lipAngle));
  return longest < leastLip ? 0 : longest;
}

/** The thickest rod that leaves enough metal above and below its hole; the thinnest one if none does. */
function rodFor(p: HatchPullParameters, thickness: number): number {
  const fitting = stockRods[p.series].filter((rod) => {
    const hole = rod + p.pinClearance;
    return (thickness - hole) / 2 >= leastPinWall(hole);
  });
  return fitting.at(-1) ?? stockRods[p.series][0]!;
}
