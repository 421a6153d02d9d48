import { maths } from '../maths/maths.js';

/** Which way a tooth leans: a right-hand helix turns counter-clockwise, seen from +Z, as it rises. */
export type Hand = 'left' | 'right';

/** A piece of a tooth's run along the axis over which the turn is a smooth, monotone function of z. */
export interface HelixStretch {
  /** mm, z0 < z1 */
  readonly z0: number;
  readonly z1: number;
  /** Turn of the transverse section at z, rad. */
  readonly turn: (z: number) => number;
}

/** Turn of the section a mm of rise, rad/mm: tan β / r (ISO 21771:2007, lead p_z = 2π r / tan β). */
export const turnPerRise = (helixAngle: number, referenceRadius: number): number =>
  maths.tan(helixAngle) / referenceRadius;

const sign = (hand: Hand): 1 | -1 => (hand === 'right' ? 1 : -1);

/** A single helix through z = 0 at no turn. */
export const singleHelix = (z0: number, z1: number, rate: number, hand: Hand): readonly HelixStretch[] => [
  { z0, z1, turn: (z) => sign(hand) * rate * z },
];

/** The groove between the halves of a double-helical gear is never built narrower, mm. */
export const leastGroove = 0.3;

export type ApexShape = 'sharp' | 'rounded' | 'gap' | 'staggered';

/** How the halves of a double-helical gear meet at its middle plane. */
export interface Apex {
  readonly shape: ApexShape;
  /** Height of the apex plane, mm. */
  readonly height: number;
  /** Of the rounding, mm; of no account to the other shapes. */
  readonly width: number;
  /** Of the groove as it is built, mm. */
  readonly groove: number;
}

/** Toothed lengths of a double-helical gear, each a chain of stretches; the upper half of a staggered one half a pitch on. */
export function doubleHelixLengths(
  z0: number,
  z1: number,
  { shape, height, width, groove }: Apex,
  rate: number,
  lowerHand: Hand,
  teeth: number,
): readonly (readonly HelixStretch[])[] {
  const whole = doubleHelix(z0, z1, height, rate, lowerHand, shape === 'rounded' ? width : 0);
  if (shape !== 'gap' && shape !== 'staggered') return [whole];
  const [lower, upper] = whole as [HelixStretch, HelixStretch];
  const stagger = shape === 'staggered' ? Math.PI / teeth : 0;
  return [
    [{ ...lower, z1: height - groove / 2 }],
    [{ ...upper, z0: height + groove / 2, turn: (z) => upper.turn(z) + stagger }],
  ];
}

/**
 * A double helix that turns back at the apex plane, where its turn is nought.
 * `roundedOver` (mm, 0 for a sharp apex) is the height over which a parabola joins the two straight helices
 * tangentially in the unrolled cylinder.
 */
function doubleHelix(
  z0: number,
  z1: number,
  apex: number,
  rate: number,
  lowerHand: Hand,
  roundedOver: number,
): readonly HelixStretch[] {
  // Below the apex the height counts down, so a left-hand lower half turns positively away from it.
  const k = -sign(lowerHand) * rate;
  const w = Math.min(roundedOver, 2 * (apex - z0), 2 * (z1 - apex));
  const turn = (z: number): number => {
    const away = Math.abs(z - apex);
    return w > 0 && away < w / 2 ? (k * away * away) / w : k * (away - w / 4);
  };
  const heights = [z0, apex - w / 2, apex, apex + w / 2, z1];
  const stretches: HelixStretch[] = [];
  for (let i = 0; i + 1 < heights.length; i++) {
    const [a, b] = [heights[i] as number, heights[i + 1] as number];
    if (b - a > 1e-9) stretches.push({ z0: a, z1: b, turn });
  }
  return stretches;
}
