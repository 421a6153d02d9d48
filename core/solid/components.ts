import type { Manifold } from 'manifold-3d/manifold.js';
import type { Vec3 } from './types.js';

interface Shell {
  readonly manifold: Manifold;
  readonly volume: number;
  readonly positions: Float32Array;
  readonly triangles: Uint32Array;
}

/**
 * Groups the shells of one solid into pieces: every outer shell with the cavities directly inside it.
 * A cavity's shell faces inwards, so its volume is negative.
 */
export function groupShells(manifolds: readonly Manifold[]): Manifold[][] {
  const volumes = manifolds.map((m) => m.volume());
  if (volumes.every((v) => v > 0)) return manifolds.map((m) => [m]);
  const shells = manifolds.map((manifold, i): Shell => {
    const { vertProperties, triVerts } = manifold.getMesh();
    return { manifold, volume: volumes[i]!, positions: vertProperties, triangles: triVerts };
  });
  const outer = shells.filter((s) => s.volume > 0).sort((a, b) => a.volume - b.volume);
  const groups = new Map(outer.map((s) => [s, [s.manifold]]));
  for (const cavity of shells.filter((s) => s.volume <= 0)) {
    const [x, y, z] = cavity.positions;
    const home = outer.find((s) => windingNumber(s, [x!, y!, z!]) > 0.5) ?? outer.at(-1);
    if (home) groups.get(home)!.push(cavity.manifold);
  }
  return [...groups.values()];
}

/**
 * Times a closed mesh winds round a point: 1 inside, 0 outside. Sum of the triangles' solid angles
 * (Van Oosterom and Strackee, 1983) over 4π.
 */
function windingNumber(shell: Shell, [x, y, z]: Vec3): number {
  const { positions: p, triangles: t } = shell;
  let sum = 0;
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [3 * t[i]!, 3 * t[i + 1]!, 3 * t[i + 2]!];
    const [ax, ay, az] = [p[a]! - x, p[a + 1]! - y, p[a + 2]! - z];
    const [bx, by, bz] = [p[b]! - x, p[b + 1]! - y, p[b + 2]! - z];
    const [cx, cy, cz] = [p[c]! - x, p[c + 1]! - y, p[c + 2]! - z];
    const [la, lb, lc] = [Math.hypot(ax, ay, az), Math.hypot(bx, by, bz), Math.hypot(cx, cy, cz)];
    const det = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
    const dots =
      la * lb * lc +
      (ax * bx + ay * by + az * bz) * lc +
      (bx * cx + by * cy + bz * cz) * la +
      (cx * ax + cy * ay + cz * az) * lb;
    sum += 2 * Math.atan2(det, dots);
  }
  return sum / (4 * Math.PI);
}
