import { expect, it } from 'vitest';
import { inspectOnce } from '../../../core/solid/index.js';
import type { Mesh } from '../../../core/solid/types.js';

const tetrahedron = (): Mesh => ({
  positions: Float32Array.of(0, 0, 0, 3, 0, 0, 0, 3, 0, 0, 0, 3),
  triangles: Uint32Array.of(0, 2, 1, 0, 1, 3, 1, 2, 3, 2, 0, 3),
});

it('gives the same report for the same mesh', () => {
  const mesh = tetrahedron();
  const report = inspectOnce(mesh);
  expect(report).toMatchObject({ ok: true, volume: 4.5 });
  expect(inspectOnce(mesh)).toBe(report);
  expect(inspectOnce(tetrahedron())).not.toBe(report);
});

it.each<[string, (mesh: Mesh) => void, object]>([
  ['a corner moved', (m) => m.positions.set([6], 11), { ok: true, volume: 9 }],
  ['a corner pulled through', (m) => m.positions.set([-3], 11), { ok: false }],
  ['a corner that is no number', (m) => m.positions.set([Number.NaN], 11), { ok: false }],
  ['a triangle turned over', (m) => m.triangles.set([0, 1, 2]), { ok: false, oriented: false }],
])('inspects anew: %s', (_, change, expected) => {
  const mesh = tetrahedron();
  inspectOnce(mesh);
  change(mesh);
  expect(inspectOnce(mesh)).toMatchObject(expected);
});
