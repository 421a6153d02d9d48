import fc from 'fast-check';
import { BufferAttribute, BufferGeometry, DoubleSide, Ray, Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { beforeAll, describe, expect, it } from 'vitest';
import { findInvestment } from '../../core/foundry/investment.js';
import { findPlastic } from '../../core/foundry/material.js';
import { type MadePart, makePart } from '../../core/job/make-part.js';
import { shellFor } from '../../core/job/shell-job.js';
import type { PartDefinition } from '../../core/part/contract.js';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel, Mesh } from '../../core/solid/types.js';
import { findPart } from '../../generators/index.js';
import { legalParameters } from '../helpers/legal-parameters.js';
import { plainJob } from '../helpers/part-space.js';

const seed = 20261126;
const investment = findInvestment('ceramic-shell');
const plastic = findPlastic('PLA')!;
const job = { ...plainJob(0.1), investment: 'ceramic-shell' };
const names = ['spur-gear', 'ring-gear', 'horn-cleat', 'deck-eye', 'hatch-pull', 'knob', 'fairlead'] as const;

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

function made(part: PartDefinition, alloy: string, parameters: unknown): MadePart | undefined {
  const piece = part.pieces?.[0]?.name;
  const outcome = makePart(
    {
      name: 'set',
      part: part.name,
      ...(piece === undefined ? {} : { piece }),
      quantity: 1,
      alloy,
      stock: {},
      parameters: parameters as never,
    },
    part,
    job,
    kernel,
  );
  return outcome.ok ? outcome.made : undefined;
}

/** mm³ outside a mesh and within a distance of it, by random points in its grown box (three-mesh-bvh); ± 2 %. */
function volumeWithin(mesh: Mesh, distance: number, points: number): number {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(mesh.positions), 3));
  geometry.setIndex(new BufferAttribute(Uint32Array.from(mesh.triangles), 1));
  const tree = new MeshBVH(geometry);
  geometry.computeBoundingBox();
  const box = geometry.boundingBox!.expandByScalar(distance);
  const size = box.getSize(new Vector3());
  let state = seed;
  const random = (): number => {
    // Park & Miller, CACM 31 (1988).
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  let hits = 0;
  const target = { point: new Vector3(), distance: 0, faceIndex: 0 };
  for (let i = 0; i < points; i++) {
    const at = new Vector3(random(), random(), random()).multiply(size).add(box.min);
    const near = tree.closestPointToPoint(at, target, 0, distance);
    if (near === null || near.distance > distance) continue;
    const ray = new Ray(at, new Vector3(0.123, 0.456, 0.881).normalize());
    if (tree.raycast(ray, DoubleSide).length % 2 === 0) hits++;
  }
  return (hits / points) * size.x * size.y * size.z;
}

describe.each(names)('%s in a shell', (name) => {
  const part = findPart(name)!;

  it(`is clothed over its legal space, whatever the metal (seed ${seed})`, () => {
    fc.assert(
      fc.property(
        legalParameters(part),
        fc.constantFrom('tin-bronze', 'a356', 'grey-iron'),
        (parameters, alloy) => {
          const one = made(part, alloy, parameters);
          if (!one) return;
          const plan = shellFor(one, job, investment, plastic);
          const numbers = JSON.stringify({ ...plan, findings: [], bases: {} });
          expect(numbers).not.toMatch(/null|NaN/);
          expect(plan.volume).toBeGreaterThan(0);
          expect(plan.stress.greatest).toBeGreaterThan(0);
          expect(plan.tank.slurry).toBeGreaterThan(0);
          expect(plan.findings.some((f) => f.severity === 'stop')).toBe(false);
        },
      ),
      { numRuns: 3, seed },
    );
  });

  it('weighs what lies within the thickness of its surface, by random points', () => {
    const one = made(part, 'tin-bronze', part.parameters.parse({}))!;
    const plan = shellFor(one, job, investment, plastic);
    // Steiner's polynomial counts what fills up in tooth spaces and fillets from both sides: over, never under.
    const ratio = plan.volume / volumeWithin(one.meshes.gated, plan.thickness, 20_000);
    expect(ratio).toBeGreaterThan(0.98);
    expect(ratio).toBeLessThan(1.25);
  });
});
