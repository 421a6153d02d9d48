import { ClosestTree, part } from '../../shape/closest-tree.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { fanOf, nextHalf } from './halves.js';
import { edgeKind, kindOfEdge, type MoveInput } from './move-corners.js';

/** How far an offset surface is from where it should be, mm, measured on the finished mesh. */
export interface OffsetError {
  readonly max: number;
  readonly mean: number;
  /** Where the worst is. */
  readonly at: Vec3;
  /** Points measured: on the result against the moved planes, and moved points of the original against the result. */
  readonly samples: number;
  /** Points left out since they are on walls of steps and on cut-off mitres. */
  readonly apart: number;
  /** Edges so sharp that their mitre was cut off. */
  readonly bevelled: number;
  /** Edges at which the surface steps, since neighbours nearly in one plane have different amounts. */
  readonly steps: number;
  /** Triangles whose stock was joined on by itself: slots that closed, corners of many planes. */
  readonly joined: number;
  /** Vertices that were moved less far than asked, since the surface would fold there. */
  readonly short: number;
}

export type Measured = Omit<OffsetError, 'bevelled' | 'steps' | 'joined' | 'short'>;

/** Farther off than this, mm, a point is looked at again: it may be on a wall or a cut-off mitre. */
const plain = 1e-4;

/**
 * Measures the result against its definition, by distances alone: every point of it should lie on the moved planes of
 * the face, edge or corner of the original that it belongs to (the least over all near it of the greatest over the
 * planes there), and no point of the original, moved by its amount, outside it.
 */
export function measureOffset(input: MoveInput, result: Mesh, inward: boolean, samples: number): Measured {
  const { p, halves, normals: n, amounts } = input;
  let [max, sum, count, apart] = [0, 0, 0, 0];
  let at: Vec3 = [0, 0, 0];
  const note = (error: number, x: number, y: number, z: number): void => {
    count++;
    sum += error;
    if (error > max) [max, at] = [error, [x, y, z]];
  };
  const depth = depthTo(input);
  forPoints(result.positions, result.triangles, samples, (x, y, z) => {
    const error = depth(x, y, z);
    if (error === null) apart++;
    else note(Math.abs(error), x, y, z);
  });
  const outside = outsideOf(result, inward);
  forPoints(p, halves.t, samples / 2, (x, y, z, f) => {
    const d = amounts[f]!;
    const [qx, qy, qz] = [x + d * n[3 * f]!, y + d * n[3 * f + 1]!, z + d * n[3 * f + 2]!];
    note(outside(qx, qy, qz), qx, qy, qz);
  });
  return { max, mean: count > 0 ? sum / count : 0, at, samples: count, apart };
}

