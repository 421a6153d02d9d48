import fc from 'fast-check';
import { beforeAll, expect, it } from 'vitest';
import { loadKernel, SolidError } from '../../core/solid/index.js';
import type { Kernel, Solid, Vec3 } from '../../core/solid/types.js';
import { expectSound } from '../helpers/expect-sound.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

type Shape =
  | { readonly kind: 'box' | 'cylinder' | 'sphere'; readonly at: Vec3; readonly size: number }
  | { readonly kind: 'add' | 'subtract' | 'intersect'; readonly a: Shape; readonly b: Shape }
  | { readonly kind: 'turn'; readonly a: Shape; readonly angle: number };

// Hundredths of a millimetre: faces coincide exactly or stand a real amount apart, as in parts they must.
const length = fc.integer({ min: -1200, max: 1200 }).map((v) => v / 100);
const leaf: fc.Arbitrary<Shape> = fc.record({
  kind: fc.constantFrom('box' as const, 'cylinder' as const, 'sphere' as const),
  at: fc.tuple(length, length, length),
  size: fc.integer({ min: 200, max: 1200 }).map((v) => v / 100),
});
const { tree } = fc.letrec<{ tree: Shape }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 4, depthSize: 'medium' },
    leaf,
    fc.record({
      kind: fc.constantFrom('add' as const, 'subtract' as const, 'intersect' as const),
      a: tie('tree'),
      b: tie('tree'),
    }),
    fc.record({
      kind: fc.constant('turn' as const),
      a: tie('tree'),
      angle: fc.integer({ min: -300, max: 300 }).map((v) => v / 100),
    }),
  ),
}));

function build(shape: Shape): Solid {
  switch (shape.kind) {
    case 'box': {
      const [x, y, z] = shape.at;
      return kernel.box(shape.at, [x + shape.size, y + shape.size, z + shape.size]);
    }
    case 'cylinder':
      return kernel.frustum(
        [shape.at[0], shape.at[1]],
        shape.at[2],
        shape.size / 2,
        shape.at[2] + shape.size,
        shape.size / 3,
        0.05,
      );
    case 'sphere':
      return kernel.sphere(shape.at, shape.size / 2, 0.05);
    case 'turn':
      return build(shape.a).rotate('x', shape.angle);
    case 'add':
      return build(shape.a).add(build(shape.b));
    default:
      return build(shape.a)[shape.kind](build(shape.b));
  }
}

it('random trees of booleans give sound meshes or say why not (300 trees, seed 20261125)', () => {
  let made = 0;
  fc.assert(
    fc.property(tree, (shape) => {
      const mesh = kernel.scope(() => {
        try {
          const solid = build(shape);
          return solid.isEmpty() ? null : solid.mesh();
        } catch (error) {
          // An empty result of a step is told; a shape that cannot be carried would be a fault here.
          if (error instanceof SolidError && error.code !== 'not-carriable') return null;
          throw error;
        }
      });
      if (!mesh) return;
      made++;
      expectSound(mesh);
    }),
    { numRuns: Number(process.env.PATTERNWRIGHT_RUNS ?? 300), seed: 20261125, endOnFailure: true },
  );
  expect(made).toBeGreaterThan(100);
});
