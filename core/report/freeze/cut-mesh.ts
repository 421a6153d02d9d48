import { maths } from '../../maths/maths.js';
import type { Mesh, Vec2 } from '../../solid/types.js';
import { weldMesh } from '../../solid/weld.js';

/** An upright plane: through a point in plan, mm, in a direction from +X towards +Y, radians. */
export interface UprightPlane {
  readonly through: Vec2;
  readonly direction: number;
}

/** Along the plane, and how far to its left, mm. */
export const onPlane = ({ through, direction }: UprightPlane, x: number, y: number): Vec2 => {
  const [c, s] = [maths.cos(direction), maths.sin(direction)];
  const [dx, dy] = [x - through[0], y - through[1]];
  return [dx * c + dy * s, dy * c - dx * s];
};

/**
 * The outlines where an upright plane cuts a closed mesh, as points along the plane and upward, mm. Every outline is
 * closed, whatever corners lie in the plane: those count as lying to its left.
 */
export function cutMesh(mesh: Mesh, plane: UprightPlane): readonly (readonly Vec2[])[] {
  const { positions: p, triangles: t } = weldMesh(mesh);
  const count = p.length / 3;
  const along = new Float64Array(count);
  const side = new Float64Array(count);
  const [c, s] = [maths.cos(plane.direction), maths.sin(plane.direction)];
  for (let v = 0; v < count; v++) {
    const x = p[3 * v]! - plane.through[0];
    const y = p[3 * v + 1]! - plane.through[1];
    along[v] = x * c + y * s;
    side[v] = y * c - x * s;
  }
  /** By the edge it comes in at, the edge it leaves at: several where outlines touch. */
  const next = new Map<number, number[]>();
  const edge = (a: number, b: number): number => Math.min(a, b) * count + Math.max(a, b);
  for (let f = 0; f < t.length; f += 3) {
    const [a, b, d] = [t[f]!, t[f + 1]!, t[f + 2]!];
    const left = (side[a]! >= 0 ? 1 : 0) + (side[b]! >= 0 ? 1 : 0) + (side[d]! >= 0 ? 1 : 0);
    if (left === 0 || left === 3) continue;
    let enters = -1;
    let leaves = -1;
    for (let k = 0; k < 3; k++) {
      const from = t[f + k]!;
      const to = t[f + ((k + 1) % 3)]!;
      if (side[from]! < 0 && side[to]! >= 0) enters = edge(from, to);
      else if (side[from]! >= 0 && side[to]! < 0) leaves = edge(from, to);
    }
    if (enters >= 0 && leaves >= 0) next.set(enters, [...(next.get(enters) ?? []), leaves]);
  }
  const pointOf = (key: number): Vec2 => {
    const [a, b] = [Math.floor(key / count), key % count];
    const f = side[a]! / (side[a]! - side[b]!);
    return [along[a]! + f * (along[b]! - along[a]!), p[3 * a + 2]! + f * (p[3 * b + 2]! - p[3 * a + 2]!)];
  };
  const loops: Vec2[][] = [];
  for (const start of [...next.keys()]) {
    const loop: Vec2[] = [];
    for (let at: number | undefined = start; at !== undefined; ) {
      const onward: number | undefined = next.get(at)?.pop();
      if (onward === undefined) break;
      loop.push(pointOf(at));
      at = onward;
    }
    if (loop.length > 2) loops.push(loop);
  }
  return loops;
}
