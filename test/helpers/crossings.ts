import { orient2d, orient3d } from 'robust-predicates';
import { BufferAttribute, BufferGeometry, Matrix4 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import type { WeldedMesh } from './welded-mesh.js';

/**
 * Pairs of triangles that meet anywhere but along the edge or in the corner they share. Pairs come from a
 * published bounding-volume tree, signs from published exact predicates; contact counts as meeting.
 */

type Point = readonly [number, number, number];
type Corners = readonly [Point, Point, Point];

export function bvhOf({ points, triangles }: WeldedMesh): MeshBVH {
  const geometry = new BufferGeometry();
  // The positions are float32 values, so nothing is lost here.
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(points), 3));
  geometry.setIndex(new BufferAttribute(triangles.slice(), 1));
  return new MeshBVH(geometry, { indirect: true, targetLeafSize: 4 });
}

const point = ({ points: p }: WeldedMesh, v: number): Point => [
  p[3 * v] as number,
  p[3 * v + 1] as number,
  p[3 * v + 2] as number,
];
const vertices = (mesh: WeldedMesh, t: number): readonly [number, number, number] =>
  [mesh.triangles[3 * t], mesh.triangles[3 * t + 1], mesh.triangles[3 * t + 2]] as [number, number, number];
const corners = (mesh: WeldedMesh, [a, b, c]: readonly [number, number, number]): Corners => [
  point(mesh, a),
  point(mesh, b),
  point(mesh, c),
];

/** The first few pairs of triangles of one mesh that meet where they should not. */
export function selfCrossings(mesh: WeldedMesh, most = 5): readonly (readonly [number, number])[] {
  const found: [number, number][] = [];
  const tree = bvhOf(mesh);
  const boxes = boxesOf(mesh);
  forPairs(tree, tree, boxes, boxes, (s, t) => {
    if (pairMeets(mesh, s, t)) found.push([s, t]);
    return found.length >= most;
  });
  return found;
}

/** Whether two meshes touch or cross anywhere. */
export function meshesMeet(one: WeldedMesh, other: WeldedMesh): boolean {
  return forPairs(
    bvhOf(one),
    bvhOf(other),
    boxesOf(one),
    boxesOf(other),
    (s, t) =>
      !isBeside(one, s, other, t) &&
      trianglesMeet(corners(one, vertices(one, s)), corners(other, vertices(other, t))),
  );
}

/** Low and high corner of every triangle's box, six numbers each. */
function boxesOf({ points, triangles }: WeldedMesh): Float64Array {
  const boxes = new Float64Array(2 * triangles.length);
  for (let t = 0; t < triangles.length / 3; t++) {
    for (let k = 0; k < 3; k++) {
      const [a, b, c] = [0, 1, 2].map((i) => points[3 * (triangles[3 * t + i] as number) + k]) as [
        number,
        number,
        number,
      ];
      boxes[6 * t + k] = Math.min(a, b, c);
      boxes[6 * t + 3 + k] = Math.max(a, b, c);
    }
  }
  return boxes;
}

/** Calls `visit` for the pairs of triangles whose boxes meet, until it says true. */
function forPairs(
  a: MeshBVH,
  b: MeshBVH,
  boxesA: Float64Array,
  boxesB: Float64Array,
  visit: (s: number, t: number) => boolean,
): boolean {
  const apart = (s: number, t: number): boolean => {
    for (let k = 0; k < 3; k++) {
      if ((boxesA[6 * s + k] as number) > (boxesB[6 * t + 3 + k] as number)) return true;
      if ((boxesB[6 * t + k] as number) > (boxesA[6 * s + 3 + k] as number)) return true;
    }
    return false;
  };
  return a.bvhcast(b, new Matrix4(), {
    intersectsRanges(offsetA, countA, offsetB, countB) {
      // Within one tree every pair comes twice.
      if (a === b && offsetB < offsetA) return false;
      for (let i = offsetA; i < offsetA + countA; i++) {
        const s = a.resolveTriangleIndex(i);
        for (let j = a === b && offsetA === offsetB ? i + 1 : offsetB; j < offsetB + countB; j++) {
          const t = b.resolveTriangleIndex(j);
          if (!apart(s, t) && visit(s, t)) return true;
        }
      }
      return false;
    },
  });
}

/**
 * Whether all corners of triangle t that are not corners of s lie on one side of the plane of s, none in it; or, all in
 * that plane, beyond one edge of s. Then they have nothing in common but shared corners and the edge between them. Most
 * pairs end here.
 */
function isBeside(one: WeldedMesh, s: number, other: WeldedMesh, t: number): boolean {
  const { points: p, triangles } = one;
  const { points: q } = other;
  const [va, vb, vc] = [triangles[3 * s], triangles[3 * s + 1], triangles[3 * s + 2]] as [
    number,
    number,
    number,
  ];
  const [a, b, c] = [3 * va, 3 * vb, 3 * vc];
  let sign = 0;
  let flat = 0;
  let others = 0;
  for (let k = 0; k < 3; k++) {
    const v = other.triangles[3 * t + k] as number;
    if (one === other && (v === va || v === vb || v === vc)) continue;
    others++;
    const d = orient3d(
      p[a] as number,
      p[a + 1] as number,
      p[a + 2] as number,
      p[b] as number,
      p[b + 1] as number,
      p[b + 2] as number,
      p[c] as number,
      p[c + 1] as number,
      p[c + 2] as number,
      q[3 * v] as number,
      q[3 * v + 1] as number,
      q[3 * v + 2] as number,
    );
    if (d * sign < 0) return false;
    if (d === 0) flat++;
    else sign = Math.sign(d);
  }
  if (flat === 0) return sign !== 0;
  return flat === others && isBeyondEdge(one, s, other, t);
}

