import { beforeAll, describe, expect, test } from 'vitest';
import { offsetMesh } from '../../../../core/mesh/offset/index.js';
import { noStock, type Stock } from '../../../../core/part/stock.js';
import { inspectMesh } from '../../../../core/solid/index.js';
import { loadKernel } from '../../../../core/solid/kernel.js';
import type { Kernel, Mesh, Vec3 } from '../../../../core/solid/types.js';
import doubleHelical from '../../../../generators/double-helical-gear.js';
import spur from '../../../../generators/spur-gear.js';
import { expectSound } from '../../../helpers/expect-sound.js';
import { farthest } from './distance.js';
import { amountsOf } from './shapes.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const tolerance = 0.01;

function build(part: typeof spur | typeof doubleHelical, stock: Stock): Mesh {
  return kernel.scope(() => {
    const kit = { kernel, tolerance };
    const built =
      part === spur
        ? spur.build(spur.parameters.parse({}), stock, kit)
        : doubleHelical.build(doubleHelical.parameters.parse({}), stock, kit);
    if (built.solid === null) throw new Error(built.findings.map((f) => f.message).join(' '));
    return built.solid.mesh();
  });
}

const allOver = (d: number): Stock => ({ flank: d, tip: d, face: d, bore: d, skin: d, mating: d });

describe('our own gears against their exact stock', () => {
  test.each([
    ['spur', 0.3],
    ['spur', 0.5],
    ['double helical', 0.3],
    ['double helical', 0.5],
  ] as const)('%s, %d mm', (kind, d) => {
    const part = kind === 'spur' ? spur : doubleHelical;
    const [bare, exact] = [build(part, noStock), build(part, allOver(d))];
    const { mesh, error } = offsetMesh(kernel, bare, new Float64Array(bare.triangles.length / 3).fill(d));
    expectSound(mesh);
    // Both are chord meshes within 0.01 mm of the same surface, each with corners of its own.
    expect(farthest(mesh, exact)).toBeLessThan(2 * tolerance);
    expect(farthest(exact, mesh)).toBeLessThan(2 * tolerance);
    expect(error.max).toBeLessThan(0.03);
    expect(inspectMesh(mesh).volume / inspectMesh(exact).volume).toBeCloseTo(1, 3);
  });

  test('an amount for each class of surface', () => {
    const stock: Stock = { ...noStock, flank: 0.4, tip: 0.4, face: 1, bore: 0.6 };
    const [bare, exact] = [build(spur, noStock), build(spur, stock)];
    const amounts = amountsOf(bare, (n: Vec3, c: Vec3) =>
      Math.abs(n[2]) > 0.99 ? stock.face : Math.hypot(c[0], c[1]) < 10 ? stock.bore : stock.flank,
    );
    const { mesh, error } = offsetMesh(kernel, bare, amounts);
    expectSound(mesh);
    expect(farthest(mesh, exact)).toBeLessThan(2 * tolerance);
    expect(farthest(exact, mesh)).toBeLessThan(2 * tolerance);
    expect(error.max).toBeLessThan(1e-5);
  });

  test('past the radius of the root fillets the parallel has a sharp root, where the generator keeps a round one', () => {
    const [bare, exact] = [build(spur, noStock), build(spur, allOver(1))];
    const { mesh, error } = offsetMesh(kernel, bare, new Float64Array(bare.triangles.length / 3).fill(1));
    expectSound(mesh);
    // True to its definition; the two roots differ, at 22.2 to 22.9 mm.
    expect(error.max).toBeLessThan(1e-5);
    expect(farthest(mesh, exact)).toBeLessThan(0.15);
    const [root, tip] = [22.95, 26.7];
    expect(farthest(mesh, exact, (r) => r < 22.1 || (r > root && r < tip))).toBeLessThan(2 * tolerance);
    // Out at the tip corner the flank goes on straight from its last chord, not along the involute.
    expect(farthest(mesh, exact, (r) => r > tip)).toBeLessThan(4 * tolerance);
  });
});
