import fc from 'fast-check';
import { unzipSync } from 'fflate';
import type { BufferGeometry, Mesh as ThreeMesh } from 'three';
import { OBJLoader } from 'three/examples/jsm/loaders/OBJLoader.js';
import { PLYLoader } from 'three/examples/jsm/loaders/PLYLoader.js';
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { describe, expect, test } from 'vitest';
import { readMeshFile } from '../../../../core/files/mesh-read/index.js';
import { writeStl } from '../../../../core/files/stl.js';
import { readStl } from '../../../../core/files/stl-read.js';
import { write3mf } from '../../../../core/files/three-mf.js';
import type { Mesh } from '../../../../core/solid/types.js';
import { box, torus } from '../shapes.js';
import { cornersOf, sampleMeshes, type ThreeForm, threeForms, unsoundness, writeByThree } from './samples.js';
import { modelOf, packageOf } from './zips.js';

const nameOf = (form: ThreeForm): string => `part.${form.split(' ')[0]}`;

describe.each(Object.entries(sampleMeshes))('%s', (_name, mesh) => {
  test.each(threeForms)('written as %s by three is read back bit by bit', (form) => {
    const file = readMeshFile(writeByThree(mesh, form), nameOf(form));
    expect(file.format).toBe(form.split(' ')[0]);
    expect(file.unit).toBe(null);
    expect(unsoundness(file.mesh)).toBe('');
    expect(cornersOf(file.mesh)).toEqual(cornersOf(mesh));
    // STL has no indices; the others keep theirs.
    if (!form.startsWith('stl')) expect(file.mesh.triangles).toEqual(mesh.triangles);
  });

  test('written by our own writers is read back bit by bit', () => {
    const stl = readMeshFile(writeStl(mesh), 'part.stl');
    expect(cornersOf(stl.mesh)).toEqual(cornersOf(mesh));
    const bytes = write3mf([{ name: 'part', mesh, placements: [{ x: 0, y: 0, z: 0, turn: 0 }] }]);
    const { format, unit, mesh: read } = readMeshFile(bytes, 'part.3mf');
    expect([format, unit]).toEqual(['3mf', 1]);
    expect(unsoundness(read)).toBe('');
    // The writer welds first, so corners that fall together are one; each triangle stands where it stood.
    expect(Float32Array.from(cornersOf(read))).toEqual(Float32Array.from(cornersOf(mesh)));
  });
});

test('the readers of three see the same, where they see all', () => {
  for (const mesh of Object.values(sampleMeshes)) {
    const buffer = (form: ThreeForm): ArrayBuffer => writeByThree(mesh, form).slice().buffer;
    const text = (form: ThreeForm): string => new TextDecoder().decode(writeByThree(mesh, form));
    const ours = (form: ThreeForm): Float32Array =>
      Float32Array.from(cornersOf(readMeshFile(writeByThree(mesh, form), 'part').mesh));
    const theirs = (geometry: BufferGeometry): Float32Array =>
      Float32Array.from(
        (geometry.index ? geometry.toNonIndexed() : geometry).getAttribute('position').array,
        (x) => x + 0,
      );
    for (const form of ['stl', 'stl text'] as const)
      expect(theirs(new STLLoader().parse(buffer(form)))).toEqual(ours(form));
    expect(theirs((new OBJLoader().parse(text('obj')).children[0] as ThreeMesh).geometry)).toEqual(
      ours('obj'),
    );
    for (const form of ['ply text', 'ply little', 'ply big'] as const)
      expect(theirs(new PLYLoader().parse(buffer(form)))).toEqual(ours(form));
  }
});

test('a 3MF with several objects and placements comes as one mesh, where they were placed', () => {
  const [first, second] = [box([0, 0, 0], [1, 2, 3]), torus(10, 3, 12, 8)];
  const bytes = write3mf([
    {
      name: 'box',
      mesh: first,
      placements: [
        { x: 5, y: 0, z: 0, turn: 0 },
        { x: 0, y: 7, z: 1, turn: Math.PI / 2 },
      ],
    },
    { name: 'ring', mesh: second, placements: [{ x: -40, y: 0, z: 0, turn: 0 }] },
  ]);
  const { mesh } = readMeshFile(bytes, 'plate.3mf');
  const moved = (of: Mesh, move: (x: number, y: number, z: number) => number[]): number[] => {
    const corners = cornersOf(of);
    return Array.from({ length: corners.length / 3 }, (_, i) =>
      move(corners[3 * i]!, corners[3 * i + 1]!, corners[3 * i + 2]!),
    ).flat();
  };
  const wanted = [
    ...moved(first, (x, y, z) => [x + 5, y, z]),
    ...moved(first, (x, y, z) => [-y, x + 7, z + 1]),
    ...moved(second, (x, y, z) => [x - 40, y, z]),
  ];
  const got = cornersOf(mesh);
  expect(got.length).toBe(wanted.length);
  wanted.forEach((x, i) => {
    expect(Math.abs(got[i]! - x)).toBeLessThan(1e-5);
  });
});

test('wrong extensions do no harm, and the content has the word', () => {
  const mesh = sampleMeshes.teapot!;
  for (const form of threeForms) {
    for (const name of [
      'part.stl',
      'part.3MF',
      'part.obj',
      'part.ply',
      'part.txt',
      'part',
      '.',
      'a/b.c/part.STL',
    ]) {
      const file = readMeshFile(writeByThree(mesh, form), name);
      expect(file.format).toBe(form.split(' ')[0]);
      expect(file.mesh.triangles.length).toBe(mesh.triangles.length);
    }
  }
});

test('the one reader of binary STL serves both ways', () => {
  const bytes = writeByThree(sampleMeshes.bunny!, 'stl');
  expect(cornersOf(readStl(bytes))).toEqual(cornersOf(readMeshFile(bytes, 'bunny.stl').mesh));
});

test('a mesh in the middle of a larger buffer is read alike', () => {
  const mesh = sampleMeshes.teapot!;
  const files = [...threeForms.map((form) => writeByThree(mesh, form)), packageOf(modelOf())];
  for (const bytes of files) {
    const larger = new Uint8Array(bytes.length + 13).fill(0x20);
    larger.set(bytes, 7);
    expect(readMeshFile(larger.subarray(7, 7 + bytes.length), 'part')).toEqual(readMeshFile(bytes, 'part'));
  }
});

test('the packages that the tests put together are zip files to others too', () => {
  const names = Object.keys(unzipSync(packageOf(modelOf())));
  expect(names).toEqual(['_rels/.rels', '3D/3dmodel.model']);
});

test('any float32 mesh comes back through every format bit by bit (seed 11)', () => {
  const coordinate = fc.float({ noNaN: true, noDefaultInfinity: true }).map((x) => x + 0);
  const vertices = fc.array(fc.tuple(coordinate, coordinate, coordinate), { minLength: 3, maxLength: 12 });
  fc.assert(
    fc.property(vertices, fc.array(fc.nat(), { minLength: 3, maxLength: 30 }), (points, corners) => {
      const whole = corners.slice(0, corners.length - (corners.length % 3));
      const mesh = {
        positions: Float32Array.from(points.flat()),
        triangles: Uint32Array.from(whole, (c) => c % points.length),
      };
      for (const form of threeForms)
        expect(cornersOf(readMeshFile(writeByThree(mesh, form), nameOf(form)).mesh)).toEqual(cornersOf(mesh));
    }),
    { seed: 11, numRuns: 150 },
  );
});
