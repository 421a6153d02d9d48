import { expect, test } from 'vitest';
import { writeVtk } from '../../../core/files/vtk.js';
import type { CastFields } from '../../../core/freeze/cast-fields.js';
import { gridOf } from '../../../core/freeze/grid.js';
import { readVtkLegacy } from '../../helpers/vtk-legacy.js';

const grid = gridOf([0, 1, 2.5], [-1, 0, 0.125, 4], [10, 11, 12, 13, 17]);
const counting = (from: number): Float32Array => Float32Array.from({ length: grid.size }, (_, c) => from + c);
const fields: CastFields = {
  grid,
  present: Uint8Array.from({ length: grid.size }, (_, c) => (c === 3 ? 0 : 1)),
  share: counting(0).map((c) => c / grid.size),
  role: Uint8Array.from({ length: grid.size }, (_, c) => c % 4),
  filledAt: counting(100).map((t, c) => (c === 5 ? Number.POSITIVE_INFINITY : t)),
  spent: counting(200),
  stopsAt: counting(300),
  solidAt: counting(400),
  gradient: counting(0),
  coolingRate: counting(0).map((c) => (c === 0 ? 0 : c * c)),
  facePeak: counting(700),
};

test('read back after the format’s description: edges, names, values, x running first', () => {
  const back = readVtkLegacy(writeVtk(fields));
  expect(back.coordinates).toEqual(grid.edges);
  expect([...back.cells.keys()]).toEqual([
    'metal_share',
    'role',
    'filled_at_s',
    'spent',
    'stops_at_s',
    'solid_at_s',
    'gradient_K_per_mm',
    'cooling_rate_K_per_s',
    'niyama',
    'face_peak_C',
  ]);
  const solid = back.cells.get('solid_at_s')!;
  // 2 × 3 × 4 cells: one step along z is six on.
  expect([solid[0], solid[1], solid[2], solid[6]]).toEqual([400, 401, 402, 406]);
  expect(back.cells.get('role')![7]).toBe(3);
  expect(back.cells.get('metal_share')![12]).toBe(0.5);
});

test('cells outside the mould, and times that never come, are −1, as the title says', () => {
  const { title, cells } = readVtkLegacy(writeVtk(fields));
  for (const values of cells.values()) expect(values[3]).toBe(-1);
  expect(cells.get('filled_at_s')![5]).toBe(-1);
  expect(cells.get('filled_at_s')![4]).toBe(104);
  expect(title).toMatch(/-1 never or not there/);
  for (const values of cells.values()) for (const v of values) expect(Number.isFinite(v)).toBe(true);
});

test('Niyama’s G/√Ṫ: 4 K/mm at 16 K/s is 1; 0 where nothing froze', () => {
  const niyama = readVtkLegacy(writeVtk(fields)).cells.get('niyama')!;
  expect(niyama[4]).toBe(1);
  expect(niyama[0]).toBe(0);
});

test('four bytes a value and cell, and a header', () => {
  const bytes = writeVtk(fields);
  expect(bytes.length).toBeGreaterThan(10 * 4 * grid.size);
  expect(bytes.length).toBeLessThan(10 * 4 * grid.size + 1000);
  expect(new TextDecoder('ascii').decode(bytes.subarray(0, 26))).toBe('# vtk DataFile Version 3.0');
});
