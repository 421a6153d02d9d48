import { beforeAll, expect, test } from 'vitest';
import { readMeshFile } from '../../core/files/mesh-read/index.js';
import { writeStl } from '../../core/files/stl.js';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel } from '../../core/solid/types.js';
import { loadMeshBuilding } from '../../generators/mesh/load-building.js';
import { jobOf, makeMesh, makeOnly } from '../helpers/mesh-jobs.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
  await loadMeshBuilding();
});

const stock = { flank: '0.2mm', tip: '0.2mm', face: '0.8mm', bore: '0.7mm', skin: '0.8mm', mating: '0.8mm' };

/**
 * Finished parts of ours, written and read again as meshes whose surfaces are marked for the same stock. Where metal
 * enters, the face is skin of the same amount: gates keep off marked faces. Holes that our own parts leave to the drill
 * are none of these: a mesh's are cast.
 */
test.each([
  [
    'spur-gear',
    { teeth: 17, faceWidth: 12, bore: 10 },
    'everything = flank; top face = skin; bottom face = face; bore at 0, 0 = bore',
  ],
  [
    'helical-gear',
    { teeth: 17, faceWidth: 12, bore: 10 },
    'everything = flank; top face = skin; bottom face = face; bore at 0, 0 = bore',
  ],
  ['fairlead', {}, 'all flat faces = skin'],
])('%s: stock put on its mesh weighs what its own stock does', (part, parameters, marks) => {
  const tolerance = '0.05mm';
  const own = makeOnly(
    jobOf({ job: 'own', tolerance, freeze: 'off', parts: [{ name: 'own', part, stock, parameters }] }),
    kernel,
  );
  if (!own.ok) throw new Error(JSON.stringify(own.findings));
  const file = readMeshFile(writeStl(own.made.meshes.part), 'x.stl');
  const again = makeMesh(file, kernel, { fileUnit: 'mm', up: 'as-drawn', marks }, { part: { stock } });
  if (!again.ok) throw new Error(JSON.stringify(again.findings));
  expect(again.made.mass.part / own.made.mass.part).toBeCloseTo(1, 6);
  expect(Math.abs(again.made.mass.casting / own.made.mass.casting - 1)).toBeLessThan(0.002);
  // Of the stock alone: tip edges come to a point here and are bevelled there, and chords are parallels.
  const added = ({ mass }: typeof own.made): number => mass.casting - mass.part;
  expect(Math.abs(added(again.made) / added(own.made) - 1)).toBeLessThan(0.01);
});
