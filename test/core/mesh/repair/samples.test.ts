import { BufferAttribute, BufferGeometry, DoubleSide, Ray, Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { beforeAll, describe, expect, it } from 'vitest';
import { examineMesh } from '../../../../core/mesh/health/index.js';
import { repairMesh } from '../../../../core/mesh/repair/index.js';
import { inspectMesh, loadKernel } from '../../../../core/solid/index.js';
import type { ExactMesh, Kernel, Mesh } from '../../../../core/solid/types.js';
import { expectSound } from '../../../helpers/expect-sound.js';
import { bunny, teapot } from '../../../helpers/sample-meshes.js';
import { seeded } from '../../../helpers/seeded.js';
import { meshOfSoup, soupOf } from './breakages.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** Whether a point lies in a closed mesh: hits of a ray from it, counted by three-mesh-bvh. */
function insideOf({ positions, triangles }: Mesh): (x: number, y: number, z: number) => boolean {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(positions), 3));
  geometry.setIndex(new BufferAttribute(Uint32Array.from(triangles), 1));
  const tree = new MeshBVH(geometry);
  const direction = new Vector3(0.123, 0.456, 0.881).normalize();
  return (x, y, z) => tree.raycast(new Ray(new Vector3(x, y, z), direction), DoubleSide).length % 2 === 1;
}

/** Volume of all that lies in any of the meshes, mm³, by points at random in a box. */
function volumeOfAny(meshes: readonly Mesh[], points: number, seed: number): number {
  const random = seeded(seed);
  const boxes = meshes.map(
    (mesh) => inspectMesh(mesh).boundingBox as NonNullable<ReturnType<typeof inspectMesh>['boundingBox']>,
  );
  const min = [0, 1, 2].map((k) => Math.min(...boxes.map((box) => box.min[k] as number)));
  const max = [0, 1, 2].map((k) => Math.max(...boxes.map((box) => box.max[k] as number)));
  const sides = max.map((v, k) => v - (min[k] as number));
  const insides = meshes.map(insideOf);
  let hits = 0;
  for (let n = 0; n < points; n++) {
    const [x, y, z] = sides.map((side, k) => (min[k] as number) + side * random()) as [
      number,
      number,
      number,
    ];
    if (insides.some((inside) => inside(x, y, z))) hits++;
  }
  return (hits / points) * sides.reduce((product, side) => product * side, 1);
}

/** The pieces of surface, joined where edges have equal coordinates; counted without the program. */
function piecesOf(mesh: ExactMesh): ExactMesh[] {
  const soup = soupOf(mesh);
  const group = soup.map((_, f) => f);
  const find = (f: number): number => (group[f] === f ? f : find(group[f] as number));
  const seen = new Map<string, number>();
  soup.forEach((triangle, f) => {
    triangle.forEach((corner, k) => {
      const key = [corner.join(), (triangle[(k + 1) % 3] as typeof corner).join()].sort().join(' ');
      const known = seen.get(key);
      if (known === undefined) seen.set(key, f);
      else group[find(f)] = find(known);
    });
  });
  const roots = [...new Set(soup.map((_, f) => find(f)))];
  return roots.map((root) => meshOfSoup(soup.filter((_, f) => find(f) === root)));
}

describe('the Stanford bunny', () => {
  it('is one closed surface as it comes, and goes through as it is', () => {
    const mesh = bunny();
    expect(examineMesh(mesh)).toMatchObject({ triangles: 3674, faults: [], holes: [] });
    // Euler by hand: 1839 corners, 3674 triangles, 3674 × 3 / 2 edges.
    expect(1839 - 5511 + 3674).toBe(2);
    const repaired = repairMesh(mesh, kernel);
    expect(repaired).toMatchObject({ ok: true, done: [] });
    if (!repaired.ok) return;
    expectSound(repaired.mesh);
    expect(inspectMesh(repaired.mesh)).toMatchObject({ genus: 0, components: 1, triangles: 3674 });
    const { volume } = inspectMesh(repaired.mesh);
    expect(volumeOfAny([repaired.mesh], 40_000, 1) / volume).toBeCloseTo(1, 1.7);
  });

  it('has its cautions at places that are as thin by another ray caster', () => {
    const mesh = bunny();
    const [caution] = examineMesh(mesh, { leastWall: 4 }).cautions.filter((c) => c.code === 'thin-walls');
    const told = Number(/down to ([\d.]+) mm/.exec(caution?.message ?? '')?.[1]);
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(Float32Array.from(mesh.positions), 3));
    geometry.setIndex(new BufferAttribute(Uint32Array.from(mesh.triangles), 1));
    const tree = new MeshBVH(geometry);
    const at = new Vector3(...(caution?.at ?? [0, 0, 0]));
    const near = tree.closestPointToPoint(at);
    expect(near?.distance).toBeLessThan(1e-4);
    const corners = [0, 1, 2].map((k) => {
      const v = (geometry.index as BufferAttribute).getX(3 * (near?.faceIndex ?? 0) + k);
      return new Vector3().fromBufferAttribute(geometry.getAttribute('position') as BufferAttribute, v);
    }) as [Vector3, Vector3, Vector3];
    const inwards = corners[2].clone().sub(corners[0]).cross(corners[1].clone().sub(corners[0])).normalize();
    const hit = tree.raycastFirst(new Ray(at.clone().addScaledVector(inwards, 1e-3), inwards), DoubleSide);
    expect((hit?.distance ?? 0) + 1e-3).toBeCloseTo(told, 1);
  });
});

describe('the Utah teapot', () => {
  it('is refused: its mouth, lid, spout and handle are open, each told with its place', () => {
    const health = examineMesh(teapot());
    // Seen in the file: rims of 16, 16 and 8 edges; spout and handle open at both ends.
    expect(health.holes.map((hole) => hole.edges)).toEqual([16, 16, 8, 8, 8, 8]);
    expect(health.holes.every((hole) => hole.flat)).toBe(true);
    expect(health.shells.map((shell) => shell.kind)).toEqual(['open', 'open', 'open', 'open']);
    const repaired = repairMesh(teapot(), kernel);
    expect(repaired.ok).toBe(false);
    if (repaired.ok) return;
    expect(repaired.faults.map((fault) => fault.code)).toEqual(['open-sheet', ...Array(5).fill('open-hole')]);
    expect(repaired.faults[1]?.message).toBe(
      'A flat hole of 16 edges, 59.4 mm across, near -3.29, 12.38, 0 mm. It is 64 % of its body across; only holes up to 5 % are surely meant closed. If it is, allow flat holes up to 60 mm.',
    );
  });

  it('is a solid teapot once its flat openings are said to be closed: how far certain repair comes', () => {
    const repaired = repairMesh(teapot(), kernel, { widestHole: 60 });
    expect(repaired).toMatchObject({ ok: true });
    if (!repaired.ok) return;
    expect(repaired.done.map((step) => [step.code, step.count])).toEqual([
      ['holes-filled', 6],
      ['bodies-united', 4],
    ]);
    expectSound(repaired.mesh);
    // One body, and the eye of its handle.
    expect(inspectMesh(repaired.mesh)).toMatchObject({ components: 1, genus: 1 });
    const pieces = piecesOf(teapot()).map((piece) => {
      const closed = repairMesh(piece, kernel, { widestHole: 60 });
      return closed.ok ? closed.mesh : null;
    });
    expect(pieces).toHaveLength(4);
    const volume = volumeOfAny(
      pieces.filter((piece) => piece !== null),
      60_000,
      2,
    );
    expect(volume / inspectMesh(repaired.mesh).volume).toBeCloseTo(1, 1.7);
  });
});
