import { cross, dot, unit } from '../../shape/vector.js';
import type { Vec3 } from '../../solid/types.js';
import { across, axisDistance, type Circle, fitCircle, fitCylinder } from './cylinder-fit.js';
import { type Facets, facetNormal } from './facets.js';
import { after, type Sheet } from './sheet.js';
import { addSquare, eigenOf, type Symmetric3 } from './small-matrix.js';
import { smoothCosine } from './smooth.js';
import type { Cylinder, CylinderCandidate } from './surface.js';

/** A facet across the axis: the chord from one of its long sides to the other. */
interface Chord {
  readonly facet: number;
  readonly ends: readonly [Point, Point];
}
type Point = readonly [number, number];

/** Fewest facets of one cylinder: three chords of an even bend lie on some circle always. */
const fewestFacets = 4;
/** Sine between a facet and the axis. */
const mostTilt = 3e-3;

/**
 * Cylinders as exact tessellations have them: strips side by side, their common edges along the axis and on the circle.
 * The chords' ends fix the circle; strips that holes have cut may end short of it.
 */
export function findStripCylinders(sheet: Sheet, facets: Facets): CylinderCandidate[] {
  const seams = smoothSeams(sheet, facets);
  const cylinderOf = new Int32Array(facets.count).fill(-1);
  const grower = new StripGrower(sheet, facets, cylinderOf);
  const found: CylinderCandidate[] = [];
  // Seams of a chain that was refused: each would give the same chain again.
  const spent = new Set<number>();
  for (const h of seams) {
    const a = facets.facetOf[Math.floor(h / 3)]!;
    const b = facets.facetOf[sheet.beyond[h]!]!;
    if (cylinderOf[a] !== -1 || cylinderOf[b] !== -1) continue;
    if (spent.has(seamKey(facets, a, b))) continue;
    const chords = grower.grow(a, b, h);
    if (chords.length < fewestFacets) continue;
    if (grower.isBent(chords)) {
      for (const key of grower.links) spent.add(key);
      continue;
    }
    const refined = refine(sheet, facets, chords, grower.axis);
    if (!refined) continue;
    const triangles: number[] = [];
    for (const { facet } of chords) {
      cylinderOf[facet] = found.length;
      for (let i = facets.starts[facet]!; i < facets.starts[facet + 1]!; i++)
        triangles.push(facets.order[i]!);
    }
    found.push({ kind: 'cylinder', triangles, ...refined });
  }
  return found;
}

/** Edges where two facets bend gently, one of each pair of facets; those between the largest first. */
function smoothSeams({ triangles, beyond }: Sheet, facets: Facets): number[] {
  const seams: number[] = [];
  const seen = new Set<number>();
  for (let h = 0; h < 3 * triangles; h++) {
    const g = beyond[h]!;
    if (g < 0) continue;
    const a = facets.facetOf[Math.floor(h / 3)]!;
    const b = facets.facetOf[g]!;
    if (a < 0 || b <= a) continue;
    // A strip is a pair of triangles at least, or one seam is all it has.
    if (size(facets, a) < 2 && size(facets, b) < 2) continue;
    const bend = dot(facetNormal(facets, a), facetNormal(facets, b));
    if (bend < smoothCosine || bend > 1 - 1e-7) continue;
    const pair = seamKey(facets, a, b);
    if (seen.has(pair)) continue;
    seen.add(pair);
    seams.push(h);
  }
  const worth = (h: number): number =>
    Math.min(facets.areas[facets.facetOf[Math.floor(h / 3)]!]!, facets.areas[facets.facetOf[beyond[h]!]!]!);
  return seams.sort((g, h) => worth(h) - worth(g) || g - h);
}

const seamKey = (facets: Facets, a: number, b: number): number =>
  Math.min(a, b) * facets.count + Math.max(a, b);

const size = (facets: Facets, i: number): number => facets.starts[i + 1]! - facets.starts[i]!;

class StripGrower {
  axis: Vec3 = [0, 0, 1];
  /** Seams that the last chain ran over. */
  links: number[] = [];
  readonly #sheet: Sheet;
  readonly #facets: Facets;
  readonly #taken: Int32Array;
  readonly #visited: Int32Array;
  #round = 0;
  #u: Vec3 = [1, 0, 0];
  #v: Vec3 = [0, 1, 0];

  /** @param taken −1 for facets that are free */
  constructor(sheet: Sheet, facets: Facets, taken: Int32Array) {
    this.#sheet = sheet;
    this.#facets = facets;
    this.#taken = taken;
    this.#visited = new Int32Array(facets.count);
  }

