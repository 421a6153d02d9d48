/** x, y, z in mm. */
export type Vec3 = readonly [number, number, number];
export type Vec2 = readonly [number, number];

/** A closed planar polygon, mm, last point not repeated; counter-clockwise encloses material, clockwise a hole. */
export type Polygon = readonly Vec2[];

/** Axis-aligned box, mm. */
export interface Box {
  readonly min: Vec3;
  readonly max: Vec3;
}

/**
 * An indexed triangle mesh, the only form in which shapes leave the kernel.
 * `positions` holds x, y, z per vertex in mm (float32, as STL carries them); `triangles` three vertex
 * indices per triangle, counter-clockwise seen from outside.
 */
export interface Mesh {
  readonly positions: Float32Array;
  readonly triangles: Uint32Array;
}

/** A mesh on its way into the kernel, its vertices in double precision, where they are kept. */
export interface ExactMesh {
  readonly positions: Float64Array;
  readonly triangles: Uint32Array;
}

/** Volume integrals of a solid of density 1. */
export interface MassProperties {
  /** mm³ */
  readonly volume: number;
  /** mm² */
  readonly area: number;
  /** mm */
  readonly centroid: Vec3;
  /** Inertia tensor about the centroid, mm⁵: [Ixx, Iyy, Izz, Ixy, Iyz, Izx] with Ixy = −∫xy dV. */
  readonly inertia: readonly [number, number, number, number, number, number];
}

/**
 * An immutable solid. Every operation returns a new one. Solids live inside a `Kernel.scope` and are freed
 * when it ends; take `mesh()` or numbers out of the scope, never the solid.
 *
 * Every operation checks its result: an operand or result that is empty or not finite throws a `SolidError`
 * (except where `isEmpty` is the question), since the kernel underneath empties silently.
 */
export interface Solid {
  add(...others: readonly Solid[]): Solid;
  subtract(...others: readonly Solid[]): Solid;
  /** May be empty: ask `isEmpty`. */
  intersect(other: Solid): Solid;
  translate(by: Vec3): Solid;
  /** Right-handed rotation about an axis through the origin, radians. */
  rotate(axis: 'x' | 'y' | 'z', angle: number): Solid;
  scale(factor: number | Vec3): Solid;
  mirror(normal: Vec3): Solid;
  isEmpty(): boolean;
  /** mm³ */
  volume(): number;
  bounds(): Box;
  /** Connected pieces, largest first. */
  components(): readonly Solid[];
  massProperties(): MassProperties;
  /** The outlines where the plane z = `height` cuts the solid. */
  slice(height: number): readonly Polygon[];
  /** The silhouette seen along Z. */
  projection(): readonly Polygon[];
  mesh(): Mesh;
}

/** One section of a loft: a polygon whose points correspond, index by index, with those of its neighbours. */
export interface LoftSection {
  readonly points: readonly Vec3[];
}

/**
 * The shape kernel. All lengths mm, angles radians. `tolerance` is the greatest chord deviation, mm; segment
 * counts are derived from it, vertices lie on the exact curve.
 */
export interface Kernel {
  /** Runs one step and frees every solid made in it. The result must be plain data (a mesh, numbers). Scopes nest. */
  scope<T>(step: () => T): T;
  fromMesh(mesh: Mesh | ExactMesh): Solid;
  /**
   * Joins consecutive sections with triangles and closes both ends, which must be planar simple polygons or tips,
   * all of whose points are one. Neighbouring points of a section may fall together.
   * Sections run in the direction their counter-clockwise normal points.
   * `diagonal` chooses how the quad between sections `layer`, `layer + 1` and points `i`, `i + 1` is split:
   * true joins (layer, i) with (layer + 1, i + 1). Default: the shorter diagonal.
   */
  loft(sections: readonly LoftSection[], diagonal?: (layer: number, i: number) => boolean): Solid;
  /** Extrudes outlines (holes clockwise) from z0 up to z1. */
  extrude(outlines: readonly Polygon[], z0: number, z1: number): Solid;
  /** Revolves a simple polygon of [r, z] points, r ≥ 0, counter-clockwise in the (r, z) plane, about Z. */
  revolve(profile: Polygon, tolerance: number): Solid;
  /** A cone frustum or cylinder about Z through (x, y), radius r0 at z0 to r1 at z1; one of them may be 0. */
  frustum(at: Vec2, z0: number, r0: number, z1: number, r1: number, tolerance: number): Solid;
  box(min: Vec3, max: Vec3): Solid;
  sphere(centre: Vec3, radius: number, tolerance: number): Solid;
  hull(parts: readonly Solid[]): Solid;
  /**
   * Triangles over outlines (holes clockwise), as places in the run of all their points; nearly touching points are
   * borne, points that lie on a line are kept.
   */
  fill(outlines: readonly Polygon[]): readonly (readonly [number, number, number])[];
  union(parts: readonly Solid[]): Solid;
  /** From a @jscad/modeling geom3 (checked at run time). */
  fromModeling(geometry: unknown): Solid;
  /** To a @jscad/modeling geom3. */
  toModeling(solid: Solid): unknown;
}
