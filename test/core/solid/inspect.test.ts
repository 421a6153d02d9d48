import { describe, expect, it } from 'vitest';
import { inspectMesh } from '../../../core/solid/index.js';
import type { Mesh } from '../../../core/solid/types.js';

/** A box as 12 triangles, outward. */
function box(min: number[], max: number[]): Mesh {
  const positions = new Float32Array(24);
  for (let i = 0; i < 8; i++)
    for (let k = 0; k < 3; k++) positions[3 * i + k] = (i >> k) & 1 ? max[k]! : min[k]!;
  return {
    positions,
    triangles: Uint32Array.from([
      0, 2, 3, 0, 3, 1, 4, 5, 7, 4, 7, 6, 0, 1, 5, 0, 5, 4, 2, 6, 7, 2, 7, 3, 0, 4, 6, 0, 6, 2, 1, 3, 7, 1, 7,
      5,
    ]),
  };
}

const join = (...meshes: Mesh[]): Mesh => {
  let shift = 0;
  const triangles = meshes.flatMap((m) => {
    const moved = [...m.triangles].map((v) => v + shift);
    shift += m.positions.length / 3;
    return moved;
  });
  return {
    positions: Float32Array.from(meshes.flatMap((m) => [...m.positions])),
    triangles: Uint32Array.from(triangles),
  };
};

const flipped = (m: Mesh): Mesh => ({ ...m, triangles: m.triangles.slice().reverse() });
/** The triangles last to first, each its own way round. */
const reversed = (t: Uint32Array): Uint32Array =>
  Uint32Array.from(t, (_, i) => t[t.length - 3 - 3 * Math.floor(i / 3) + (i % 3)]!);
const unit = box([0, 0, 0], [1, 1, 1]);

describe('good meshes', () => {
  it('a box', () => {
    expect(inspectMesh(unit)).toMatchObject({
      ok: true,
      closed: true,
      oriented: true,
      components: 1,
      genus: 0,
      volume: 1,
      area: 6,
    });
  });
  it('two boxes apart, and a box with a cavity', () => {
    expect(inspectMesh(join(unit, box([2, 0, 0], [3, 1, 1])))).toMatchObject({
      ok: true,
      components: 2,
      volume: 2,
    });
    const hollow = inspectMesh(join(unit, flipped(box([0.25, 0.25, 0.25], [0.75, 0.75, 0.75]))));
    expect(hollow).toMatchObject({ ok: true, components: 2, volume: 0.875 });
  });
  it('a ring has one handle', () => {
    // Eight boxes' worth of faces are more easily had as an extruded frame: 16 vertices, 32 triangles.
    const ring: number[] = [];
    for (const z of [0, 1])
      for (const r of [1, 2])
        for (const [x, y] of [
          [1, 1],
          [-1, 1],
          [-1, -1],
          [1, -1],
        ])
          ring.push(r * x!, r * y!, z);
    const t: number[] = [];
    const quad = (a: number, b: number, c: number, d: number): void => void t.push(a, b, c, a, c, d);
    for (let i = 0; i < 4; i++) {
      const j = (i + 1) % 4;
      quad(4 + i, 4 + j, 12 + j, 12 + i); // outside
      quad(j, i, 8 + i, 8 + j); // inside
      quad(12 + i, 12 + j, 8 + j, 8 + i); // top
      quad(4 + j, 4 + i, i, j); // bottom
    }
    expect(inspectMesh({ positions: Float32Array.from(ring), triangles: Uint32Array.from(t) })).toMatchObject(
      { ok: true, genus: 1, volume: 12 },
    );
  });
  it.each([1e-3, 1, 1e3])('the same thing scaled by %d is the same', (factor) => {
    const mesh = join(unit, box([2, 0, 0], [3, 1, 1]));
    const report = inspectMesh({ ...mesh, positions: mesh.positions.map((v) => v * factor) });
    expect(report.ok).toBe(true);
    expect(report.volume / factor ** 3).toBeCloseTo(2, 5);
  });
});

