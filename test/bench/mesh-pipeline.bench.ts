/**
 * A part from a large mesh, from the bytes of its file to the finished job: `npm run bench`. Seconds by stage, and the
 * most memory up to there. Not among the tests: it takes minutes, and wants a quiet machine.
 */
import { test } from 'vitest';
import { readMeshFile } from '../../core/files/mesh-read/index.js';
import { writeStl } from '../../core/files/stl.js';
import { findGatePlaces } from '../../core/mesh/entry/index.js';
import { examineMesh } from '../../core/mesh/health/index.js';
import { offsetMesh } from '../../core/mesh/offset/index.js';
import { repairMesh } from '../../core/mesh/repair/index.js';
import { rankDirections, turnToStand } from '../../core/mesh/stand/index.js';
import { findSurfaces } from '../../core/mesh/surfaces/index.js';
import { loadKernel } from '../../core/solid/kernel.js';
import type { Mesh } from '../../core/solid/types.js';
import { loadMeshBuilding } from '../../generators/mesh/load-building.js';
import { makeMesh } from '../helpers/mesh-jobs.js';

const say = (text: string): void => void process.stdout.write(`${text}\n`);

/** A ball of 80 mm with waves of 1.6 mm all over, by rings of corners: about so many triangles. */
function bumpyBall(about: number): Mesh {
  const rings = Math.round(Math.sqrt(about / 4));
  const around = 2 * rings;
  const positions: number[] = [];
  const put = (polar: number, turn: number): void => {
    const r = 40 * (1 + 0.02 * Math.sin(7 * polar) * Math.sin(polar) ** 2 * Math.cos(9 * turn));
    positions.push(
      r * Math.sin(polar) * Math.cos(turn),
      r * Math.sin(polar) * Math.sin(turn),
      r * Math.cos(polar),
    );
  };
  for (let i = 1; i < rings; i++)
    for (let j = 0; j < around; j++) put((Math.PI * i) / rings, (2 * Math.PI * j) / around);
  const at = (i: number, j: number): number => (i - 1) * around + (j % around);
  const [top, bottom] = [(rings - 1) * around, (rings - 1) * around + 1];
  positions.push(0, 0, 40, 0, 0, -40);
  const triangles: number[] = [];
  for (let j = 0; j < around; j++) {
    triangles.push(top, at(1, j), at(1, j + 1), bottom, at(rings - 1, j + 1), at(rings - 1, j));
    for (let i = 1; i < rings - 1; i++)
      triangles.push(at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j), at(i + 1, j + 1), at(i, j + 1));
  }
  return { positions: Float32Array.from(positions), triangles: Uint32Array.from(triangles) };
}

test('a part from a large mesh', async () => {
  const kernel = await loadKernel();
  await loadMeshBuilding();
  const timed = <T>(name: string, work: () => T): T => {
    const [begun, used] = [performance.now(), process.cpuUsage()];
    const result = work();
    const { user, system } = process.cpuUsage(used);
    say(
      `  ${name}: ${((performance.now() - begun) / 1e3).toFixed(2)} s, processor ${((user + system) / 1e6).toFixed(2)} s, ` +
        `peak ${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MiB`,
    );
    return result;
  };
  for (const about of [50_000, 500_000]) {
    const bytes = writeStl(bumpyBall(about));
    say(`${(bytes.length - 84) / 50} triangles, ${(bytes.length / 2 ** 20).toFixed(1)} MiB of STL`);
    const file = timed('read', () => readMeshFile(bytes, 'ball.stl'));
    const repair = timed('mend', () => repairMesh(file.mesh, kernel));
    if (!repair.ok) throw new Error(JSON.stringify(repair.faults));
    timed('examine', () => examineMesh(repair.mesh));
    timed('surfaces', () => findSurfaces(repair.mesh, 'mm'));
    const [best] = timed('ways to stand', () => rankDirections(repair.mesh));
    const { mesh } = timed('turn', () => turnToStand(repair.mesh, best!.direction));
    const amounts = new Float64Array(mesh.triangles.length / 3).fill(0.25);
    const moved = timed('stock', () => offsetMesh(kernel, mesh, amounts));
    timed('gate places', () => findGatePlaces(moved.mesh));
    for (const freeze of ['off', 'coarse']) {
      // Read anew: what is kept of a file would make the second look quick.
      const fresh = readMeshFile(bytes, 'ball.stl');
      const made = timed(`whole job, freeze ${freeze}`, () =>
        makeMesh(fresh, kernel, { fileUnit: 'mm' }, { job: { freeze } }),
      );
      if (!made.ok) throw new Error(JSON.stringify(made.findings));
    }
  }
});
