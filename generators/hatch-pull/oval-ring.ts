import { maths } from '../../core/maths/maths.js';
import type { Field } from '../../core/shape/index.js';
import type { PullPlan } from '../hardware/ring-plan.js';
import type { HatchPullSizes } from './sizes.js';

/** Width of the flat that the underside cuts on the oval section, over the section's width: room for vents. */
const flatShare = 0.28;

/** The oval section: an ellipse lying on z = 0, cut off at the underside z = t. mm. */
export interface OvalSection {
  /** Half axes across the rim and along Z; the latter is also the height of the ellipse's centre. */
  readonly across: number;
  readonly up: number;
  /** Radius of the section's centre about the plan's centres. */
  readonly middle: number;
}

/** Ellipse of the rim's width whose chord at the underside is `flatShare` of that width. */
export const ovalSection = (
  { rimWidth, thickness }: Pick<HatchPullSizes, 'rimWidth' | 'thickness'>,
  plan: Pick<PullPlan, 'inner'>,
): OvalSection => ({
  across: rimWidth / 2,
  up: thickness / (1 + Math.sqrt(1 - flatShare ** 2)),
  middle: plan.inner + rimWidth / 2,
});

/** Smallest radius of curvature of the oval, mm. */
export const sharpestRadius = ({ across, up }: OvalSection): number =>
  Math.min(up ** 2 / across, across ** 2 / up);

/** Half the flat where the parallel of the oval at `skin` is cut at `underside` over the finished one; 0 for none. mm */
export function flatHalf(section: OvalSection, thickness: number, skin: number, underside = skin): number {
  const { across, up } = section;
  // Points of the parallel by the parameter of the ellipse, from its crown out: height falls, breadth grows.
  const height = (a: number): number => up + up * maths.cos(a) + (skin * maths.cos(a) * across) / length(a);
  const length = (a: number): number => maths.hypot(up * maths.sin(a), across * maths.cos(a));
  const cut = thickness + underside;
  if (height(0) <= cut) return 0;
  let [from, to] = [0, Math.PI / 2];
  for (let i = 0; i < 60; i++) {
    const middle = (from + to) / 2;
    if (height(middle) > cut) from = middle;
    else to = middle;
  }
  return across * maths.sin(from) + (skin * maths.sin(from) * up) / length(from);
}

/** The whole ring, ellipse uncut, round the plan's centres. */
export function ovalRingField(plan: PullPlan, section: OvalSection): Field {
  const { halfX, halfY } = plan;
  const { across, up, middle } = section;
  const distance: Field['distance'] = (x, y, z, g) => {
    const dx = x - Math.min(halfX, Math.max(-halfX, x));
    const dy = y - Math.min(halfY, Math.max(-halfY, y));
    const reach = Math.sqrt(dx * dx + dy * dy);
    const d = ellipseDistance(reach - middle, z - up, across, up, g);
    const [out, rise] = [g[0]!, g[1]!];
    g[0] = reach > 0 ? (out * dx) / reach : out;
    g[1] = reach > 0 ? (out * dy) / reach : 0;
    g[2] = rise;
    return d;
  };
  const [x, y] = [halfX + middle + across, halfY + middle + across];
  return {
    distance,
    bounds: { min: [-x, -y, 0], max: [x, y, 2 * up] },
    detail: Math.min(across, up, middle - across),
  };
}

/**
 * Signed distance of (u, v) from the ellipse with half axes a and b about the origin; the normal at the nearest
 * point goes to g[0], g[1]. The nearest point is (a² u/(t + a²), b² v/(t + b²)) with t the largest root of
 * (a u/(t + a²))² + (b v/(t + b²))² = 1 (Eberly, Distance from a Point to an Ellipse), found by Newton's method from its left, where
 * the function is convex and falls, so that no step goes too far.
 */
function ellipseDistance(u: number, v: number, a: number, b: number, g: Float64Array): number {
  const [aa, bb] = [a * a, b * b];
  const [p, q] = [a * Math.max(Math.abs(u), 1e-12), b * Math.max(Math.abs(v), 1e-12)];
  let t = Math.max(p - aa, q - bb);
  for (let i = 0; i < 60; i++) {
    const [m, n] = [p / (t + aa), q / (t + bb)];
    const excess = m * m + n * n - 1;
    const step = excess / (2 * ((m * m) / (t + aa) + (n * n) / (t + bb)));
    t += step;
    if (step <= 1e-14 * (Math.abs(t) + bb)) break;
  }
  const [nx, ny] = [((u < 0 ? -1 : 1) * p) / a / (t + aa), ((v < 0 ? -1 : 1) * q) / b / (t + bb)];
  const length = Math.sqrt(nx * nx + ny * ny);
  g[0] = nx / length;
  g[1] = ny / length;
  // The foot is (a² nx, b² ny); t times (nx, ny) leads from it to the point.
  return t * length;
}
