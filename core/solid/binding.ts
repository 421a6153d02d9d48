import type { CrossSection, Manifold, ManifoldToplevel } from 'manifold-3d/manifold.js';
import type { Polygon, Vec2 } from './types.js';

/**
 * manifold-3d's own wrappers round lists of points leave the lists behind in WASM memory (3.5.4: some 36 kB
 * for each cap of 2000 points triangulated, never collected). These do the same by the calls underneath and
 * give everything back.
 */

interface List<T> {
  size(): number;
  get(index: number): T;
  push_back(item: T): void;
  delete(): void;
}
interface Point {
  readonly x: number;
  readonly y: number;
}
type Outlines = List<List<Point>>;

/** The calls underneath, as setup() leaves them on the module. */
interface Internals {
  readonly Vector_vec2: new () => List<Point>;
  readonly Vector2_vec2: new () => Outlines;
  _Triangulate(outlines: Outlines, epsilon: number, allowConvex: boolean): List<ArrayLike<number>>;
  _Extrude(outlines: Outlines, height: number, divisions: number, twist: number, top: Point): Manifold;
  _Revolve(outlines: Outlines, segments: number, degrees: number): Manifold;
}

export type Triangulate = (outlines: readonly Polygon[]) => [number, number, number][];

/** Triangles over outlines (holes clockwise), as places in the run of all their points. */
export function triangulate(
  wasm: ManifoldToplevel,
  outlines: readonly Polygon[],
): [number, number, number][] {
  return lend(wasm, outlines, (list) => {
    const found = inside(wasm)._Triangulate(list, -1, false);
    try {
      return Array.from({ length: found.size() }, (_, i) => {
        const corners = found.get(i);
        return [corners[0]!, corners[1]!, corners[2]!];
      });
    } finally {
      found.delete();
    }
  });
}

/** The outlines raised to a height from z = 0, points kept as they are. */
export const extrude = (wasm: ManifoldToplevel, outlines: readonly Polygon[], height: number): Manifold =>
  lend(wasm, outlines, (list) => inside(wasm)._Extrude(list, height, 0, 0, { x: 1, y: 1 }));

/** The outlines of (r, z) turned about Z in so many steps, points kept as they are. */
export const revolve = (wasm: ManifoldToplevel, outlines: readonly Polygon[], segments: number): Manifold =>
  lend(wasm, outlines, (list) => inside(wasm)._Revolve(list, segments, 360));

/** Area covered by the outlines, those that overlap or cross counted once (positive fill). */
export function coveredArea(wasm: ManifoldToplevel, outlines: readonly Polygon[]): number {
  const section = lend(wasm, outlines, (list) => new (sectionClass(wasm))(list, positiveFill));
  try {
    return section.area();
  } finally {
    section.delete();
  }
}

/** The outlines of a cross section, which stays the caller's. */
export function readOutlines(section: CrossSection): Polygon[] {
  const list = (section as unknown as { _ToPolygons(): Outlines })._ToPolygons();
  try {
    return Array.from({ length: list.size() }, (_, i) => {
      // A copy, ours to give back.
      const points = list.get(i);
      try {
        return Array.from({ length: points.size() }, (_, k): Vec2 => {
          const { x, y } = points.get(k);
          return [x, y];
        });
      } finally {
        points.delete();
      }
    });
  } finally {
    list.delete();
  }
}

const positiveFill = 2;
const inside = (wasm: ManifoldToplevel): Internals => wasm as unknown as Internals;

/** The class behind the wrapper that `wasm.CrossSection` is. */
function sectionClass(wasm: ManifoldToplevel): new (outlines: Outlines, fill: number) => CrossSection {
  const square = wasm.CrossSection.square([1, 1]);
  try {
    return square.constructor as new (
      outlines: Outlines,
      fill: number,
    ) => CrossSection;
  } finally {
    square.delete();
  }
}

function lend<T>(wasm: ManifoldToplevel, outlines: readonly Polygon[], use: (list: Outlines) => T): T {
  const { Vector_vec2, Vector2_vec2 } = inside(wasm);
  const list = new Vector2_vec2();
  try {
    for (const outline of outlines) {
      const points = new Vector_vec2();
      try {
        for (const [x, y] of outline) points.push_back({ x, y });
        list.push_back(points);
      } finally {
        points.delete();
      }
    }
    return use(list);
  } finally {
    list.delete();
  }
}
