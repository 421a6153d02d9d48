import type { Kernel, Solid, Vec3 } from '../solid/types.js';
import type { Tube } from './tube.js';
import { fitGrid, straightIsNearer, trimTube } from './tube-grid.js';
import { tubeSurface } from './tube-surface.js';

/** Stock of a tube, mm: along the normal of its surface, and along the spine at flat ends. */
export interface TubeStock {
  readonly surface: number;
  readonly start: number;
  readonly end: number;
}

export const noTubeStock: TubeStock = { surface: 0, start: 0, end: 0 };

/**
 * The solid of a tube, its corners on the exact surface (with stock on its parallel) and no triangle further from it
 * than `tolerance`, mm. Flat ends stay in planes, moved by their own stock; beyond its own ends the surface goes
 * straight on.
 *
 * @throws RangeError for a surface that cannot be sampled; SolidError for one that crosses itself
 */
export function tubeSolid(kernel: Kernel, tube: Tube, tolerance: number, stock = noTubeStock): Solid {
  const surface = trimTube(tube, tubeSurface(tube, stock.surface), stock);
  const grid = fitGrid(surface, tube.closed, tolerance);
  const rings = grid.along.map((w, i) => {
    const tip =
      (i === 0 && tube.start === 'tip' && !tube.closed) ||
      (i === grid.along.length - 1 && tube.end === 'tip' && !tube.closed);
    const first = surface.at(w, 0);
    // The last point round is the first again.
    return grid.round.slice(0, -1).map((v) => (tip ? first : surface.at(w, v)));
  });
  const n = grid.round.length - 1;
  const wrapped = rings.map((ring) => [...ring, ring[0]!]);
  const diagonal = (layer: number, i: number): boolean => straightIsNearer(surface, grid, wrapped, layer, i);
  if (!tube.closed)
    return kernel.loft(
      rings.map((points) => ({ points })),
      diagonal,
    );
  return kernel.fromMesh(ringMesh(rings.slice(0, -1), n, diagonal));
}

/** The closed mesh of rings of n points joined round. */
function ringMesh(
  rings: readonly (readonly Vec3[])[],
  n: number,
  diagonal: (layer: number, i: number) => boolean,
) {
  const positions = Float64Array.from(rings.flat(2));
  const triangles: number[] = [];
  rings.forEach((_, layer) => {
    const above = ((layer + 1) % rings.length) * n;
    for (let i = 0; i < n; i++) {
      const j = (i + 1) % n;
      const [a, b, c, d] = [layer * n + i, layer * n + j, above + j, above + i];
      if (diagonal(layer, i)) triangles.push(a, b, c, a, c, d);
      else triangles.push(a, b, d, b, c, d);
    }
  });
  return { positions, triangles: Uint32Array.from(triangles) };
}
