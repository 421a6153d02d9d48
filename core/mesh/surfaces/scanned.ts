import { maths } from '../../maths/maths.js';
import { dot, unit } from '../../shape/vector.js';
import type { Vec3 } from '../../solid/types.js';
import { across, axisDistance, fitCircle, fitCylinder } from './cylinder-fit.js';
import { type PlaneFit, planeThrough } from './plane-fit.js';
import { bendsFromCylinder, bendsFromPlane, scattersByChance } from './residuals.js';
import { estimateNoise } from './scan-noise.js';
import { normalOf, type Sheet } from './sheet.js';
import { addSquare, eigenOf, type Symmetric3 } from './small-matrix.js';
import type { Candidate, Cylinder } from './surface.js';
import { sweepOf } from './sweep.js';

/** Fewest triangles of a surface whose corners only scatter about it. */
const fewest = 24;
/** Least √area of it over the scatter that is allowed: below, any bend would pass. */
const leastExtent = 40;
/** Least width of a plane over it: narrower, it may be a strip of anything. */
const leastWidth = 25;
/** Of all area. */
const leastShare = 1e-3;
/** Scatter about a true surface is a quarter of what is allowed; what bends fills all of it. */
const mostScatter = 0.4;
/** Triangles of the patches that cylinders grow from: fine scans of large rounds need large ones. */
const patchSizes = [60, 240, 1000, 4000];
/** Triangles looked at in all, over the mesh's number of them: bounds the time. */
const mostVisits = 60;

/**
 * Planes and cylinders among the triangles that the exact searches left: on a scan, or where a round is divided askew.
 * They grow from flat or evenly round patches as far as the corners stay within the scan's noise.
 *
 * @param taken triangles that belong to a surface already; those found are added
 */
export function findScanned(sheet: Sheet, taken: Uint8Array): Candidate[] {
  const isFree = taken.map((t) => 1 - t);
  const noise = estimateNoise(sheet, isFree);
  const most = Math.min(0.15, 1.5e-3 * sheet.size);
  const search = new ScanSearch(sheet, taken, Math.min(most, Math.max(4 * noise, 4 * sheet.exact)));
  return [...search.planes(), ...search.cylinders()];
}

class ScanSearch {
  readonly #sheet: Sheet;
  readonly #taken: Uint8Array;
  readonly #allowed: number;
  /** The seed that last came by a triangle or a vertex. */
  readonly #seen: Int32Array;
  readonly #met: Int32Array;
  #round = 0;
  #visits: number;

  constructor(sheet: Sheet, taken: Uint8Array, allowed: number) {
    this.#sheet = sheet;
    this.#taken = taken;
    this.#allowed = allowed;
    this.#seen = new Int32Array(sheet.triangles);
    this.#met = new Int32Array(sheet.positions.length / 3);
    this.#visits = mostVisits * sheet.triangles;
  }

