import { SolidError } from '../../solid/errors.js';
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
const shifts = [0, 0.0005, 0.002] as const;

/** Along no axis, and along none of the usual slopes. */
const aslant: Vec3 = [0.5257, 0.6121, 0.5907];

/** All bodies as one, and how far they were moved for it at most, mm; null where the kernel cannot carry the result. */
export function uniteBodies(
  kernel: Kernel,
  bodies: readonly Body[],
): { readonly mesh: Mesh; readonly shift: number } | null {
  for (const shift of shifts) {
    try {
      return { mesh: kernel.scope(() => kernel.union(partsOf(kernel, bodies, shift)).mesh()), shift };
    } catch (error) {
      if (!(error instanceof SolidError)) throw error;
      // What is no solid by itself stays none.
      if (error.code !== 'not-carriable') return null;
    }
  }
  return null;
}

function partsOf(kernel: Kernel, bodies: readonly Body[], shift: number): Solid[] {
  return bodies.map(({ outside, cavities }, i) => {
    const inner = cavities.map((cavity) =>
      kernel.fromMesh({
        positions: cavity.positions,
        triangles: turnTriangles(cavity.triangles, () => true),
      }),
    );
    const solid = kernel.fromMesh(outside).subtract(...inner);
    // Every other one, each by another part of the way.
    const by = i % 2 === 0 ? 0 : shift / (1 + (i % 7) / 7);
    return by === 0 ? solid : solid.translate([aslant[0] * by, aslant[1] * by, aslant[2] * by]);
  });
}
