import type { Vec3 } from '../../solid/types.js';
import type { Axis, CylinderForm, Facing, SurfacePlace } from './place.js';

/** How far the mesh's corners lie from the ideal surface, mm. */
export interface FitError {
  readonly max: number;
  readonly rms: number;
}

interface Found {
  /** By its position, as a person types it: `top face`, `bore at 12, 30`. No two surfaces of a mesh share one. */
  readonly name: string;
  readonly place: SurfacePlace;
  /** Numbers of the mesh's triangles. */
  readonly triangles: Uint32Array;
  /** mm² */
  readonly area: number;
  /** Of the area; on a cylinder, the middle of its axis. */
  readonly centre: Vec3;
  readonly error: FitError;
}

/** A flat face; pieces that lie in one plane and look the same way are one. */
export interface PlaneSurface extends Found {
  readonly kind: 'plane';
  /** Unit, outward. */
  readonly normal: Vec3;
  /** normal · point for its points, mm. */
  readonly offset: number;
  /** Where it looks, within 2° of an axis. */
  readonly facing: Facing | null;
  /** The furthest out of those that look the same way, but for trifles: what `top face` means. */
  readonly outermost: boolean;
}

/** A round face; pieces of one radius about one axis are one. */
export interface CylinderSurface extends Found {
  readonly kind: 'cylinder';
  readonly form: CylinderForm;
  /** Unit; its greatest component is positive. */
  readonly direction: Vec3;
  /** Axis it lies along, within 2°. */
  readonly along: Axis | null;
  /**
   * mm. Through the corners of the facets: a tessellated bore has its corners on the exact circle and its facets inside
   * it. On a scan, whose corners stray both ways, by least squares.
   */
  readonly radius: number;
  /** Least and greatest way along `direction` from the origin, mm. */
  readonly extent: readonly [number, number];
  /** How much of the circle it covers, radians. */
  readonly sweep: number;
  /** For a bore: open at both ends, at one, or `null` where that cannot be told. */
  readonly through: boolean | null;
}

export type MeshSurface = PlaneSurface | CylinderSurface;

/** What the searches find, not yet measured. */
export type Candidate = PlaneCandidate | CylinderCandidate;

interface Piece {
  readonly triangles: readonly number[];
  /** The corners it was fitted by, three numbers each. */
  readonly points: Float64Array;
}

export interface PlaneCandidate extends Piece {
  readonly kind: 'plane';
  readonly normal: Vec3;
}

export interface CylinderCandidate extends Piece {
  readonly kind: 'cylinder';
  readonly cylinder: Cylinder;
}

/** Infinite cylinder, mm. */
export interface Cylinder {
  readonly point: Vec3;
  /** Unit. */
  readonly direction: Vec3;
  readonly radius: number;
}