  planes(): Candidate[] {
    const found: Candidate[] = [];
    const tried = new Uint8Array(this.#sheet.triangles);
    this.#visits = (mostVisits / 3) * this.#sheet.triangles;
    for (const seed of this.#seeds()) {
      if (this.#visits < 0) break;
      if (this.#taken[seed] === 1 || tried[seed] === 1) continue;
      const patch = this.#patch(seed, 30);
      const corners = this.#points(patch);
      const start = planeThrough(corners, this.#mean(patch));
      tried[seed] = 1;
      if (patch.length < fewest || scatter(corners, (x, y, z) => start.height(x, y, z)) > 0.5 * this.#allowed)
        continue;
      const { triangles, plane } = this.#growPlane(seed, start);
      for (const f of triangles) tried[f] = 1;
      if (!this.#isLarge(triangles)) continue;
      if (plane.width < leastWidth * this.#allowed) continue;
      const points = this.#points(triangles);
      const spread = scatter(points, (x, y, z) => plane.height(x, y, z));
      if (spread > mostScatter * this.#allowed) continue;
      if (spread > this.#trifle(triangles)) {
        if (bendsFromPlane(points, plane)) continue;
        if (!scattersByChance(this.#sheet, triangles, (x, y, z) => plane.height(x, y, z))) continue;
      }
      for (const f of triangles) this.#taken[f] = 1;
      found.push({ kind: 'plane', triangles, normal: plane.normal, points });
    }
    return found;
  }

  cylinders(): Candidate[] {
    const found: Candidate[] = [];
    this.#visits = mostVisits * this.#sheet.triangles;
    const seeds = this.#seeds();
    for (const size of patchSizes) {
      const tried = new Uint8Array(this.#sheet.triangles);
      for (const seed of seeds) {
        if (this.#visits < 0) break;
        if (this.#taken[seed] === 1 || tried[seed] === 1) continue;
        const patch = this.#patch(seed, size);
        const start = patch.length < fewest ? null : this.#roundFit(patch);
        const region = start && this.#growCylinder(seed, start);
        // The heart of a patch that led nowhere leads nowhere either.
        for (const f of start ? patch : patch.slice(0, Math.ceil(patch.length / 6))) tried[f] = 1;
        if (!region) continue;
        for (const f of region.triangles) this.#taken[f] = 1;
        found.push(region);
      }
    }
    return found;
  }

  /** Free triangles, those least bent against their neighbours first. */
  #seeds(): Uint32Array {
    const { triangles, beyond, normals: n } = this.#sheet;
    const bend = new Float64Array(triangles);
    const free: number[] = [];
    for (let f = 0; f < triangles; f++) {
      if (this.#taken[f] === 1) continue;
      free.push(f);
      for (let h = 3 * f; h < 3 * f + 3; h++) {
        const g = 3 * beyond[h]!;
        const facing = g < 0 ? -1 : n[3 * f]! * n[g]! + n[3 * f + 1]! * n[g + 1]! + n[3 * f + 2]! * n[g + 2]!;
        bend[f] = Math.max(bend[f]!, 1 - facing);
      }
    }
    return Uint32Array.from(free).sort((a, b) => bend[a]! - bend[b]! || a - b);
  }

  /** Triangles about one, nearest first, not over sharp edges. */
  #patch(seed: number, most: number): number[] {
    return this.#spread(seed, most, (f, from) => {
      const n = this.#sheet.normals;
      return (
        n[3 * f]! * n[3 * from]! + n[3 * f + 1]! * n[3 * from + 1]! + n[3 * f + 2]! * n[3 * from + 2]! > 0.64
      );
    });
  }

  #spread(seed: number, most: number, belongs: (f: number, from: number) => boolean): number[] {
    const { beyond } = this.#sheet;
    const round = ++this.#round;
    const found = [seed];
    this.#seen[seed] = round;
    for (let at = 0; at < found.length && found.length < most; at++) {
      const from = found[at]!;
      for (let h = 3 * from; h < 3 * from + 3; h++) {
        const f = beyond[h]!;
        if (f < 0 || this.#seen[f] === round || this.#taken[f] === 1) continue;
        this.#visits--;
        if (!belongs(f, from)) continue;
        this.#seen[f] = round;
        found.push(f);
      }
    }
    return found;
  }

  #growPlane(seed: number, start: PlaneFit): { readonly triangles: number[]; readonly plane: PlaneFit } {
    const sheet = this.#sheet;
    let plane = start;
    let triangles: number[] = [];
    for (let pass = 0; pass < 4; pass++) {
      const grown = this.#spread(seed, Infinity, (f) => {
        if (dot(plane.normal, normalOf(sheet, f)) < this.#leastFacing(f)) return false;
        return this.#farthest(f, (x, y, z) => plane.height(x, y, z)) <= this.#allowed;
      });
      if (pass > 0 && grown.length <= triangles.length) break;
      triangles = grown;
      plane = planeThrough(this.#points(triangles), plane.normal);
    }
    return { triangles, plane };
  }

  /** Cosine that a triangle keeps to its surface's normal; noise turns those that are as small as itself anywhere. */
  #leastFacing(f: number): number {
    return this.#sheet.areas[f]! > 4 * this.#allowed ** 2 ? 0.6 : -0.3;
  }

  /** Greatest distance of a triangle's corners. */
  #farthest(f: number, measure: (x: number, y: number, z: number) => number): number {
    const { corners, positions: p } = this.#sheet;
    let far = 0;
    for (let h = 3 * f; h < 3 * f + 3; h++) {
      const v = 3 * corners[h]!;
      far = Math.max(far, Math.abs(measure(p[v]!, p[v + 1]!, p[v + 2]!)));
    }
    return far;
  }

  /** The cylinder that a patch suggests: its axis square to the normals, if they bend one way only. */
  #roundFit(patch: readonly number[]): Cylinder | null {
    const { normals: n, areas } = this.#sheet;
    const m: Symmetric3 = [0, 0, 0, 0, 0, 0];
    for (const f of patch) addSquare(m, [n[3 * f]!, n[3 * f + 1]!, n[3 * f + 2]!], areas[f]!);
    const { values, vectors } = eigenOf(m);
    if (!(values[1] > 3 * values[2]) || !(values[1] > 1e-3 * values[0])) return null;
    const direction = vectors[2];
    const [u, v] = across(direction);
    const points = this.#points(patch);
    const flat: [number, number][] = [];
    for (let i = 0; i < points.length; i += 3) {
      const at: Vec3 = [points[i]!, points[i + 1]!, points[i + 2]!];
      flat.push([dot(at, u), dot(at, v)]);
    }
    const circle = fitCircle(flat);
    if (!circle || circle.radius > this.#sheet.size) return null;
    const start: Cylinder = {
      point: [0, 1, 2].map((k) => circle.x * u[k]! + circle.y * v[k]!) as unknown as Vec3,
      direction,
      radius: circle.radius,
    };
    if (scatter(points, (x, y, z) => axisDistance(start, x, y, z) - start.radius) > this.#allowed)
      return null;
    const fitted = fitCylinder(points, start, 5);
    if (!fitted || fitted.radius > this.#sheet.size) return null;
    const spread = scatter(points, (x, y, z) => axisDistance(fitted, x, y, z) - fitted.radius);
    if (spread > 0.5 * this.#allowed) return null;
    // A patch that noise alone could bend so tells nothing; a larger one may.
    return sagittaOf(this.#sheet, patch, fitted) > 2 * this.#allowed ? fitted : null;
  }

  #growCylinder(seed: number, start: Cylinder): Candidate | null {
    const sheet = this.#sheet;
    const sign = Math.sign(this.#outwardness(start, seed));
    let cylinder = start;
    let region: number[] = [];
    for (let pass = 0; pass < 8; pass++) {
      const { radius } = cylinder;
      const grown = this.#spread(seed, Infinity, (f) => {
        if (sign * this.#outwardness(cylinder, f) < this.#leastFacing(f)) return false;
        return this.#farthest(f, (x, y, z) => axisDistance(cylinder, x, y, z) - radius) <= this.#allowed;
      });
      if (pass > 0 && grown.length <= region.length) break;
      region = grown;
      if (region.length < fewest) return null;
      const better = fitCylinder(this.#points(region), cylinder, 3);
      if (!better || better.radius > sheet.size) return null;
      cylinder = better;
    }
    const { radius } = cylinder;
    if (!this.#isLarge(region) || radius < 4 * this.#allowed) return null;
    if (sagittaOf(sheet, region, cylinder) < 6 * this.#allowed) return null;
    const points = this.#points(region);
    const spread = scatter(points, (x, y, z) => axisDistance(cylinder, x, y, z) - radius);
    if (spread > mostScatter * this.#allowed) return null;
    if (spread > this.#trifle(region)) {
      if (bendsFromCylinder(points, cylinder)) return null;
      if (!scattersByChance(sheet, region, (x, y, z) => axisDistance(cylinder, x, y, z) - radius))
        return null;
    }
    return { kind: 'cylinder', triangles: region, cylinder, points };
  }

  #outwardness({ point, direction: d }: Cylinder, f: number): number {
    const { corners, positions: p, normals: n } = this.#sheet;
    const [a, b, c] = [3 * corners[3 * f]!, 3 * corners[3 * f + 1]!, 3 * corners[3 * f + 2]!];
    const x = (p[a]! + p[b]! + p[c]!) / 3 - point[0];
    const y = (p[a + 1]! + p[b + 1]! + p[c + 1]!) / 3 - point[1];
    const z = (p[a + 2]! + p[b + 2]! + p[c + 2]!) / 3 - point[2];
    const h = x * d[0] + y * d[1] + z * d[2];
    const rx = x - h * d[0];
    const ry = y - h * d[1];
    const rz = z - h * d[2];
    const length = Math.sqrt(rx * rx + ry * ry + rz * rz);
    return length > 0 ? (rx * n[3 * f]! + ry * n[3 * f + 1]! + rz * n[3 * f + 2]!) / length : 0;
  }

  /** Scatter that nobody asks after, mm: rounding, or the warp of a face that is flat by any straightedge. */
  #trifle(region: readonly number[]): number {
    const area = region.reduce((s, f) => s + this.#sheet.areas[f]!, 0);
    return Math.max(this.#sheet.exact, Math.sqrt(area) / 1500);
  }

  #isLarge(region: readonly number[]): boolean {
    const area = region.reduce((s, f) => s + this.#sheet.areas[f]!, 0);
    return (
      region.length >= fewest &&
      area >= leastShare * this.#sheet.area &&
      area >= (leastExtent * this.#allowed) ** 2
    );
  }

  /** The corners of triangles, each once. */
  #points(region: readonly number[]): Float64Array {
    const { corners, positions: p } = this.#sheet;
    const round = ++this.#round;
    const points: number[] = [];
    for (const f of region)
      for (let h = 3 * f; h < 3 * f + 3; h++) {
        const v = corners[h]!;
        if (this.#met[v] === round) continue;
        this.#met[v] = round;
        points.push(p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!);
      }
    return Float64Array.from(points);
  }

  #mean(patch: readonly number[]): Vec3 {
    const { normals: n, areas } = this.#sheet;
    const sum: [number, number, number] = [0, 0, 0];
    for (const f of patch) for (let k = 0; k < 3; k++) sum[k]! += areas[f]! * n[3 * f + k]!;
    return unit(sum);
  }
}

/** Height of the arc that triangles cover over its chord, mm. */
const sagittaOf = (sheet: Sheet, triangles: readonly number[], cylinder: Cylinder): number =>
  cylinder.radius * (1 - maths.cos(sweepOf(sheet, triangles, cylinder).sweep / 2));

/** Root of the mean square. */
function scatter(points: Float64Array, measure: (x: number, y: number, z: number) => number): number {
  let sum = 0;
  for (let i = 0; i < points.length; i += 3) sum += measure(points[i]!, points[i + 1]!, points[i + 2]!) ** 2;
  return Math.sqrt(sum / Math.max(1, points.length / 3));
}
