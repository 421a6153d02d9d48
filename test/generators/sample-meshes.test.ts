import { BufferAttribute, BufferGeometry, CapsuleGeometry, TorusKnotGeometry, Vector3 } from 'three';
import { TeapotGeometry } from 'three/examples/jsm/geometries/TeapotGeometry.js';
import { MeshBVH } from 'three-mesh-bvh';
import { beforeAll, describe, expect, test } from 'vitest';
import { meshStates } from '../../core/job/make-part.js';
import type { MeshFile } from '../../core/mesh/mesh-file.js';
import { inspectMesh, loadKernel } from '../../core/solid/index.js';
import type { ExactMesh, Kernel, Mesh, Vec3 } from '../../core/solid/types.js';
import { loadMeshBuilding } from '../../generators/mesh/load-building.js';
import { stands } from '../../generators/mesh/parameters.js';
import { isInside, standsOut } from '../helpers/any-mesh-part.js';
import { expectSound } from '../helpers/expect-sound.js';
import { accidents, makeMesh, type Outcome } from '../helpers/mesh-jobs.js';
import { bunny, teapot } from '../helpers/sample-meshes.js';

/** Meshes that anyone may try programs on, from the package registry, all the way to a gated pattern. */

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
  await loadMeshBuilding();
});

/** As a format without a unit gives it. */
const fileOf = (mesh: ExactMesh): MeshFile => ({ format: 'obj', unit: null, mesh });

type Made = Outcome & { readonly ok: true };

function made(outcome: Outcome): Made {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.findings.filter((f) => f.severity === 'stop')));
  return outcome;
}

/** Ascending distances, mm, from corners and inner points of a mesh's triangles to another mesh, by a general library. */
function distances(from: Mesh, to: Mesh): Float64Array {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(to.positions.slice(), 3));
  geometry.setIndex(new BufferAttribute(to.triangles.slice(), 1));
  const tree = new MeshBVH(geometry);
  const { positions: p, triangles: t } = from;
  const places = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
    [0.5, 0.5, 0],
    [1 / 3, 1 / 3, 1 / 3],
    [0.8, 0.1, 0.1],
  ];
  const all: number[] = [];
  for (let f = 0; f < t.length; f += 3)
    for (const place of places) {
      const at = [0, 1, 2].map((k) => place.reduce((sum, w, i) => sum + w * p[3 * t[f + i]! + k]!, 0));
      all.push(tree.closestPointToPoint(new Vector3(at[0]!, at[1]!, at[2]!))!.distance);
    }
  return Float64Array.from(all).sort();
}

/** mm² */
function areaOf({ positions: p, triangles: t }: Mesh): number {
  let area = 0;
  const corner = (v: number) => new Vector3(p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!);
  for (let f = 0; f < t.length; f += 3) {
    const [a, b, c] = [corner(t[f]!), corner(t[f + 1]!), corner(t[f + 2]!)];
    area += b.sub(a).cross(c.sub(a)).length() / 2;
  }
  return area;
}

const share = (sorted: Float64Array, part: number): number => sorted[Math.round(part * (sorted.length - 1))]!;

/**
 * Every state holds together, those of `twice` by an independent check too; the part lies in its casting, gate and vents
 * are in one piece with it.
 */
function expectMade(
  { made: { meshes, gating, mass } }: Made,
  twice: readonly (typeof meshStates)[number][] = meshStates,
): void {
  for (const state of meshStates) {
    expect(inspectMesh(meshes[state])).toMatchObject({ problems: [], components: 1 });
    if (twice.includes(state)) expectSound(meshes[state]);
  }
  expect(standsOut(meshes.part, meshes.casting)).toBeLessThan(0.01);
  expect(mass.casting).toBeGreaterThan(mass.part);
  expect(mass.charge).toBeGreaterThan(mass.casting);
  // Metal on both sides of where a gate or vent begins.
  const feet = [...gating.gates.map((gate) => gate.at), ...gating.vents.map((vent) => vent.path[0]!)];
  expect(gating.gates.length).toBeGreaterThan(0);
  for (const [x, y, z] of feet) {
    const sides = [z - 0.4, z + 0.4].map((h): Vec3 => [x, y, h]);
    for (const at of sides) expect({ at, inside: isInside(meshes.gated, at) }).toEqual({ at, inside: true });
  }
  for (const { path } of gating.vents) {
    const [x, y, z] = path.at(-1)!;
    expect(isInside(meshes.gated, [x, y, z - 0.1])).toBe(true);
  }
}

function expectRefused(outcome: Outcome): readonly { code: string; message: string }[] {
  if (outcome.ok) throw new Error('made');
  const stops = outcome.findings.filter((f) => f.severity === 'stop');
  expect(stops.length).toBeGreaterThan(0);
  for (const { message, remedy } of stops) {
    expect(message + remedy).not.toMatch(accidents);
    expect(remedy.length).toBeGreaterThan(10);
  }
  return stops;
}

