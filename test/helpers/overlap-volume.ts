import type { Manifold, ManifoldToplevel, Vec3 } from 'manifold-3d/manifold.js';
import type { Mesh } from '../../core/solid/types.js';

/** A second engine, straight from its package: shares nothing with the program's kernel. */
let engine: Promise<ManifoldToplevel> | undefined;
const load = (): Promise<ManifoldToplevel> => {
  engine ??= import('manifold-3d/manifold.js').then(async ({ default: start }) => {
    const wasm = await start();
    wasm.setup();
    return wasm;
  });
  return engine;
};

export interface Pose {
  /** Turn about Z, rad, before the move. */
  readonly turn: number;
  readonly by: Vec3;
}

export interface Overlaps {
  /** Volume that the two meshes have in common in each pair of poses, mm³. */
  readonly at: (one: Pose, other: Pose) => number;
  /** Least distance of the two meshes in space, mm; at most `search` is found. */
  readonly gap: (one: Pose, other: Pose, search: number) => number;
  readonly free: () => void;
}

export async function overlapsOf(one: Mesh, other: Mesh): Promise<Overlaps> {
  const wasm = await load();
  const [a, b] = [one, other].map(({ positions, triangles }) => {
    const solid = new wasm.Manifold(
      new wasm.Mesh({ numProp: 3, vertProperties: positions, triVerts: triangles }),
    );
    if (solid.status() !== 'NoError' || solid.isEmpty()) throw new Error(`not a solid: ${solid.status()}`);
    return solid;
  }) as [Manifold, Manifold];
  const pose = (solid: Manifold, { turn, by }: Pose): Manifold => {
    const turned = solid.rotate([0, 0, (turn * 180) / Math.PI]);
    const moved = turned.translate(by);
    turned.delete();
    return moved;
  };
  const inPlace = <T>(first: Pose, second: Pose, look: (p: Manifold, q: Manifold) => T): T => {
    const [p, q] = [pose(a, first), pose(b, second)];
    const seen = look(p, q);
    p.delete();
    q.delete();
    return seen;
  };
  return {
    at: (first, second) =>
      inPlace(first, second, (p, q) => {
        const common = p.intersect(q);
        const volume = common.volume();
        common.delete();
        return volume;
      }),
    gap: (first, second, search) => inPlace(first, second, (p, q) => p.minGap(q, search)),
    free: () => {
      a.delete();
      b.delete();
    },
  };
}