  /** The strips that go on along one circle from two neighbours with an edge in common. */
  grow(a: number, b: number, seam: number): Chord[] {
    const { exact } = this.#sheet;
    const [na, nb] = [facetNormal(this.#facets, a), facetNormal(this.#facets, b)];
    this.axis = unit(cross(na, nb));
    [this.#u, this.#v] = across(this.axis);
    this.#round++;
    this.links = [seamKey(this.#facets, a, b)];
    const close = 5 * exact;
    const common = this.#flat(this.#sheet.corners[seam]!);
    const chords = [this.#chord(a), this.#chord(b)];
    const far = chords.map((c) => c.ends.find((end) => distance(end, common) > close));
    if (chords.some((c) => c.ends.every((end) => distance(end, common) > close)) || !far[0] || !far[1])
      return [];
    let circle = fitCircle([far[0], common, far[1]]);
    if (!circle || circle.radius > 2 * this.#sheet.size) return [];
    this.#visited[a] = this.#round;
    this.#visited[b] = this.#round;
    let refitAt = 3;
    for (let at = 0; at < chords.length; at++) {
      for (const next of this.#neighbours(chords[at]!.facet)) {
        if (this.#visited[next] === this.#round || this.#taken[next] !== -1) continue;
        const normal = facetNormal(this.#facets, next);
        if (Math.abs(dot(normal, this.axis)) > mostTilt) continue;
        if (dot(normal, facetNormal(this.#facets, chords[at]!.facet)) < smoothCosine) continue;
        const chord = this.#chord(next);
        if (!liesOn(circle, chord, close)) continue;
        this.#visited[next] = this.#round;
        this.links.push(seamKey(this.#facets, chords[at]!.facet, next));
        chords.push(chord);
        if (chords.length < refitAt) continue;
        refitAt = Math.ceil(1.6 * chords.length);
        circle = fitCircle(endsOn(circle, chords, close)) ?? circle;
      }
    }
    return chords;
  }

  /**
   * Whether strips no longer than their neighbours bend gently on at both ends: a slice of a torus or a barrel, which has
   * such strips as well.
   */
  isBent(chords: readonly Chord[]): boolean {
    const { starts, order, facetOf, areas } = this.#facets;
    const { beyond, corners, positions: p } = this.#sheet;
    const mine = new Set(chords.map((c) => c.facet));
    const beside = new Set<number>();
    let [area, width, ends, gentle] = [0, 0, 0, 0];
    for (const { facet, ends: chord } of chords) {
      area += areas[facet]!;
      width += distance(...chord);
      const normal = facetNormal(this.#facets, facet);
      for (let i = starts[facet]!; i < starts[facet + 1]!; i++)
        for (let h = 3 * order[i]!; h < 3 * order[i]! + 3; h++) {
          const other = beyond[h]! < 0 ? -1 : facetOf[beyond[h]!]!;
          if (other < 0 || mine.has(other)) continue;
          const [a, b] = [3 * corners[h]!, 3 * corners[after(h)]!];
          const edge: Vec3 = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
          const length = Math.sqrt(dot(edge, edge));
          if (Math.abs(dot(edge, this.axis)) > 0.7 * length) continue;
          ends += length;
          if (dot(normal, facetNormal(this.#facets, other)) < smoothCosine) continue;
          gentle += length;
          beside.add(other);
        }
    }
    const besideArea = [...beside].reduce((s, i) => s + areas[i]!, 0);
    return gentle > 0.6 * ends && area / width < 2.5 * (besideArea / gentle);
  }

  /** Facets across the edges of this one. */
  #neighbours(facet: number): number[] {
    const { starts, order, facetOf } = this.#facets;
    const { beyond } = this.#sheet;
    const found: number[] = [];
    for (let i = starts[facet]!; i < starts[facet + 1]!; i++)
      for (let h = 3 * order[i]!; h < 3 * order[i]! + 3; h++) {
        const other = beyond[h]! < 0 ? -1 : facetOf[beyond[h]!]!;
        if (other >= 0 && other !== facet && found.at(-1) !== other) found.push(other);
      }
    return found;
  }

  #flat(vertex: number): Point {
    const p = this.#sheet.positions;
    const [x, y, z] = [p[3 * vertex]!, p[3 * vertex + 1]!, p[3 * vertex + 2]!];
    return [
      x * this.#u[0] + y * this.#u[1] + z * this.#u[2],
      x * this.#v[0] + y * this.#v[1] + z * this.#v[2],
    ];
  }

  #chord(facet: number): Chord {
    const { starts, order } = this.#facets;
    const side = cross(this.axis, facetNormal(this.#facets, facet));
    let [least, most] = [Infinity, -Infinity];
    let ends: [Point, Point] = [
      [0, 0],
      [0, 0],
    ];
    const { positions: p, corners } = this.#sheet;
    for (let i = starts[facet]!; i < starts[facet + 1]!; i++)
      for (let h = 3 * order[i]!; h < 3 * order[i]! + 3; h++) {
        const v = corners[h]!;
        const t = p[3 * v]! * side[0] + p[3 * v + 1]! * side[1] + p[3 * v + 2]! * side[2];
        if (t < least) {
          least = t;
          ends = [this.#flat(v), ends[1]];
        }
        if (t > most) {
          most = t;
          ends = [ends[0], this.#flat(v)];
        }
      }
    return { facet, ends };
  }
}

const distance = (a: Point, b: Point): number => Math.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2);

const depthIn = (circle: Circle, [x, y]: Point): number =>
  circle.radius - Math.sqrt((x - circle.x) ** 2 + (y - circle.y) ** 2);

/** One end on the circle, the other on it too or, where a hole cut the strip, within. */
function liesOn(circle: Circle, { ends }: Chord, close: number): boolean {
  const depths = ends.map((end) => depthIn(circle, end));
  const length = distance(ends[0], ends[1]);
  if (!depths.some((d) => Math.abs(d) <= close) || depths.some((d) => d < -close)) return false;
  // Half a chord is the radius times the sine of half its sweep: a wider one is a flat side, not a facet.
  return length < 2 * circle.radius * widestHalf && depths.every((d) => d < circle.radius * deepest);
}

/** Sine of 22°, and what its chord leaves of the radius. */
const widestHalf = 0.375;
const deepest = 0.08;

const endsOn = (circle: Circle, chords: readonly Chord[], close: number): Point[] =>
  chords.flatMap(({ ends }) => ends.filter((end) => Math.abs(depthIn(circle, end)) <= close));

/** The axis square to all normals, then all five numbers by the corners that lie on the circle. */
function refine(
  sheet: Sheet,
  facets: Facets,
  chords: readonly Chord[],
  axis: Vec3,
): Pick<CylinderCandidate, 'cylinder' | 'points'> | null {
  const m: Symmetric3 = [0, 0, 0, 0, 0, 0];
  for (const { facet } of chords) addSquare(m, facetNormal(facets, facet), facets.areas[facet]!);
  const square = eigenOf(m).vectors[2];
  const direction = Math.abs(dot(square, axis)) > 0.99 ? square : axis;
  const [u, v] = across(direction);
  const corners = seamCorners(sheet, facets, chords);
  const flat = corners.map((at) => [dot(at, u), dot(at, v)] as const);
  const circle = fitCircle(flat);
  if (!circle) return null;
  const near: Cylinder = {
    point: [0, 1, 2].map((k) => circle.x * u[k]! + circle.y * v[k]!) as unknown as Vec3,
    direction,
    radius: circle.radius,
  };
  const close = 5 * sheet.exact;
  const kept = corners.filter(([x, y, z]) => Math.abs(axisDistance(near, x, y, z) - near.radius) < 2 * close);
  if (kept.length < 0.6 * corners.length || kept.length < 6) return null;
  const points = Float64Array.from(kept.flat());
  return { cylinder: fitCylinder(points, near, 8) ?? near, points };
}

/** Corners between two of the strips: they lie on the seams, so on the circle, however the strips are divided. */
function seamCorners(sheet: Sheet, facets: Facets, chords: readonly Chord[]): Vec3[] {
  const mine = new Set(chords.map((c) => c.facet));
  const found = new Set<number>();
  for (const { facet } of chords)
    for (let i = facets.starts[facet]!; i < facets.starts[facet + 1]!; i++)
      for (let h = 3 * facets.order[i]!; h < 3 * facets.order[i]! + 3; h++) {
        const g = sheet.beyond[h]!;
        const other = g < 0 ? -1 : facets.facetOf[g]!;
        if (other === facet || !mine.has(other)) continue;
        found.add(sheet.corners[h]!);
        found.add(sheet.corners[after(h)]!);
      }
  const p = sheet.positions;
  return [...found].sort((a, b) => a - b).map((v) => [p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!]);
}