describe('the Stanford bunny', () => {
  const file = fileOf(bunny(1));

  test.each([
    ['80mm', 80],
    ['3in', 76.2],
  ])('%s long, all the way with filling and freezing', (scaleTo, longest) => {
    const outcome = made(makeMesh(file, kernel, { scaleTo, up: 'as-drawn' }, { job: { freeze: 'coarse' } }));
    expectMade(outcome);
    const { part } = outcome.made.facts;
    expect(Math.max(...part.size)).toBeCloseTo(longest, 3);
    // The mesh as it is, as large: nothing is mended.
    expect(part.triangles).toBe(3674);
    const freeze = outcome.told.freeze!;
    expect(freeze.solid.castings).toBeGreaterThan(30);
    expect(freeze.solid.castings).toBeLessThan(3600);
  });

  test('carries 0.25 mm of skin all round, within 0.13 mm where it is creased', () => {
    const outcome = made(makeMesh(file, kernel, { scaleTo: '80mm', up: 'as-drawn' }));
    const { part, casting } = outcome.made.meshes;
    expect(outcome.made.stock.stock.skin).toBe(0.25);
    const out = distances(casting, part);
    const back = distances(part, casting);
    // No place with less than half of it; 98 of 100 within 0.03 mm; corners stand out by what makes them sharp.
    expect(out[0]).toBeGreaterThan(0.12);
    expect(back[0]).toBeGreaterThan(0.115);
    for (const sorted of [out, back]) {
      expect(share(sorted, 0.01)).toBeGreaterThan(0.22);
      expect(share(sorted, 0.5)).toBeCloseTo(0.25, 2);
    }
    expect(share(back, 0.99)).toBeLessThan(0.28);
    expect(out.at(-1)).toBeLessThan(0.25 * 2);
    // To the first order, area times skin.
    const { part: plain, casting: grown } = outcome.made.facts;
    expect((grown.volume - plain.volume) / (0.25 * areaOf(part))).toBeCloseTo(1, 1.5);
  });

  test.each(stands)('stands %s', (up) => {
    const outcome = makeMesh(file, kernel, { scaleTo: '80mm', up }, { job: { tolerance: '0.1mm' } });
    expectMade(made(outcome), ['gated']);
  });
});

describe('the Utah teapot', () => {
  const file = fileOf(teapot(1));

  test('is refused as it comes, with each of its holes', () => {
    const stops = expectRefused(makeMesh(file, kernel, { scaleTo: '100mm' }));
    // Body, lid, spout and both ends of the handle; the spout's other end and the lid's rim are no flat holes.
    expect(stops.map((s) => s.code).sort()).toEqual([
      ...new Array<string>(5).fill('open-hole'),
      'open-sheet',
    ]);
    const across = stops.flatMap(({ message }) => /([\d.]+) mm across/.exec(message)?.slice(1, 2) ?? []);
    expect(across.map(Number).sort((a, b) => b - a)).toEqual([61.6, 20.05, 8.56, 7.98, 7.14]);
  });

  test.each(['best', 'as-drawn', 'left', 'front'])('stands %s, its holes closed', (up) => {
    const settings = { scaleTo: '100mm', closeHoles: '62mm', up };
    const outcome = made(makeMesh(file, kernel, settings, { job: { tolerance: '0.1mm' } }));
    expectMade(outcome, ['gated']);
    expect(outcome.made.findings.map((f) => f.code)).toContain('mesh-mended');
    expect(inspectMesh(outcome.made.meshes.part)).toMatchObject({ components: 1, genus: 1 });
  });

  // There only the tip of the spout looks up.
  test('has no place for a gate with its right side up, in clear words', () => {
    const [stop, ...more] = expectRefused(
      makeMesh(file, kernel, { scaleTo: '100mm', closeHoles: '62mm', up: 'right' }),
    );
    expect(more).toEqual([]);
    expect(stop).toMatchObject({ code: 'no-gate-place-found' });
  });
});

describe('shapes of a drawing library', () => {
  const from = (geometry: BufferGeometry): MeshFile =>
    fileOf({
      positions: Float64Array.from(geometry.getAttribute('position').array),
      triangles: Uint32Array.from(geometry.getIndex()!.array),
    });

  test('its own teapot, of the same patches, body, lid, handle and spout united', () => {
    const outcome = made(
      makeMesh(from(new TeapotGeometry(50, 6, true, true, true, false, true)), kernel, {
        scaleTo: '80mm',
        closeHoles: '60mm',
      }),
    );
    expectMade(outcome);
    expect(inspectMesh(outcome.made.meshes.part)).toMatchObject({ components: 1, genus: 1 });
  });

  // Round its poles it has rings of corners 1e-15 mm apart, and its seam's two sides differ by as little.
  test.each(['best', 'left'])('a capsule, %s up', (up) => {
    const outcome = made(makeMesh(from(new CapsuleGeometry(10, 20, 8, 24)), kernel, { scaleTo: '80mm', up }));
    expectMade(outcome);
    // 40 mm across: a cylinder of 40 between two half balls, drawn with 24 sides.
    const round = Math.PI * 20 ** 2 * 40 + (4 / 3) * Math.PI * 20 ** 3;
    const { volume } = outcome.made.facts.part;
    expect(volume / round).toBeGreaterThan(0.97);
    expect(volume / round).toBeLessThan(1);
  });

  test('a knot, which holds itself', () => {
    const outcome = made(makeMesh(from(new TorusKnotGeometry(10, 3, 120, 16)), kernel, { scaleTo: '80mm' }));
    expectMade(outcome);
    expect(inspectMesh(outcome.made.meshes.part)).toMatchObject({ components: 1, genus: 1 });
  });
});
