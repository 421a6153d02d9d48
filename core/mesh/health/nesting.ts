import { isWithin, sideOfLine } from '../../solid/columns.js';
import { measureBounds } from '../../solid/mesh-bounds.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { pointOf } from './boundary-loops.js';
import { keepTriangles } from './duplicates.js';
import type { MeshShell } from './shells.js';

/**
 * For each shell the closed shells it lies in, of those that it does not cross: decided at one of its corners, by what an
 * upright from there passes through. The triangles stand in a square grid over x and y.
 */
export function findNesting(
  mesh: Mesh,
  shellOf: Int32Array,
  shells: readonly MeshShell[],
  crosses: (a: number, b: number) => boolean = () => false,
): readonly (readonly number[])[] {
  const closed = shells.reduce((sum, shell) => sum + Number(shell.closed), 0);
  if (closed < 2) return shells.map(() => []);
  // Open shells lie in nothing, and nothing in them.
  const triangles = keepTriangles(mesh.triangles, (f) => shells[shellOf[f]!]!.closed);
  const ofClosed = shellOf.filter((s) => shells[s]!.closed);
  const windings = uprightWindings({ positions: mesh.positions, triangles }, ofClosed);
  const corner = new Int32Array(shells.length).fill(-1);
  for (let f = 0; f < ofClosed.length; f++)
    if (corner[ofClosed[f]!] === -1) corner[ofClosed[f]!] = triangles[3 * f]!;
  return shells.map((shell, s) =>
    shell.closed
      ? [...windings(pointOf(mesh, corner[s]!))]
          .filter(([other, winding]) => other !== s && winding !== 0 && !crosses(s, other))
          .map(([other]) => other)
          .sort((x, y) => x - y)
      : [],
  );
}

/** Times each shell winds round a point, by the triangles above it. */
function uprightWindings(mesh: Mesh, shellOf: Int32Array): (point: Vec3) => Map<number, number> {
  const { positions: p, triangles: t } = mesh;
  const { min, max } = measureBounds(mesh)!;
  const cells = gridOver(mesh, min, max);
  return ([x, y, z]) => {
    const found = new Map<number, number>();
    for (const f of cells(x, y)) {
      const a = 3 * t[3 * f]!;
      let b = 3 * t[3 * f + 1]!;
      let c = 3 * t[3 * f + 2]!;
      const area = sideOfLine(p[b]!, p[b + 1]!, p[c]!, p[c + 1]!, p[a]!, p[a + 1]!);
      if (area === 0) continue;
      if (area < 0) [b, c] = [c, b];
      const u = sideOfLine(p[b]!, p[b + 1]!, p[c]!, p[c + 1]!, x, y);
      if (!isWithin(u, p[b]!, p[b + 1]!, p[c]!, p[c + 1]!)) continue;
      const v = sideOfLine(p[c]!, p[c + 1]!, p[a]!, p[a + 1]!, x, y);
      if (!isWithin(v, p[c]!, p[c + 1]!, p[a]!, p[a + 1]!)) continue;
      const w = sideOfLine(p[a]!, p[a + 1]!, p[b]!, p[b + 1]!, x, y);
      if (!isWithin(w, p[a]!, p[a + 1]!, p[b]!, p[b + 1]!)) continue;
      const height = (u * p[a + 2]! + v * p[b + 2]! + w * p[c + 2]!) / (u + v + w);
      if (!(height > z)) continue;
      found.set(shellOf[f]!, (found.get(shellOf[f]!) ?? 0) + (area > 0 ? 1 : -1));
    }
    return found;
  };
}

/** The triangles that may lie over a point in plan. */
function gridOver(
  { positions: p, triangles: t }: Mesh,
  min: Vec3,
  max: Vec3,
): (x: number, y: number) => Uint32Array {
  const count = t.length / 3;
  let side = Math.max(1, Math.min(512, Math.floor(Math.sqrt(count / 2))));
  const column = (value: number, k: number, n: number): number =>
    Math.max(0, Math.min(n - 1, Math.floor((n * (value - min[k]!)) / (max[k]! - min[k]! || 1))));
  const range = (f: number, k: number, n: number): readonly [number, number] => {
    const [a, b, c] = [p[3 * t[3 * f]! + k]!, p[3 * t[3 * f + 1]! + k]!, p[3 * t[3 * f + 2]! + k]!];
    return [column(Math.min(a, b, c), k, n), column(Math.max(a, b, c), k, n)];
  };
  const entries = (n: number): number => {
    let sum = 0;
    for (let f = 0; f < count; f++) {
      const [x0, x1] = range(f, 0, n);
      const [y0, y1] = range(f, 1, n);
      sum += (x1 - x0 + 1) * (y1 - y0 + 1);
    }
    return sum;
  };
  // Large triangles would fill every cell: fewer cells then.
  let total = entries(side);
  while (side > 1 && total > 8 * count) {
    side = Math.floor(side / 2);
    total = entries(side);
  }
  const starts = new Uint32Array(side * side + 1);
  const each = (visit: (cell: number, f: number) => void): void => {
    for (let f = 0; f < count; f++) {
      const [x0, x1] = range(f, 0, side);
      const [y0, y1] = range(f, 1, side);
      for (let j = y0; j <= y1; j++) for (let i = x0; i <= x1; i++) visit(i + side * j, f);
    }
  };
  each((cell) => {
    starts[cell + 1]!++;
  });
  for (let c = 0; c < side * side; c++) starts[c + 1]! += starts[c]!;
  const fill = starts.slice();
  const list = new Uint32Array(total);
  each((cell, f) => {
    list[fill[cell]!++] = f;
  });
  return (x, y) => {
    const cell = column(x, 0, side) + side * column(y, 1, side);
    return list.subarray(starts[cell]!, starts[cell + 1]!);
  };
}
