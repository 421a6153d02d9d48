import { maths } from '../maths/maths.js';
import { SolidError } from '../solid/errors.js';
import type { Vec2, Vec3 } from '../solid/types.js';
import { along, cross, dot, lengthOf, minus, plus, times, unit } from './vector.js';

/**
 * A tube: a smooth surface swept by a closed section along a spine. `at(u, v)` runs along the spine with u from 0 to 1
 * and round the section with v from 0 to 1, counter-clockwise seen against the direction of travel. mm.
 */
export interface Tube {
  readonly at: (u: number, v: number) => Vec3;
  /** u = 1 is u = 0 again: a ring. */
  readonly closed: boolean;
  readonly start: TubeEnd;
  readonly end: TubeEnd;
  /** Direction of travel at the ends, unit. */
  readonly startDirection: Vec3;
  readonly endDirection: Vec3;
}

/** `flat`: cut off square to the spine. `tip`: the section shrinks to a point in a rounded end. */
export type TubeEnd = 'flat' | 'tip';

/** A section of a sweep, half sizes in mm. */
export interface SweepSection {
  /** Along `across`. */
  readonly across: number;
  /** Towards the normal, `across` × the direction of travel… see `Sweep`. */
  readonly above: number;
  /** Away from the normal; as `above` when left out. */
  readonly below?: number;
  /** Of the superellipse |x/a|^n + |y/b|^n = 1: 2 (an ellipse, when left out) and up; 4 is nearly a rectangle. */
  readonly exponent?: number;
}

export interface Sweep {
  /** Centre line, over t from 0 to 1; smooth, never standing still. */
  readonly spine: (t: number) => Vec3;
  /** The direction of the section's width: at right angles to a plane spine. Any length. */
  readonly across: Vec3;
  /** The section at t: half sizes, or points of an outline of its own in [across, normal] over v from 0 to 1. */
  readonly section: (t: number) => SweepSection | ((v: number) => Vec2);
  readonly closed?: boolean;
  /** Length of a rounded end along the spine, mm; flat when left out. The section there is what it would be without. */
  readonly roundStart?: number;
  readonly roundEnd?: number;
}

/** Step of the differences that derivatives are taken by, of a parameter that runs over 1. */
const step = 1e-4;

/**
 * The tube of a sweep. The section stands square to the spine, its width along `across` (made square to the spine
 * where it is not), its normal n such that across × n is the direction of travel.
 */
export function sweepTube(sweep: Sweep): Tube {
  const { spine, section, closed = false } = sweep;
  const across = unit(sweep.across);
  const ends = closed ? { from: 0, to: 1 } : { from: sweep.roundStart ?? 0, to: sweep.roundEnd ?? 0 };
  const zones = closed ? { low: 0, high: 1 } : roundZones(spine, ends.from, ends.to);
  const map = tipMap(zones.low, zones.high);
  const tangent = (t: number): Vec3 => {
    const [a, b] = closed ? [t - step, t + step] : [Math.max(0, t - step), Math.min(1, t + step)];
    // At the ends of an open spine a one-sided second-order difference.
    if (!closed && (a > t - step || b < t + step)) {
      const h = a > t - step ? step : -step;
      const [p0, p1, p2] = [spine(t), spine(t + h), spine(t + 2 * h)];
      return unit(times(plus(along(times(p1, 4), p0, -3), times(p2, -1)), Math.sign(h)));
    }
    return unit(minus(closed ? spine(wrap(b)) : spine(b), closed ? spine(wrap(a)) : spine(a)));
  };
  const at = (u: number, v: number): Vec3 => {
    const { t, scale } = closed ? { t: wrap(u), scale: 1 } : map(u);
    const direction = tangent(t);
    const square = along(across, direction, -dot(across, direction));
    const x = unit(square);
    if (lengthOf(square) < 1e-3)
      throw new SolidError('bad-size', 'a sweep runs along its own width; choose another `across`');
    const y = cross(direction, x);
    const [a, b] = sectionPoint(section(t), v);
    return along(along(spine(t), x, scale * a), y, scale * b);
  };
  return {
    at,
    closed,
    start: !closed && ends.from > 0 ? 'tip' : 'flat',
    end: !closed && ends.to > 0 ? 'tip' : 'flat',
    startDirection: tangent(0),
    endDirection: tangent(1),
  };
}

const wrap = (t: number): number => t - Math.floor(t);

function sectionPoint(section: SweepSection | ((v: number) => Vec2), v: number): Vec2 {
  if (typeof section === 'function') return section(wrap(v));
  const { across, above, below = above, exponent = 2 } = section;
  const angle = 2 * Math.PI * v;
  const [c, s] = [maths.cos(angle), maths.sin(angle)];
  // The direction of the angle on the unit superellipse: smooth all round, unlike powers of cosine and sine.
  const reach =
    exponent === 2
      ? 1
      : maths.pow(maths.pow(Math.abs(c), exponent) + maths.pow(Math.abs(s), exponent), -1 / exponent);
  return [across * reach * c, (s > 0 ? above : below) * reach * s];
}

/** Where rounded ends of given lengths begin, in t. */
function roundZones(spine: (t: number) => Vec3, from: number, to: number) {
  const steps = 400;
  const lengths = [0];
  let last = spine(0);
  for (let i = 1; i <= steps; i++) {
    const next = spine(i / steps);
    lengths.push(lengths[i - 1]! + lengthOf(minus(next, last)));
    last = next;
  }
  const whole = lengths[steps]!;
  if (from + to > whole)
    throw new SolidError(
      'bad-size',
      `the rounded ends of a sweep, ${from} and ${to} mm, are longer than its ${whole.toFixed(2)} mm`,
    );
  const parameterAt = (length: number): number => {
    let i = 1;
    while (i < steps && lengths[i]! < length) i++;
    const [a, b] = [lengths[i - 1]!, lengths[i]!];
    return (i - 1 + (length - a) / (b - a)) / steps;
  };
  return { low: from > 0 ? parameterAt(from) : 0, high: to > 0 ? parameterAt(whole - to) : 1 };
}

/**
 * From u to the spine's t and the section's scale. In a rounded end the scale falls as a quarter ellipse; t follows
 * the sine of an angle there, so that points are as dense at the tip as its roundness needs.
 */
function tipMap(low: number, high: number): (u: number) => { readonly t: number; readonly scale: number } {
  // A quarter turn over `low` runs π/2 faster than t; shares of u follow the speeds at the seams, which stay smooth.
  const [startShare, middleShare, endShare] = [(low * Math.PI) / 2, high - low, ((1 - high) * Math.PI) / 2];
  const whole = startShare + middleShare + endShare;
  return (u) => {
    const w = u * whole;
    if (w < startShare) {
      const angle = (1 - w / startShare) * (Math.PI / 2);
      return { t: low * (1 - maths.sin(angle)), scale: maths.cos(angle) };
    }
    if (w <= startShare + middleShare || endShare === 0) return { t: low + w - startShare, scale: 1 };
    const angle = ((w - startShare - middleShare) / endShare) * (Math.PI / 2);
    return { t: high + (1 - high) * maths.sin(angle), scale: maths.cos(angle) };
  };
}
