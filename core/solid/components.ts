import type { Manifold } from 'manifold-3d/manifold.js';
import type { Mesh } from './types.js';
import { windingNumber } from './winding.js';

/** An outer shell, what lies within it counted as filled. */
export interface Piece {
  readonly outer: Manifold;
  /** Whether it has cavities; they have to be taken from the whole solid. */
  readonly isHollow: boolean;
  /** Outer shells of other pieces that lie within its cavities. */
  readonly loose: readonly Manifold[];
}

/**
 * Sorts the shells of one solid into pieces: every outer shell with what lies inside it. A cavity's shell faces
 * inwards, so its volume is negative.
 */
export function groupShells(manifolds: readonly Manifold[]): Piece[] {
  const volumes = manifolds.map((m) => m.volume());
  if (volumes.every((v) => v > 0)) return manifolds.map((outer) => ({ outer, isHollow: false, loose: [] }));
  const shells = manifolds.map((manifold, i) => {
    const { vertProperties, triVerts } = manifold.getMesh();
    const mesh: Mesh = { positions: vertProperties, triangles: triVerts };
    return { manifold, volume: volumes[i]!, mesh };
  });
  const outers = shells.filter((s) => s.volume > 0);
  const cavities = shells.filter((s) => s.volume <= 0);
  return outers.map((piece) => ({
    outer: piece.manifold,
    isHollow: cavities.some((cavity) => holds(piece.mesh, cavity.mesh)),
    loose: outers.filter((other) => other !== piece && holds(piece.mesh, other.mesh)).map((s) => s.manifold),
  }));
}

/** Whether one shell lies within another; shells of one solid never cross. */
function holds(outer: Mesh, inner: Mesh): boolean {
  const [x, y, z] = inner.positions;
  return windingNumber(outer, [x!, y!, z!]) > 0.5;
}