describe('each fault is found', () => {
  const without = { ...unit, triangles: unit.triangles.slice(3) };
  const oneFlipped = { ...unit, triangles: Uint32Array.from([0, 3, 2, ...unit.triangles.slice(3)]) };
  const faults: readonly (readonly [string, Mesh, object])[] = [
    ['a missing triangle', without, { ok: false, closed: false, badEdges: 3 }],
    ['a flipped triangle', oneFlipped, { ok: false, oriented: false }],
    ['inside out', flipped(unit), { ok: false, oriented: false, invertedShells: 1 }],
    ['the same box twice', join(unit, unit), { ok: false }],
    ['two boxes sharing only an edge', join(unit, box([1, 1, 0], [2, 2, 1])), { ok: false }],
    [
      'two boxes sharing only a corner',
      join(unit, box([1, 1, 1], [2, 2, 2])),
      { ok: false, pinchedVertices: 1 },
    ],
    ['two boxes through each other', join(unit, box([0.5, 0.5, 0.5], [2, 2, 2])), { ok: false }],
    [
      'a box within a box, both solid',
      join(unit, box([0.2, 0.2, 0.2], [0.4, 0.4, 0.4])),
      { ok: false, invertedShells: 1 },
    ],
    ['two boxes face to face', join(unit, box([1, 0.2, 0.2], [2, 0.8, 0.8])), { ok: false }],
    [
      'a triangle without area',
      {
        positions: Float32Array.from([...unit.positions, 0.5, 0, 0]),
        triangles: Uint32Array.from([...unit.triangles, 0, 8, 1]),
      },
      { ok: false, degenerateTriangles: 1 },
    ],
    ['nothing', { positions: new Float32Array(), triangles: new Uint32Array() }, { ok: false }],
    [
      'a coordinate that is not a number',
      { ...unit, positions: unit.positions.map((v, i) => (i === 4 ? Number.NaN : v)) },
      { ok: false },
    ],
    [
      'a vertex that is not there',
      { ...unit, triangles: unit.triangles.map((v, i) => (i === 0 ? 99 : v)) },
      { ok: false },
    ],
  ];
  it.each(faults)('%s', (_, mesh, expected) => {
    const report = inspectMesh(mesh);
    expect(report).toMatchObject(expected);
    expect(report.problems.length).toBeGreaterThan(0);
  });

  /** Steps that float32 takes without rounding these meshes apart: what touches still touches. */
  const moves: readonly (readonly [string, (mesh: Mesh) => Mesh])[] = [
    ['moved', (m) => ({ ...m, positions: m.positions.map((v, i) => v + [8, -16, 64][i % 3]!) })],
    ['mirrored', (m) => flipped({ ...m, positions: m.positions.map((v, i) => (i % 3 === 0 ? -v : v)) })],
    ['a thousand times as large', (m) => ({ ...m, positions: m.positions.map((v) => v * 1000) })],
    ['a thousandth as large', (m) => ({ ...m, positions: m.positions.map((v) => v * 0.001) })],
    [
      'its axes changed round',
      (m) => ({ ...m, positions: m.positions.map((_, i, p) => p[i % 3 === 2 ? i - 2 : i + 1]!) }),
    ],
    ['its triangles in another order', (m) => ({ ...m, triangles: reversed(m.triangles) })],
  ];
  it.each(moves)('%s, each is found all the same, and a sound mesh stays sound', (_, move) => {
    for (const [name, mesh] of faults)
      expect([name, inspectMesh(move(mesh)).problems.length > 0]).toEqual([name, true]);
    const sound = join(unit, box([2, 0, 0], [3, 1, 1]), flipped(box([0.25, 0.25, 0.25], [0.75, 0.75, 0.75])));
    expect(inspectMesh(sound)).toMatchObject({ ok: true, components: 3 });
    expect(inspectMesh(move(sound))).toMatchObject({ ok: true, components: 3 });
  });

  it('a body within a cavity is sound, one within it that is inside out is not', () => {
    const room = join(box([-1, -1, -1], [2, 2, 2]), flipped(box([-0.5, -0.5, -0.5], [1.5, 1.5, 1.5])));
    expect(inspectMesh(join(room, unit))).toMatchObject({ ok: true, components: 3, volume: 27 - 8 + 1 });
    expect(inspectMesh(join(room, flipped(unit)))).toMatchObject({ ok: false, invertedShells: 1 });
  });

  it('a crossing by one step of float32 is a crossing', () => {
    const near = Math.fround(1 - 2 ** -24);
    expect(inspectMesh(join(unit, box([near, 0.2, 0.2], [2, 0.8, 0.8]))).ok).toBe(false);
    const clear = Math.fround(1 + 2 ** -23);
    expect(inspectMesh(join(unit, box([clear, 0.2, 0.2], [2, 0.8, 0.8]))).ok).toBe(true);
  });
});
