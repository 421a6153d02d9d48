import { maths } from '../maths/maths.js';
import { SolidError } from '../solid/errors.js';
import type { Kernel, Solid, Vec2, Vec3 } from '../solid/types.js';
import { overhang } from './plate.js';

/** A hole with its finished mouth at z = 0 and the metal below; mm, angles radians. */
export type Hole =
  | {
      readonly kind: 'plain';
      readonly diameter: number;
      readonly depth: number;
      /** Goes out through the far face, which lies at z = −depth. Default true. */
      readonly through?: boolean;
      /** Full angle of the point of a blind hole, as a drill leaves it; flat when left out. */
      readonly pointAngle?: number;
    }
  | {
      readonly kind: 'countersunk';
      readonly diameter: number;
      readonly depth: number;
      /** Diameter of the cone where it begins: at the face, or `sink` below it. */
      readonly headDiameter: number;
      /** Full angle of the cone: 90° for metric countersunk heads. */
      readonly angle: number;
      /** Depth of a straight wall of the head's diameter above the cone. */
      readonly sink?: number;
      /** False leaves the shank's hole to be drilled: the cone alone, coming to a point. Default true. */
      readonly shank?: boolean;
    }
  | {
      readonly kind: 'counterbored';
      readonly diameter: number;
      readonly depth: number;
      readonly boreDiameter: number;
      readonly boreDepth: number;
    }
  /** A cone to start a drill in. */
  | { readonly kind: 'dimple'; readonly diameter: number; readonly angle: number };

/** Stock that a casting's hole has to keep, mm: on its own surfaces, and on the faces it opens in. */
export interface HoleStock {
  readonly bore: number;
  /** Of the face with the mouth. */
  readonly face: number;
  /** Of the face where a hole through comes out. */
  readonly farFace: number;
}

export interface HoleOptions {
  /**
   * Height over the finished face that the tool clears, straight up from its mouth, mm: past a fillet or a leg that
   * stands over the hole. Half a millimetre over the cast face when left out.
   */
  readonly clear?: number;
}

export const noHoleStock: HoleStock = { bore: 0, face: 0, farFace: 0 };

/** Holes thinner than this, mm, are taken for filled by their stock. */
const leastDiameter = 0.5;

/**
 * What a hole takes away, about the Z axis, mouth up; null when stock fills it. Every surface of the hole stands
 * `stock.bore` in from the finished one; the tool reaches past both faces, wherever their stock puts them. The
 * circle's corners lie on it, so that chords make the hole smaller by `tolerance` at most.
 *
 * @throws SolidError `bad-size` when the sizes make no such hole
 */
export function holeCutter(
  kernel: Kernel,
  hole: Hole,
  tolerance: number,
  stock = noHoleStock,
  { clear = 0 }: HoleOptions = {},
): Solid | null {
  const profile = holeProfile(hole, stock);
  if (!profile) return null;
  const [radius, top] = profile[profile.length - 2]!;
  const risen: readonly Vec2[] =
    clear > top ? [...profile.slice(0, -1), [radius, clear], [0, clear]] : profile;
  return kernel.revolve(risen, tolerance);
}

