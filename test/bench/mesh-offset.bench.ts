/**
 * Stock on meshes: `npm run bench`. Error as measured on the result, time of one processor and by the clock, and how
 * much of the sharp edges is still there. Not among the tests: it wants a quiet machine.
 */
import { test } from 'vitest';
import { offsetMesh } from '../../core/mesh/offset/index.js';
import { noStock } from '../../core/part/stock.js';
import { inspectMesh } from '../../core/solid/index.js';
import { loadKernel } from '../../core/solid/kernel.js';
import type { Mesh } from '../../core/solid/types.js';
import doubleHelical from '../../generators/double-helical-gear.js';
import spur from '../../generators/spur-gear.js';
import { bunnyMesh } from '../core/mesh/offset/bunny.js';
import { farthest } from '../core/mesh/offset/distance.js';
import { facesOf, meshOf, subdivide, torus } from '../core/mesh/offset/shapes.js';

const say = (text: string): void => void process.stdout.write(`${text}\n`);

/** Length of the edges whose sides bend by more than 30°, mm. */
function sharpLength(mesh: Mesh): number {
  const faces = facesOf(mesh);
  const { positions: p, triangles: t } = mesh;
  const sides = new Map<number, number>();
  let length = 0;
  for (let h = 0; h < t.length; h++) {
    const [a, b] = [t[h]!, t[h % 3 === 2 ? h - 2 : h + 1]!];
    const key = Math.min(a, b) * (p.length / 3) + Math.max(a, b);
    const other = sides.get(key);
    if (other === undefined) {
      sides.set(key, h);
      continue;
    }
    const [m, n] = [faces[Math.floor(h / 3)]!.n, faces[Math.floor(other / 3)]!.n];
    if (m[0] * n[0] + m[1] * n[1] + m[2] * n[2] > Math.cos(Math.PI / 6)) continue;
    length += Math.hypot(p[3 * a]! - p[3 * b]!, p[3 * a + 1]! - p[3 * b + 1]!, p[3 * a + 2]! - p[3 * b + 2]!);
  }
  return length;
}

test('stock on meshes', async () => {
  const kernel = await loadKernel();
  const allOver = (d: number) => ({ flank: d, tip: d, face: d, bore: d, skin: d, mating: d });
  const gear = (part: 'spur' | 'double helical', d: number): Mesh =>
    kernel.scope(() => {
      const kit = { kernel, tolerance: 0.01 };
      const stock = d === 0 ? noStock : allOver(d);
      const built =
        part === 'spur'
          ? spur.build(spur.parameters.parse({}), stock, kit)
          : doubleHelical.build(doubleHelical.parameters.parse({}), stock, kit);
      if (built.solid === null) throw new Error('no gear');
      return built.solid.mesh();
    });
  const ball = (tolerance: number): Mesh => meshOf(kernel, () => kernel.sphere([0, 0, 0], 50, tolerance));
  const scan = (levels: number): Mesh => {
    let mesh = bunnyMesh();
    for (let i = 0; i < levels; i++) mesh = subdivide(mesh);
    return mesh;
  };
  const cube = meshOf(kernel, () => kernel.box([0, 0, 0], [40, 40, 40]));
  say(
    'body, amount | triangles | error max, mean, µm | s, processor s | sharp edges, mm | to the exact one, µm',
  );
  const line = (name: string, mesh: Mesh, d: number, exact?: Mesh): void => {
    const amounts = new Float64Array(mesh.triangles.length / 3).fill(d);
    const [begun, used] = [performance.now(), process.cpuUsage()];
    const { mesh: result, error } = offsetMesh(kernel, mesh, amounts);
    const seconds = (performance.now() - begun) / 1e3;
    const { user, system } = process.cpuUsage(used);
    const apart = exact ? (1e3 * Math.max(farthest(result, exact), farthest(exact, result))).toFixed(1) : '';
    say(
      `${name}, ${d} mm | ${mesh.triangles.length / 3} → ${result.triangles.length / 3} | ` +
        `${(1e3 * error.max).toPrecision(3)}, ${(1e3 * error.mean).toPrecision(3)} | ` +
        `${seconds.toFixed(2)}, ${((user + system) / 1e6).toFixed(2)} | ` +
        `${sharpLength(mesh).toFixed(0)} → ${sharpLength(result).toFixed(0)} | ${apart} | ` +
        `joined ${error.joined}, short ${error.short}, ${inspectMesh(result).ok ? 'sound' : 'NOT SOUND'}, ` +
        `peak ${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MiB`,
    );
  };
  for (const d of [1, -1]) {
    line('cube', cube, d);
    line('torus', torus(kernel, 30, 8, 0.01), d);
    line('ball', ball(0.006), d);
  }
  for (const d of [0.3, 0.5, 1]) {
    line('spur gear', gear('spur', 0), d, gear('spur', d));
    line('double helical gear', gear('double helical', 0), d, gear('double helical', d));
  }
  for (const d of [0.25, 0.5, -0.5]) line('scan', scan(0), d);
  for (const d of [0.25, 0.5, -0.5]) line('scan in 16', scan(2), d);
  line('ball', ball(0.0006), 1);
  line('scan in 64', scan(3), 0.5);
  line('scan in 256', scan(4), 0.5);
});
