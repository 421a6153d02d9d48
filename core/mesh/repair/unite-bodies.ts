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
const shifts = [0.0005, 0.002] as const;

/** Along no axis, and along none of the usual slopes. */
const aslant: Vec3 = [0.5257, 0.6121, 0.5907];

/**
 * All bodies as one, and how far they were moved for it at most, mm; null where the kernel cannot carry the result, or
 * where it hangs together otherwise when they are moved the other way: then they only touch.
 */
export function uniteBodies(
  kernel: Kernel,
  bodies: readonly Body[],
): { readonly mesh: Mesh; readonly shift: number } | null {
  const still = tryUnion(kernel, bodies, 0);
  if (still !== 'not-carriable') return still && { mesh: still, shift: 0 };
  for (const shift of shifts) {
    const [there, back] = [tryUnion(kernel, bodies, shift), tryUnion(kernel, bodies, -shift)];
    if (there === null || back === null) return null;
    if (there === 'not-carriable' || back === 'not-carriable') continue;
    return hangAlike(there, back) ? { mesh: there, shift } : null;
  }
  return null;
}

/** Null where a body is no solid by itself. */
function tryUnion(kernel: Kernel, bodies: readonly Body[], shift: number): Mesh | 'not-carriable' | null {
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