function holeProfile(hole: Hole, stock: HoleStock): readonly Vec2[] | null {
  const top = stock.face + overhang;
  if (hole.kind === 'dimple') return coneProfile(hole.diameter / 2, 0, hole.angle, stock.bore, top);
  const radius = hole.diameter / 2 - stock.bore;
  const bottom = -hole.depth - stock.farFace - overhang;
  check(hole.depth > 0, `a hole is ${hole.depth} mm deep; it must be deeper than 0`);
  if (hole.kind === 'countersunk' && hole.shank === false) {
    check(hole.headDiameter > 0, `a countersink is ${hole.headDiameter} mm wide`);
    return headProfile(hole, stock.bore, top);
  }
  if (2 * radius < leastDiameter) return null;
  switch (hole.kind) {
    case 'plain': {
      if (hole.through !== false)
        return closeProfile([
          [radius, bottom],
          [radius, top],
        ]);
      const floor = -hole.depth + stock.bore;
      const point = hole.pointAngle === undefined ? 0 : hole.diameter / 2 / maths.tan(hole.pointAngle / 2);
      if (point === 0)
        return floor < 0
          ? closeProfile([
              [radius, floor],
              [radius, top],
            ])
          : null;
      // The point's cone comes in along its own normal.
      const half = (hole.pointAngle as number) / 2;
      const tip = -hole.depth - point + stock.bore / maths.sin(half);
      const shoulder = tip + radius / maths.tan(half);
      return closeProfile([
        [0, tip],
        [radius, shoulder],
        [radius, top],
      ]);
    }
    case 'countersunk': {
      check(
        hole.headDiameter > hole.diameter,
        `a countersink of ${hole.headDiameter} mm is no wider than its hole of ${hole.diameter} mm`,
      );
      const head = headProfile(hole, stock.bore, top);
      if (!head)
        return closeProfile([
          [radius, bottom],
          [radius, top],
        ]);
      const tip = head[0]![1];
      const meet = tip + radius / maths.tan(hole.angle / 2);
      check(meet > bottom, `a countersink reaches through the ${hole.depth} mm of its hole`);
      return closeProfile([[radius, bottom], [radius, meet], ...head.slice(1, -1)]);
    }
    case 'counterbored': {
      const bore = hole.boreDiameter / 2 - stock.bore;
      const floor = -hole.boreDepth + stock.bore;
      check(
        hole.boreDiameter > hole.diameter && hole.boreDepth < hole.depth,
        'a counterbore is wider and less deep than its hole',
      );
      if (floor >= stock.face)
        return closeProfile([
          [radius, bottom],
          [radius, top],
        ]);
      return closeProfile([
        [radius, bottom],
        [radius, floor],
        [bore, floor],
        [bore, top],
      ]);
    }
  }
}

function headProfile(
  hole: Extract<Hole, { kind: 'countersunk' }>,
  stock: number,
  top: number,
): readonly Vec2[] | null {
  const { headDiameter, angle, sink = 0 } = hole;
  if (sink === 0) return coneProfile(headDiameter / 2, 0, angle, stock, top);
  const wall = headDiameter / 2 - stock;
  const half = angle / 2;
  const tip = -sink - headDiameter / 2 / maths.tan(half) + stock / maths.sin(half);
  const shoulder = tip + wall / maths.tan(half);
  if (wall <= leastDiameter / 2 || shoulder >= top - overhang) return null;
  return closeProfile([
    [0, tip],
    [wall, shoulder],
    [wall, top],
  ]);
}

/** A cone that has a radius at a height, moved in along its normal, from its tip to the top. */
function coneProfile(radius: number, at: number, angle: number, stock: number, top: number) {
  check(angle > 0 && angle < Math.PI, `a cone's angle is ${angle} rad; it must be between 0 and π`);
  check(radius > 0, `a cone's radius is ${radius} mm; it must be greater than 0`);
  const half = angle / 2;
  const tip = at - radius / maths.tan(half) + stock / maths.sin(half);
  // Stock that leaves less than a scratch at the cast face fills it.
  if (tip >= top - overhang - 0.1) return null;
  return closeProfile([
    [0, tip],
    [(top - tip) * maths.tan(half), top],
  ]);
}

/** From the axis at the first point's height, through the points upwards, and back to the axis. */
function closeProfile(points: readonly Vec2[]): readonly Vec2[] {
  const [first, last] = [points[0]!, points[points.length - 1]!];
  return [...(first[0] > 0 ? [[0, first[1]] as const] : []), ...points, [0, last[1]]];
}

function check(holds: boolean, otherwise: string): void {
  if (!holds) throw new SolidError('bad-size', otherwise);
}

/** Turns a tool about the Z axis so that its top points along `outwards` (any length), and moves its mouth to `at`. */
export function placeTool(tool: Solid, at: Vec3, outwards: Vec3): Solid {
  const [x, y, z] = outwards;
  const lean = maths.atan2(maths.hypot(x, y), z);
  const round = maths.hypot(x, y) === 0 ? 0 : maths.atan2(y, x);
  return (lean === 0 ? tool : tool.rotate('y', lean).rotate('z', round)).translate(at);
}