/** Signed distance to the surface as it should be, positive outside; null on walls of steps and cut-off mitres. */
function depthTo(input: MoveInput): (x: number, y: number, z: number) => number | null {
  const { p, halves, normals: n, amounts, mitreLimit } = input;
  const { t, opposite } = halves;
  const tree = new ClosestTree(p, t);
  const most = amounts.reduce((a, b) => Math.max(a, b), 0);
  const valence = new Uint16Array(halves.vertices);
  for (const v of t) valence[v]!++;
  const values = new Map<
    number,
    { value: number; over: number; count: number; of: number; square: number }
  >();
  const heightOver = (f: number, v: number, x: number, y: number, z: number): number =>
    n[3 * f]! * (x - p[3 * v]!) + n[3 * f + 1]! * (y - p[3 * v + 1]!) + n[3 * f + 2]! * (z - p[3 * v + 2]!);
  /**
   * By all triangles that are as near but for rounding, where they are not of one mind which edge or corner is nearest;
   * null where the point lies behind them.
   */
  const overNearest = (x: number, y: number, z: number, nearest: number): number | null => {
    let [value, most] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
    tree.near(x, y, z, (1 + 1e-6) * Math.sqrt(nearest) + 1e-7, (f) => {
      const over = heightOver(f, t[3 * f]!, x, y, z);
      value = Math.max(value, over - amounts[f]!);
      most = Math.max(most, over);
    });
    return most > 1e-3 ? value : null;
  };
  const look = (x: number, y: number, z: number, within: number): number | null => {
    values.clear();
    let least = Number.POSITIVE_INFINITY;
    let nearest = Number.POSITIVE_INFINITY;
    let isCut = false;
    tree.near(x, y, z, within, (f) => {
      nearest = Math.min(nearest, tree.square);
      const where = tree.part;
      const over = heightOver(f, t[3 * f]!, x, y, z);
      if (where === part.face) {
        if (over > -1e-3) least = Math.min(least, over - amounts[f]!);
        return;
      }
      const isEdge = where < part.corner;
      const h = 3 * f + where - (isEdge ? part.edge : part.corner);
      const key = isEdge ? Math.min(h, opposite[h]!) : -1 - t[h]!;
      const known = values.get(key);
      const value = over - amounts[f]!;
      if (known) {
        known.value = Math.max(known.value, value);
        known.over = Math.max(known.over, over);
        known.count++;
      } else values.set(key, { value, over, count: 1, of: h, square: tree.square });
    });
    for (const [key, { value, over, count, of, square }] of values) {
      // Seen from behind, through the body.
      if (over < -1e-3 || count < (key >= 0 ? 2 : valence[t[of]!]!)) continue;
      least = Math.min(least, value);
      if (key >= 0 ? kindOfEdge(input, of) === edgeKind.knife : isKnifeCorner(input, t[of]!, square, most))
        isCut = true;
    }
    if (least === Number.POSITIVE_INFINITY)
      return nearest < within * within ? (overNearest(x, y, z, nearest) ?? -Math.sqrt(nearest)) : null;
    return isCut && least < -plain ? Number.NaN : least;
  };
  const onWall = (x: number, y: number, z: number): boolean => {
    let found = false;
    tree.near(x, y, z, 2.5 * most, (f) => {
      for (let h = 3 * f; h < 3 * f + 3 && !found; h++) {
        if (kindOfEdge(input, h) !== edgeKind.step) continue;
        const [a, b] = [t[h]!, t[nextHalf(h)]!];
        const over = heightOver(f, a, x, y, z);
        const [d, e] = [amounts[f]!, amounts[Math.floor(opposite[h]! / 3)]!];
        if (over < Math.min(d, e) - 0.05 * most || over > Math.max(d, e) + 0.05 * most) continue;
        const foot = [0, 1, 2].map((k) => [x, y, z][k]! - over * n[3 * f + k]! - p[3 * a + k]!);
        const edge = [0, 1, 2].map((k) => p[3 * b + k]! - p[3 * a + k]!);
        const length = Math.sqrt(edge.reduce((s, v) => s + v * v, 0));
        // A wall goes on through the mitres at its ends.
        const run = edge.reduce((sum, v, k) => sum + v * foot[k]!, 0) / length;
        if (run < -1.5 * most || run > length + 1.5 * most) continue;
        const far = Math.sqrt(foot.reduce((sum, v, k) => sum + (v - (run / length) * edge[k]!) ** 2, 0));
        // Walls lean as the mean of the sides' normals does.
        if (far < 0.2 * over + 1e-3) found = true;
      }
    });
    return found;
  };
  const hasSteps = t.some((_, h) => kindOfEdge(input, h) === edgeKind.step);
  return (x, y, z) => {
    let value = look(x, y, z, 1.5 * most + 0.01);
    if (value === null || Math.abs(value) > plain) value = look(x, y, z, (mitreLimit + 0.5) * most + 0.1);
    if (value === null) {
      tree.closest(x, y, z);
      return Math.sqrt(tree.square);
    }
    if (Number.isNaN(value)) return null;
    if (hasSteps && Math.abs(value) > plain && onWall(x, y, z)) return null;
    return value;
  };
}

