import type { Triangulate } from './binding.js';
import { checkVec3, measureArea } from './check-input.js';
import { SolidError } from './errors.js';
import type { RawMesh } from './mesh-solid.js';
import { facePlane, flatten } from './plane.js';
import type { LoftSection, Polygon, Vec3 } from './types.js';

type Triple = readonly [number, number, number];

/** How far, relative to its extent, a cap's point may lie off the cap's plane. */
const capFlatness = 1e-6;

/**
 * The closed mesh through consecutive sections, capped at both ends. See `Kernel.loft`.
 * Vertex `layer × n + i` is point i of that section. Triangles between points that fall together have no area.
 */
export function loftMesh(
  sections: readonly LoftSection[],
  triangulate: Triangulate,
  diagonal?: (layer: number, i: number) => boolean,
): RawMesh {
  const n = checkSections(sections);
  const positions = new Float64Array(3 * n * sections.length);
  sections.forEach(({ points }, layer) => {
    points.forEach((point, i) => {
      positions.set(point, 3 * (layer * n + i));
    });
  });
  const layers = sections.length - 1;
  const triangles = new Uint32Array(6 * n * layers + 6 * (n - 2));
  let size = 0;
  const push = (a: number, b: number, c: number): void => {
    triangles[size++] = a;
    triangles[size++] = b;
    triangles[size++] = c;
  };
  for (let layer = 0; layer < layers; layer++) {
    const lower = sections[layer]!.points;
    const upper = sections[layer + 1]!.points;
    for (let i = 0; i < n; i++) {
      const j = i + 1 === n ? 0 : i + 1;
      const a = layer * n + i;
      const b = layer * n + j;
      const straight = diagonal
        ? diagonal(layer, i)
        : distance2(lower[i]!, upper[j]!) <= distance2(lower[j]!, upper[i]!);
      push(a, b, straight ? b + n : a + n);
      push(straight ? a : b, b + n, a + n);
    }
  }
  const last = n * layers;
  const fill = rememberLast(triangulate);
  for (const [a, b, c] of capTriangles(sections[0]!.points, fill, 'first')) push(a, c, b);
  for (const [a, b, c] of capTriangles(sections[layers]!.points, fill, 'last'))
    push(last + a, last + b, last + c);
  return { positions, triangles };
}

function checkSections(sections: readonly LoftSection[]): number {
  if (sections.length < 2)
    throw new SolidError('bad-outline', `a loft has ${sections.length} sections; at least 2 are needed`);
  const n = sections[0]!.points.length;
  if (n < 3) throw new SolidError('bad-outline', `a loft section has ${n} points; at least 3 are needed`);
  sections.forEach(({ points }, layer) => {
    if (points.length !== n)
      throw new SolidError(
        'bad-outline',
        `loft section ${layer} has ${points.length} points and section 0 has ${n}; they must correspond one to one`,
      );
    points.forEach((point, i) => {
      checkVec3(point, `loft section ${layer} point ${i}`);
    });
  });
  return n;
}

/** Triangles of an end; none for a tip, where all its points are one. */
function capTriangles(all: readonly Vec3[], triangulate: Triangulate, which: string): readonly Triple[] {
  const places = distinctPlaces(all);
  if (places.length === 1) return [];
  const points = places.map((i) => all[i]!);
  const plane = facePlane(points);
  if (!plane) throw new SolidError('bad-outline', `the ${which} loft section has no area`);
  if (plane.deviation > capFlatness * plane.extent)
    throw new SolidError(
      'bad-outline',
      `the ${which} loft section is out of flat by ${plane.deviation.toPrecision(3)} mm; an end must be planar`,
    );
  const flat = flatten(points, plane);
  const cap = triangulate([flat]);
  // A polygon that crosses itself cannot be filled without turning a triangle over.
  const least = -1e-9 * plane.extent * plane.extent;
  if (
    cap.length !== points.length - 2 ||
    cap.some((corners) => measureArea(corners.map((i) => flat[i]!)) < least)
  )
    throw new SolidError(
      'bad-outline',
      `the ${which} loft section crosses itself; an end must be a simple polygon`,
    );
  return cap.map(([a, b, c]) => [places[a]!, places[b]!, places[c]!]);
}

/** Places of the points that differ in float32 from the one before them. */
function distinctPlaces(points: readonly Vec3[]): readonly number[] {
  const places = points.flatMap((point, i) => {
    const before = points[(i + points.length - 1) % points.length]!;
    return point.every((v, k) => Math.fround(v) === Math.fround(before[k]!)) ? [] : [i];
  });
  return places.length === 0 ? [0] : places;
}

/** Both ends of many a loft are one outline, which is then triangulated once. */
function rememberLast(triangulate: Triangulate): Triangulate {
  let last:
    | { readonly outlines: readonly Polygon[]; readonly triangles: ReturnType<Triangulate> }
    | undefined;
  return (outlines) => {
    if (!last || !areSame(last.outlines, outlines)) last = { outlines, triangles: triangulate(outlines) };
    return last.triangles;
  };
}

const areSame = (a: readonly Polygon[], b: readonly Polygon[]): boolean =>
  a.length === b.length &&
  a.every((outline, k) => {
    const other = b[k]!;
    return (
      outline.length === other.length &&
      outline.every(([x, y], i) => x === other[i]![0] && y === other[i]![1])
    );
  });

function distance2(a: Vec3, b: Vec3): number {
  return (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2;
}
