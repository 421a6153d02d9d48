/** Shapes from plain arrays and a mesh checker that share no code with `core`. */
import type { Mesh, Vec3 } from '../../../core/solid/types.js';

export function box(min: Vec3, max: Vec3): Mesh {
  const corners = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => [
    i & 1 ? max[0] : min[0],
    i & 2 ? max[1] : min[1],
    i & 4 ? max[2] : min[2],
  ]);
  const quads = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ] as const;
  return {
    positions: Float32Array.from(corners.flat()),
    triangles: Uint32Array.from(quads.flatMap(([a, b, c, d]) => [a, b, c, a, c, d])),
  };
}

/** A torus about Z, standing on z = 0. */
export function torus(ring: number, pipe: number, around: number, across: number): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (let i = 0; i < around; i++) {
    for (let j = 0; j < across; j++) {
      const u = (2 * Math.PI * i) / around;
      const v = (2 * Math.PI * j) / across;
      const r = ring + pipe * Math.cos(v);
      positions.push(r * Math.cos(u), r * Math.sin(u), pipe + pipe * Math.sin(v));
      const at = (a: number, b: number): number => (a % around) * across + (b % across);
      triangles.push(at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j), at(i + 1, j + 1), at(i, j + 1));
    }
  }
  return { positions: Float32Array.from(positions), triangles: Uint32Array.from(triangles) };
}

export const sphere = (radius: number, rows: number): Mesh => {
  const positions: number[] = [0, 0, -radius];
  const columns = rows * 2;
  for (let i = 1; i < rows; i++) {
    for (let j = 0; j < columns; j++) {
      const v = (Math.PI * i) / rows - Math.PI / 2;
      const u = (2 * Math.PI * j) / columns;
      positions.push(
        radius * Math.cos(v) * Math.cos(u),
        radius * Math.cos(v) * Math.sin(u),
        radius * Math.sin(v),
      );
    }
  }
  positions.push(0, 0, radius);
  const top = positions.length / 3 - 1;
  const at = (i: number, j: number): number => 1 + (i - 1) * columns + (j % columns);
  const triangles: number[] = [];
  for (let j = 0; j < columns; j++) {
    triangles.push(0, at(1, j + 1), at(1, j), top, at(rows - 1, j), at(rows - 1, j + 1));
    for (let i = 1; i < rows - 1; i++) {
      triangles.push(at(i, j), at(i, j + 1), at(i + 1, j + 1), at(i, j), at(i + 1, j + 1), at(i + 1, j));
    }
  }
  return { positions: Float32Array.from(positions), triangles: Uint32Array.from(triangles) };
};

const positionKey = (mesh: Mesh, v: number): string =>
  [0, 1, 2].map((k) => mesh.positions[3 * v + k]! + 0).join(' ');

/** Directed edges, by position, that do not meet exactly one of the opposite direction; 0 for a closed mesh. */
export function openEdges(mesh: Mesh): number {
  const edges = new Map<string, number>();
  for (let i = 0; i < mesh.triangles.length; i += 3) {
    const keys = [0, 1, 2].map((k) => positionKey(mesh, mesh.triangles[i + k]!));
    for (let k = 0; k < 3; k++) {
      const edge = `${keys[k]}|${keys[(k + 1) % 3]}`;
      edges.set(edge, (edges.get(edge) ?? 0) + 1);
    }
  }
  let bad = 0;
  for (const [edge, n] of edges) {
    const [a, b] = edge.split('|');
    if (a === b || n !== 1 || edges.get(`${b}|${a}`) !== 1) bad++;
  }
  return bad;
}

/** By the divergence theorem, mm³. */
export function volumeOf(mesh: Mesh): number {
  const p = mesh.positions;
  let six = 0;
  for (let i = 0; i < mesh.triangles.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => 3 * mesh.triangles[i + k]!) as [number, number, number];
    six +=
      p[a]! * (p[b + 1]! * p[c + 2]! - p[b + 2]! * p[c + 1]!) +
      p[a + 1]! * (p[b + 2]! * p[c]! - p[b]! * p[c + 2]!) +
      p[a + 2]! * (p[b]! * p[c + 1]! - p[b + 1]! * p[c]!);
  }
  return six / 6;
}
