/**
 * Every part of the program and each of its pieces, gated, nested together and laid on plates: the meshes are sound
 * as writers check them, and no two share any volume.
 */
import { beforeAll, expect, test } from 'vitest';
import { writeCheckedStl } from '../../../core/files/stl.js';
import { type MadePart, makePart } from '../../../core/job/make-part.js';
import { readParameters } from '../../../core/part/parameters.js';
import { joinMeshes, type NestItem, nest, placeMesh, plateMeshes } from '../../../core/plate/index.js';
import { loadKernel } from '../../../core/solid/index.js';
import { inspectMesh } from '../../../core/solid/inspect.js';
import type { Kernel, Mesh } from '../../../core/solid/types.js';
import { parts } from '../../../generators/index.js';
import { plainJob } from '../../helpers/part-space.js';
import { faultsOf } from './plate-oracle.js';

let kernel: Kernel;
const made = new Map<string, MadePart>();

beforeAll(async () => {
  kernel = await loadKernel();
  for (const part of parts) {
    for (const piece of part.pieces ?? [undefined]) {
      const reading = readParameters(part, {}, { lengthUnit: 'mm' });
      if (!reading.ok) continue;
      const name = piece === undefined ? part.name : `${part.name} ${piece.name}`;
      const request = {
        name,
        part: part.name,
        ...(piece === undefined ? {} : { piece: piece.name }),
        quantity: 1,
        alloy: 'tin-bronze',
        stock: {},
        parameters: reading.parameters as never,
      };
      const outcome = makePart(request, part, plainJob(0.2), kernel);
      if (outcome.ok) made.set(name, outcome.made);
    }
  }
});

test('are most of the parts', () => expect(made.size).toBeGreaterThanOrEqual(15));

test('each is sound at turns round the circle', () => {
  let k = 0;
  for (const [name, { meshes }] of made) {
    for (let i = 0; i < 4; i++) {
      const turn = i === 0 ? Math.PI / 2 : 0.31 + 1.57 * i + 0.017 * k++;
      const { problems } = inspectMesh(
        placeMesh(meshes.gated, { x: 37.7 + 41.3 * i, y: 171.9 - 13.1 * i, z: 0, turn }),
      );
      expect({ name, turn, problems }).toEqual({ name, turn, problems: [] });
    }
  }
});

test('two of each on plates keep apart, by their outlines and by their volumes, and are sound when written', () => {
  const items: NestItem[] = [...made].flatMap(([name, m]) =>
    [1, 2].map((copy) => ({ name, copy, outline: m.silhouette, height: m.facts.gated.size[2] })),
  );
  const bed = { width: 260, depth: 260, height: 400, margin: 5, gap: 1 };
  const result = nest(items, bed, { rounds: 20 });
  expect(result.refused).toEqual([]);
  expect(faultsOf(items, bed, result)).toEqual([]);
  const meshes = new Map([...made].map(([name, m]) => [name, m.meshes.gated]));
  // Free turns are what is to be proved.
  const turns = result.plates.flat().map((p) => p.turn / (Math.PI / 2));
  expect(turns.some((t) => Math.abs(t - Math.round(t)) > 0.01)).toBe(true);
  for (const plate of result.plates) {
    const placed = plateMeshes(plate, meshes);
    writeCheckedStl(joinMeshes(placed.map((p) => p.mesh)), 'the plate');
    const boxes = placed.map((p) => boxOf(p.mesh));
    placed.forEach((a, i) => {
      for (let j = i + 1; j < placed.length; j++) {
        const apart = [0, 1].some(
          (k) => boxes[i]!.max[k]! < boxes[j]!.min[k]! || boxes[j]!.max[k]! < boxes[i]!.min[k]!,
        );
        if (apart) continue;
        const isClear = kernel.scope(() =>
          kernel.fromMesh(a.mesh).intersect(kernel.fromMesh(placed[j]!.mesh)).isEmpty(),
        );
        expect([a.name, placed[j]!.name, isClear]).toEqual([a.name, placed[j]!.name, true]);
      }
    });
  }
});

function boxOf({ positions: p }: Mesh) {
  const min = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const max = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < p.length; i += 3) {
    for (let k = 0; k < 2; k++) {
      min[k] = Math.min(min[k]!, p[i + k]!);
      max[k] = Math.max(max[k]!, p[i + k]!);
    }
  }
  return { min, max };
}