/** For triangles in one plane: whether an edge of s has all of t beyond it, but for corners that are the edge's own. */
function isBeyondEdge(one: WeldedMesh, s: number, other: WeldedMesh, t: number): boolean {
  const v = vertices(one, s);
  const flat = flattener(...corners(one, v));
  const of = corners(one, v).map(flat) as [Flat, Flat, Flat];
  const to = corners(other, vertices(other, t)).map(flat);
  const turn = Math.sign(side(...of));
  if (turn === 0) return false;
  return [0, 1, 2].some((e) => {
    const [i, j] = [e, (e + 1) % 3] as [0 | 1 | 2, 0 | 1 | 2];
    return to.every((at, k) => {
      const w = vertices(other, t)[k];
      if (one === other && (w === v[i] || w === v[j])) return true;
      return side(of[i], of[j], at) * turn < 0;
    });
  });
}

function pairMeets(mesh: WeldedMesh, s: number, t: number): boolean {
  if (isBeside(mesh, s, mesh, t) || isBeside(mesh, t, mesh, s)) return false;
  const [vs, vt] = [vertices(mesh, s), vertices(mesh, t)];
  const [p, q] = [corners(mesh, vs), corners(mesh, vt)];
  const shared = vs.filter((v) => vt.includes(v));
  if (shared.length === 0) return trianglesMeet(p, q);
  if (shared.length === 1) {
    // What they have in common besides the corner would end on the far edge of one of them.
    const farOf = (v: readonly number[]): Point[] =>
      v.filter((i) => i !== shared[0]).map((i) => point(mesh, i));
    return edgeMeets(farOf(vs) as [Point, Point], q) || edgeMeets(farOf(vt) as [Point, Point], p);
  }
  if (shared.length === 3) return true;
  // Two with a common edge meet elsewhere only when folded flat upon each other.
  const apexS = point(mesh, vs.find((v) => !shared.includes(v)) as number);
  const apexT = point(mesh, vt.find((v) => !shared.includes(v)) as number);
  const [a, b] = shared.map((v) => point(mesh, v)) as [Point, Point];
  if (orient(a, b, apexS, apexT) !== 0) return false;
  const flat = flattener(a, b, apexS);
  return Math.sign(side(flat(a), flat(b), flat(apexS))) === Math.sign(side(flat(a), flat(b), flat(apexT)));
}

export const trianglesMeet = (p: Corners, q: Corners): boolean =>
  [0, 1, 2].some((i) => edgeMeets([p[i] as Point, p[(i + 1) % 3] as Point], q)) ||
  [0, 1, 2].some((i) => edgeMeets([q[i] as Point, q[(i + 1) % 3] as Point], p));

const orient = (a: Point, b: Point, c: Point, d: Point): number => orient3d(...a, ...b, ...c, ...d);

/** Whether a segment meets a triangle, edges and ends included. */
function edgeMeets([p, q]: readonly [Point, Point], [a, b, c]: Corners): boolean {
  const [sp, sq] = [orient(a, b, c, p), orient(a, b, c, q)];
  if (sp * sq > 0) return false;
  if (sp === 0 && sq === 0) return flatMeets([p, q], [a, b, c]);
  const signs = [orient(p, q, a, b), orient(p, q, b, c), orient(p, q, c, a)];
  return signs.every((s) => s >= 0) || signs.every((s) => s <= 0);
}

type Flat = readonly [number, number];
const side = (a: Flat, b: Flat, c: Flat): number => orient2d(...a, ...b, ...c);

/** Drops the coordinate along which the triangle shows least of itself. */
function flattener(a: Point, b: Point, c: Point): (p: Point) => Flat {
  const area = (i: 0 | 1 | 2, j: 0 | 1 | 2): number =>
    Math.abs((b[i] - a[i]) * (c[j] - a[j]) - (b[j] - a[j]) * (c[i] - a[i]));
  const [x, y, z] = [area(1, 2), area(2, 0), area(0, 1)];
  if (z >= x && z >= y) return (p) => [p[0], p[1]];
  return x >= y ? (p) => [p[1], p[2]] : (p) => [p[2], p[0]];
}

function flatMeets(segment: readonly [Point, Point], triangle: Corners): boolean {
  const flat = flattener(...triangle);
  const [p, q] = segment.map(flat) as [Flat, Flat];
  const abc = triangle.map(flat) as [Flat, Flat, Flat];
  const inside = [0, 1, 2].map((i) => side(abc[i] as Flat, abc[(i + 1) % 3] as Flat, p));
  if (inside.every((s) => s >= 0) || inside.every((s) => s <= 0)) return true;
  return [0, 1, 2].some((i) => {
    const [a, b] = [abc[i] as Flat, abc[(i + 1) % 3] as Flat];
    const [s1, s2, s3, s4] = [side(p, q, a), side(p, q, b), side(a, b, p), side(a, b, q)];
    if (s1 === 0 && s2 === 0 && s3 === 0 && s4 === 0) return boxesMeet(p, q, a, b);
    return s1 * s2 <= 0 && s3 * s4 <= 0;
  });
}

const boxesMeet = (p: Flat, q: Flat, a: Flat, b: Flat): boolean =>
  [0, 1].every(
    (k) =>
      Math.min(p[k] as number, q[k] as number) <= Math.max(a[k] as number, b[k] as number) &&
      Math.min(a[k] as number, b[k] as number) <= Math.max(p[k] as number, q[k] as number),
  );
