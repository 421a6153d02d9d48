import type { Mesh, Vec3 } from '../../solid/types.js';

/**
 * The convex hull of a few points, corner by corner; null where they lie in a plane. Points within rounding of the
 * hull so far are left out.
 */
export function convexHull(points: readonly Vec3[]): Mesh | null {
  const size = Math.max(
    ...[0, 1, 2].map((k) => Math.max(...points.map((q) => q[k]!)) - Math.min(...points.map((q) => q[k]!))),
  );
  const start = startTetrahedron(points, 1e-6 * size);
  if (!start) return null;
  const [a, b, c, d] = start;
  let faces: [number, number, number][] = [
    [a, b, c],
    [a, c, d],
    [a, d, b],
    [b, d, c],
  ];
  for (let q = 0; q < points.length; q++) {
    const seen = faces.filter((face) => height(points, face, q) > 1e-7 * size);
    if (seen.length === 0) continue;
    const edges = new Set(seen.flatMap(([i, j, k]) => [`${i},${j}`, `${j},${k}`, `${k},${i}`]));
    const added: [number, number, number][] = [];
    for (const [i, j, k] of seen)
      for (const [from, to] of [
        [i, j],
        [j, k],
        [k, i],
      ] as const)
        if (!edges.has(`${to},${from}`)) added.push([from, to, q]);
    const gone = new Set(seen);
    faces = [...faces.filter((face) => !gone.has(face)), ...added];
  }
  const positions = Float32Array.from(points.flat());
  const triangles = Uint32Array.from(faces.flat());
  return isClosed(triangles) ? { positions, triangles } : null;
}

/** Four points well out of one plane, a b c seen counter-clockwise from the side where d is not. */
function startTetrahedron(points: readonly Vec3[], least: number): [number, number, number, number] | null {
  const a = 0;
  const far = (measure: (q: number) => number): number => {
    let [best, most] = [-1, least];
    for (let q = 0; q < points.length; q++) {
      const m = measure(q);
      if (m > most) [best, most] = [q, m];
    }
    return best;
  };
  const between = (i: number, j: number): Vec3 =>
    [0, 1, 2].map((k) => points[j]![k]! - points[i]![k]!) as unknown as Vec3;
  const b = far((q) => norm(between(a, q)));
  if (b < 0) return null;
  const ab = between(a, b);
  const c = far((q) => norm(cross(ab, between(a, q))) / norm(ab));
  if (c < 0) return null;
  const d = far((q) => Math.abs(height(points, [a, b, c], q)));
  if (d < 0) return null;
  return height(points, [a, b, c], d) < 0 ? [a, b, c, d] : [a, c, b, d];
}

const cross = (u: Vec3, v: Vec3): Vec3 => [
  u[1] * v[2] - u[2] * v[1],
  u[2] * v[0] - u[0] * v[2],
  u[0] * v[1] - u[1] * v[0],
];
const norm = (u: Vec3): number => Math.sqrt(u[0] * u[0] + u[1] * u[1] + u[2] * u[2]);

/** Height of a point over a triangle's plane, mm. */
function height(points: readonly Vec3[], [i, j, k]: readonly [number, number, number], q: number): number {
  const [a, b, c, x] = [points[i]!, points[j]!, points[k]!, points[q]!];
  const n = cross([b[0] - a[0], b[1] - a[1], b[2] - a[2]], [c[0] - a[0], c[1] - a[1], c[2] - a[2]]);
  const length = norm(n);
  if (length === 0) return 0;
  return (n[0] * (x[0] - a[0]) + n[1] * (x[1] - a[1]) + n[2] * (x[2] - a[2])) / length;
}

function isClosed(t: Uint32Array): boolean {
  const edges = new Set<string>();
  for (let f = 0; f < t.length; f += 3)
    for (let k = 0; k < 3; k++) {
      const edge = `${t[f + k]},${t[f + ((k + 1) % 3)]}`;
      if (edges.has(edge)) return false;
      edges.add(edge);
    }
  for (const edge of edges) if (!edges.has(edge.split(',').reverse().join())) return false;
  return true;
}
