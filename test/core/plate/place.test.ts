import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { joinMeshes, placeMesh, plateMeshes, turnOf } from '../../../core/plate/index.js';
import { inspectMesh } from '../../../core/solid/inspect.js';
import { box, openEdges, torus, volumeOf } from '../files/shapes.js';

const lowest = (p: Float32Array): number => p.filter((_, i) => i % 3 === 2).reduce((a, b) => Math.min(a, b));

describe('placing meshes on a plate', () => {
  test('quarter turns are exact, other turns are not touched', () => {
    expect([0, 1, 2, 3, 4, -1].map((k) => turnOf((k * Math.PI) / 2))).toEqual([
      [1, 0],
      [0, 1],
      [-1, 0],
      [0, -1],
      [1, 0],
      [0, -1],
    ]);
    expect(turnOf(0.3)).toEqual([Math.cos(0.3), Math.sin(0.3)]);
  });

  test('four quarter turns give the mesh back bit by bit', () => {
    const mesh = torus(20.123, 3.7, 24, 12);
    let turned = mesh;
    for (let i = 0; i < 4; i++) turned = placeMesh(turned, { x: 0, y: 0, z: 0, turn: Math.PI / 2 });
    expect(turned.positions).toEqual(mesh.positions.map((v) => v + 0));
    expect(turned.triangles).toEqual(mesh.triangles);
  });

  test('a placed closed mesh is closed in float32, stands on the bed and keeps its volume (seed 11)', () => {
    const mesh = torus(12.345, 2.345, 60, 32);
    const lifted = box([-3, -4, -0.31], [5, 6, 7]);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 400, noNaN: true }),
        fc.double({ min: 0, max: 400, noNaN: true }),
        fc.integer({ min: 0, max: 3 }),
        (x, y, quarter) => {
          const turn = (quarter * Math.PI) / 2;
          const placed = plateMeshes(
            [
              { name: 'ring', copy: 1, x, y, turn },
              { name: 'block', copy: 1, x: x + 60, y, turn },
            ],
            new Map([
              ['ring', mesh],
              ['block', lifted],
            ]),
          );
          for (const p of placed) {
            expect(openEdges(p.mesh)).toBe(0);
            expect(lowest(p.mesh.positions)).toBe(0);
          }
          expect(placed[0]!.mesh.positions.filter((_, i) => i % 3 === 2)).toEqual(
            mesh.positions.filter((_, i) => i % 3 === 2),
          );
          expect(placed[1]!.placing.z).toBeCloseTo(0.31, 6);
          expect(volumeOf(placed[1]!.mesh) / volumeOf(lifted)).toBeCloseTo(1, 4);
          const whole = joinMeshes(placed.map((p) => p.mesh));
          expect(openEdges(whole)).toBe(0);
          expect(whole.triangles.length).toBe(mesh.triangles.length + lifted.triangles.length);
        },
      ),
      { seed: 11, numRuns: 40 },
    );
  });

  test('vertices too close for float32 out on the bed become one, and no triangle without sides is left', () => {
    // Teeth 10 nm wide round the pipe: apart near the origin, not at x = 300, where float32 steps are 30 nm.
    const fine = torus(1e-3, 4e-4, 200, 40);
    expect(openEdges(fine)).toBe(0);
    const placed = placeMesh(fine, { x: 300, y: 300, z: 0, turn: 0 });
    expect(placed.triangles.length).toBeLessThan(fine.triangles.length);
    for (let i = 0; i < placed.triangles.length; i += 3) {
      expect(new Set(placed.triangles.subarray(i, i + 3)).size).toBe(3);
    }
  });

  test('where rounding spoils a surface the pattern is laid some micrometres beside', () => {
    // A wall of 20 nm about a cavity: out at x = 300 float32 steps by 31 nm, and its sides fall together or not.
    const wall = box([0, 0, 0], [10, 10, 10]);
    const cavity = box([2e-5, 1, 1], [9, 9, 9]);
    const inner = cavity.triangles.map((_, i, t) => t[3 * Math.floor(i / 3) + 2 - (i % 3)]! + 8);
    const thin = {
      positions: Float32Array.from([...wall.positions, ...cavity.positions]),
      triangles: Uint32Array.from([...wall.triangles, ...inner]),
    };
    expect(inspectMesh(thin).problems).toEqual([]);
    let moved = 0;
    for (let i = 0; i < 40; i++) {
      const x = 300 + i * 7.7e-6;
      const isSpoilt = !inspectMesh(placeMesh(thin, { x, y: 20, z: 0, turn: 0 })).ok;
      const [placed] = plateMeshes([{ name: 'thin', copy: 1, x, y: 20, turn: 0 }], new Map([['thin', thin]]));
      expect(inspectMesh(placed!.mesh).problems).toEqual([]);
      expect(Math.hypot(placed!.placing.x - x, placed!.placing.y - 20)).toBeLessThanOrEqual(0.004);
      expect(placed!.placing.x !== x || placed!.placing.y !== 20).toBe(isSpoilt);
      if (isSpoilt) moved++;
    }
    expect(moved).toBeGreaterThan(5);
    expect(moved).toBeLessThan(35);
  });

  test('a placement without a mesh is an error', () => {
    expect(() => plateMeshes([{ name: 'lost', copy: 1, x: 0, y: 0, turn: 0 }], new Map())).toThrow(
      /no mesh for the placed pattern lost/,
    );
  });
});
