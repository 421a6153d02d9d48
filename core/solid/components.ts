import type { Manifold } from 'manifold-3d/manifold.js';
import type { Mesh } from './types.js';
import { windingNumber } from './winding.js';

/**
 * Groups the shells of one solid into pieces: every outer shell with the cavities directly inside it.
 * A cavity's shell faces inwards, so its volume is negative.
 */
export function groupShells(manifolds: readonly Manifold[]): Manifold[][] {
  const volumes = manifolds.map((m) => m.volume());
  if (volumes.every((v) => v > 0)) return manifolds.map((m) => [m]);
  const shells = manifolds.map((manifold, i) => {
    const { vertProperties, triVerts } = manifold.getMesh();
    const mesh: Mesh = { positions: vertProperties, triangles: triVerts };
    return { manifold, volume: volumes[i]!, mesh };
  });
  const outer = shells.filter((s) => s.volume > 0).sort((a, b) => a.volume - b.volume);
  const groups = new Map(outer.map((s) => [s, [s.manifold]]));
  for (const cavity of shells.filter((s) => s.volume <= 0)) {
    const [x, y, z] = cavity.mesh.positions;
    // The smallest piece round it: a loose body within a cavity may be there too.
    const home = outer.find((s) => windingNumber(s.mesh, [x!, y!, z!]) > 0.5) ?? outer.at(-1);
    if (home) groups.get(home)!.push(cavity.manifold);
  }
  return [...groups.values()];
}
