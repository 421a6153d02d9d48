import { fingerBreadth, usualPull } from '../../core/hardware/hands.js';
import { leastPinWall, stockRods } from '../../core/hardware/rods.js';
import { nearStep, upStep } from '../../core/hardware/size-steps.js';
import { maths } from '../../core/maths/maths.js';
import { planOf } from '../hardware/ring-plan.js';
import type { HatchPullParameters } from './parameters.js';
import { edgeRounding, isScrewed, type ScrewedTab, screwedTab } from './screwed-tab.js';

/** Every size of a hatch pull, mm and radians: the given ones, and the others worked out from `size`. */
export interface HatchPullSizes {
  readonly fingers: 1 | 2;
  readonly section: HatchPullParameters['section'];
  readonly tab: HatchPullParameters['tab'];
  /** Clear opening across the pull (along the pin), mm. */
  readonly eyeWidth: number;
  /** Clear opening along the pull, mm. */
  readonly eyeLength: number;
  readonly rimWidth: number;
  readonly thickness: number;
  /** Leg of the 45° bevel on every edge, mm; 0 for sharp edges and on an oval ring. */
  readonly bevel: number;
  /** Length of the relieved underside, from the free end towards the eye, mm; 0 for no lip. */
  readonly lipLength: number;
  readonly lipAngle: number;
  readonly tabWidth: number;
  /** From the underside, mm. */
  readonly tabThickness: number;
  /** Rounding of the tab's edges at its show face, mm; 0 on a bevelled pull. */
  readonly edgeRadius: number;
  /** Radius of the tab's corners in plan, mm: half the width makes a round end. */
  readonly tabCorner: number;
  /** Pin axis to the eye's near edge, mm; of no meaning on a screwed tab, as the two below. */
  readonly pinDistance: number;
  /** Pin axis to the tab's end, mm. */
  readonly pinToEnd: number;
  readonly pinDiameter: number;
  readonly holeDiameter: number;
  /** Screws instead of the pin; null on a hinged tab. */
  readonly screwed: ScrewedTab | null;
  readonly filletRadius: number;
  /** N */
  readonly pull: number;
}

/** Hinged with a lip under a bevelled rim: the form whose bevels meet in plane facets. */
export const isPlain = ({ section, tab }: Pick<HatchPullSizes, 'section' | 'tab'>): boolean =>
  section === 'bevelled' && tab === 'square';

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
  const oval = p.section === 'oval';
  const rimWidth = p.rimWidth ?? (oval ? near(1.2 * thickness) : thickness);
  const givenBevel = p.bevel ?? near(0.22 * Math.min(thickness, rimWidth));
  const bevel = oval || givenBevel < leastBevel ? 0 : givenBevel;
  const filletRadius = p.filletRadius ?? near(thickness / 2);
  const ring = { eyeWidth, eyeLength, rimWidth, filletRadius };
  const screwed = isScrewed(p.tab) ? screwedTab(p, { ...ring, thickness, bevel }) : null;
  const tabThickness = screwed?.thickness ?? (oval ? (p.tabThickness ?? near(0.85 * thickness)) : thickness);
  const tabWidth = screwed?.width ?? p.tabWidth ?? near(p.size * (p.fingers === 2 ? 0.8 : 0.7));
  const edgeRadius = screwed?.edgeRadius ?? (oval ? edgeRounding(tabThickness, rimWidth) : 0);

  const pinDiameter = p.pinDiameter ?? rodFor(p, tabThickness);
  const holeDiameter = pinDiameter + p.pinClearance;
  const holeRoom = holeDiameter / 2 + leastPinWall(holeDiameter) + 0.5;
  const roundEnd = p.tab === 'round' ? tabWidth / 4 + holeDiameter / 2 + 0.5 : 0;
  const pinToEnd = p.pinToEnd ?? up(Math.max(tabThickness / 2, holeRoom, roundEnd));
  const plan = planOf({ ...ring, tabWidth });
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
  // The pin comes out where the tab's sides are straight.
  const straightEnd = Math.max(0.5, pinToEnd - holeDiameter / 2 - 0.3);
  const corner = p.tab === 'round' ? straightEnd : Math.min(0.15 * tabWidth, straightEnd);
  return {
    fingers: p.fingers === 2 ? 2 : 1,
    section: p.section,
    tab: p.tab,
    eyeWidth,
    eyeLength,
    rimWidth,
    thickness,
    bevel,
    lipLength:
      !isPlain(p) || (p.lipLength ?? leastLip) < leastLip
        ? 0
        : (p.lipLength ?? lipFor(p.lipAngle, rimWidth, thickness, bevel)),
    lipAngle: p.lipAngle,
    tabWidth,
    tabThickness,
    edgeRadius,
    tabCorner: screwed?.corner ?? Math.min(tabWidth / 2, Math.max(corner, edgeRadius, bevel)),
    pinDistance,
    pinToEnd,
    pinDiameter,
    holeDiameter,
    screwed,
    filletRadius,
    pull: p.pull ?? usualPull[p.fingers === 2 ? 2 : 1],
  };
}

/** Longest lip that stays off the eye's bevel and leaves 0.6 of the thickness, and room for bevels, at its end. */
function lipFor(lipAngle: number, rimWidth: number, thickness: number, bevel: number): number {
  const depth = Math.min(0.4 * thickness, thickness - 2 * bevel - 1);
  const longest = Math.min(rimWidth - bevel - 0.5, depth / maths.tan(lipAngle));
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
