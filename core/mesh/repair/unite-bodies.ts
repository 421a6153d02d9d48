import { SolidError } from '../../solid/errors.js';
import { measureTopology } from '../../solid/mesh-topology.js';
import type { Kernel, Mesh, Solid, Vec3 } from '../../solid/types.js';
import { turnTriangles } from '../health/patches.js';

/** One closed outside and the cavities in it, which face inwards. */
export interface Body {
  readonly outside: Mesh;
  readonly cavities: readonly Mesh[];
}

/**
 * How far, mm, bodies are moved apart when faces that all but coincide cannot be united as they lie: to float32 they
 * cross at random. Nothing that can be cast or printed is so small.
 */
const shifts = [0.0005, 0.001, 0.002] as const;

/** Along no axis, and along none of the usual slopes; where one way leaves crumbs, another may not. */
const aslant: readonly Vec3[] = [
  [0.5257, 0.6121, 0.5907],
  [-0.3642, 0.4173, 0.8326],
  [0.7691, -0.5523, 0.3217],
];

/**
 * All bodies as one, and how far they were moved for it at most, mm; null where the kernel cannot carry the result, or
 * where it hangs together otherwise when they are moved the other way: then they only touch.
 */
export function uniteBodies(
  kernel: Kernel,
  bodies: readonly Body[],
): { readonly mesh: Mesh; readonly shift: number } | null {
  const still = tryUnion(kernel, bodies, [0, 0, 0]);
  if (still !== 'not-carriable') return still && { mesh: still, shift: 0 };
  for (const shift of shifts) {
    for (const [x, y, z] of aslant) {
      const [dx, dy, dz] = [shift * x, shift * y, shift * z];
      const there = tryUnion(kernel, bodies, [dx, dy, dz]);
      if (there === null) return null;
      if (there === 'not-carriable') continue;
      const back = tryUnion(kernel, bodies, [-dx, -dy, -dz]);
      if (back === null) return null;
      if (back === 'not-carriable') continue;
      return hangAlike(there, back) ? { mesh: there, shift } : null;
    }
  }
  return null;
}

/** Null where a body is no solid by itself. */
function tryUnion(kernel: Kernel, bodies: readonly Body[], shift: Vec3): Mesh | 'not-carriable' | null {
  try {
    return kernel.scope(() => kernel.union(partsOf(kernel, bodies, shift)).mesh());
  } catch (error) {
    if (!(error instanceof SolidError)) throw error;
    return error.code === 'not-carriable' ? error.code : null;
  }
}

function hangAlike(a: Mesh, b: Mesh): boolean {
  const [one, other] = [measureTopology(a), measureTopology(b)];
  return one.components === other.components && one.genus === other.genus;
}

function partsOf(kernel: Kernel, bodies: readonly Body[], [dx, dy, dz]: Vec3): Solid[] {
  return bodies.map(({ outside, cavities }, i) => {
    const inner = cavities.map((cavity) =>
      kernel.fromMesh({
        positions: cavity.positions,
        triangles: turnTriangles(cavity.triangles, () => true),
      }),
    );
    const solid = kernel.fromMesh(outside).subtract(...inner);
    // Every other one, each by another part of the way.
    const share = i % 2 === 0 ? 0 : 1 / (1 + (i % 7) / 7);
    return share === 0 ? solid : solid.translate([dx * share, dy * share, dz * share]);
  });
}
