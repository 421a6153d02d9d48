import { beforeAll, expect, test } from 'vitest';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel } from '../../core/solid/types.js';
import { loadMeshBuilding } from '../../generators/mesh/load-building.js';
import { type AnyMeshPart, faultsOf, tryMeshPart } from '../helpers/any-mesh-part.js';

/** Random parts that were once made wrongly, or refused as a fault of the program. */

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
  await loadMeshBuilding();
});

const plain: Omit<AnyMeshPart, 'solid'> = {
  format: '3mf',
  unit: 'mm',
  units: 'mm',
  up: 'as-drawn',
  marks: [],
  wear: null,
  gate: '',
  gateOf: 0,
  scale: 1,
  stock: { skin: 1, bore: 1 },
  fillCavities: false,
};

const once: Readonly<Record<string, AnyMeshPart>> = {
  'a small cone in a loft, whose stock folds so that the kernel cannot give it back': {
    ...plain,
    up: 'bottom',
    solid: {
      bodies: [
        { kind: 'cone', size: [0.41602, 0.44148, 0.40234], at: [0.2776, -0.2472, 0.0872], turn: [0, 0, 0] },
        {
          kind: 'loft',
          size: [0.20588, 0.18422, 0.43312],
          at: [0.2936, -0.208, 0.2],
          turn: [1.56, 2.94, -0.048],
        },
      ],
      bores: [{ radius: 0.08022, at: [0.2496, 0.3], along: 'z' }],
      turn: [0, 0, 0],
      longest: 10.15,
      chord: 0.001,
    },
  },
};

test.each(Object.keys(once))('%s', (name) => {
  const any = once[name]!;
  const tried = tryMeshPart(any, kernel);
  expect(tried).not.toBeNull();
  expect(faultsOf(tried!, any)).toEqual([]);
});
