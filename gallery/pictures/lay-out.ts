import { maths } from '../../core/maths/maths.js';
import { measureBounds } from '../../core/solid/mesh-bounds.js';
import type { Box, Mesh } from '../../core/solid/types.js';
import { radians } from '../../core/units/index.js';
import type { Pose } from '../ropewalk/wall.js';

/** Between castings in a row, share of the row's largest depth or height. */
const gapShare = 0.35;

/**
 * Several castings as one mesh to look at: those with a place of their own there, the others in a row along x on the
 * ground, in the order given. Triangles follow one another casting by casting.
 */
export function layOut(castings: readonly { readonly mesh: Mesh; readonly pose: Pose }[]): Mesh {
  const turned = castings.map(({ mesh, pose }) => {
    const positions = turnedPositions(mesh.positions, pose.turn ?? [0, 0, 0]);
    return { positions, triangles: mesh.triangles, at: pose.at, box: measureBounds({ positions }) as Box };
  });
  const inRow = turned.filter(({ at }) => at === undefined);
  const gap = gapShare * Math.max(0, ...inRow.map(({ box }) => box.max[1] - box.min[1]));
  const positions = new Float32Array(turned.reduce((n, t) => n + t.positions.length, 0));
  const triangles = new Uint32Array(turned.reduce((n, t) => n + t.triangles.length, 0));
  let [x, p, t] = [0, 0, 0];
  for (const { positions: own, triangles: faces, at, box } of turned) {
    const shift = at ?? [x - box.min[0], -(box.min[1] + box.max[1]) / 2, -box.min[2]];
    if (at === undefined) x += box.max[0] - box.min[0] + gap;
    for (let i = 0; i < own.length; i++) positions[p + i] = own[i]! + shift[i % 3]!;
    for (let i = 0; i < faces.length; i++) triangles[t + i] = faces[i]! + p / 3;
    p += own.length;
    t += faces.length;
  }
  return { positions, triangles };
}

/** Turned about x, then y, then z, degrees. */
function turnedPositions(from: Mesh['positions'], turn: readonly [number, number, number]): Float32Array {
  const [a, b, c] = turn.map(radians) as [number, number, number];
  const [ca, sa, cb, sb, cc, sc] = [a, b, c].flatMap((v) => [maths.cos(v), maths.sin(v)]) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const to = new Float32Array(from.length);
  for (let i = 0; i < from.length; i += 3) {
    const [x, y, z] = [from[i]!, from[i + 1]!, from[i + 2]!];
    const [y1, z1] = [y * ca - z * sa, y * sa + z * ca];
    const [x2, z2] = [x * cb + z1 * sb, z1 * cb - x * sb];
    to[i] = x2 * cc - y1 * sc;
    to[i + 1] = x2 * sc + y1 * cc;
    to[i + 2] = z2;
  }
  return to;
}