/** Whether a vertex's mitre is cut off: it ends a knife edge, or is a point as sharp. */
function isKnifeCorner(input: MoveInput, v: number, square: number, most: number): boolean {
  const fan: number[] = [];
  const count = fanOf(input.halves, v, fan);
  for (let i = 0; i < count; i++) if (kindOfEdge(input, fan[i]!) === edgeKind.knife) return true;
  return square > (0.9 * input.mitreLimit * most) ** 2;
}

/** How far a point lies outside a closed mesh, mm; 0 within it. */
function outsideOf(
  { positions: p, triangles: t }: Mesh,
  inward: boolean,
): (x: number, y: number, z: number) => number {
  const tree = new ClosestTree(p, t);
  const sense = inward ? -1 : 1;
  return (x, y, z) => {
    tree.closest(x, y, z);
    const far = Math.sqrt(tree.square);
    if (far < 1e-6) return far;
    const near = (1 + 1e-7) * far + 1e-9;
    // Sum of the normals of all nearest triangles, by their angles at the nearest point near enough by themselves:
    // seen from the point, the triangle facing it most decides (Baerentzen and Aanaes, 2005, for why one alone may not).
    let [best, side] = [0, 1];
    tree.near(x, y, z, near, (f) => {
      const [a, b, c] = [3 * t[3 * f]!, 3 * t[3 * f + 1]!, 3 * t[3 * f + 2]!];
      const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
      const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
      const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
      const lean =
        (nx * (x - tree.x) + ny * (y - tree.y) + nz * (z - tree.z)) /
        (far * Math.sqrt(nx * nx + ny * ny + nz * nz) || 1);
      if (Math.abs(lean) > best) [best, side] = [Math.abs(lean), sense * lean > 0 ? 1 : 0];
    });
    return side * far;
  };
}

/** Points over a surface, evenly by area, and its corners (some of them where there are many): always the same ones. */
function forPoints(
  p: ArrayLike<number>,
  t: Uint32Array,
  most: number,
  visit: (x: number, y: number, z: number, f: number) => void,
): void {
  const count = t.length / 3;
  const areas = new Float64Array(count + 1);
  for (let f = 0; f < count; f++) {
    const [a, b, c] = [3 * t[3 * f]!, 3 * t[3 * f + 1]!, 3 * t[3 * f + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    areas[f + 1] = areas[f]! + Math.sqrt(nx * nx + ny * ny + nz * nz);
  }
  const half = Math.max(1, Math.floor(most / 2));
  const step = areas[count]! / half;
  let [f, s, r] = [0, 0.5, 0.5];
  for (let i = 0; i < half; i++) {
    while (f < count - 1 && areas[f + 1]! < (i + 0.5) * step) f++;
    // An even spread over the triangle (additive recurrence by the plastic number, from memory).
    s = (s + 0.7548776662466927) % 1;
    r = (r + 0.5698402909980532) % 1;
    const [u, v] = s + r > 1 ? [1 - s, 1 - r] : [s, r];
    place(f, u, v);
  }
  const stride = Math.max(1, Math.ceil(t.length / half));
  for (let h = 0; h < t.length; h += stride)
    place(Math.floor(h / 3), h % 3 === 1 ? 1 : 0, h % 3 === 2 ? 1 : 0);

  function place(f: number, u: number, v: number): void {
    const [a, b, c] = [3 * t[3 * f]!, 3 * t[3 * f + 1]!, 3 * t[3 * f + 2]!];
    visit(
      p[a]! + u * (p[b]! - p[a]!) + v * (p[c]! - p[a]!),
      p[a + 1]! + u * (p[b + 1]! - p[a + 1]!) + v * (p[c + 1]! - p[a + 1]!),
      p[a + 2]! + u * (p[b + 2]! - p[a + 2]!) + v * (p[c + 2]! - p[a + 2]!),
      f,
    );
  }
}
