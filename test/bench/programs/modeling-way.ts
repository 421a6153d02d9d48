import modeling from '@jscad/modeling';
import { segmentsOfCircle } from '../../../core/solid/segments.js';
import type { Vec2, Vec3 } from '../../../core/solid/types.js';
import type { Construction } from './recorded-kernel.js';

const { booleans, extrusions, geometries, primitives, transforms } = modeling;
export type Geom3 = ReturnType<typeof primitives.cube>;

const point2 = ([x, y]: Vec2): [number, number] => [x, y];
const point3 = ([x, y, z]: Vec3): [number, number, number] => [x, y, z];

/** What stands for parts of a construction. */
export interface Given {
  /** For the mesh that it begins with. */
  readonly mesh?: Geom3;
  /** For what is lofted. */
  readonly loft?: () => Geom3;
}

/** The solid wholly by @jscad/modeling: the same outlines and segments, its own extrusions, booleans and transforms. */
export function makeByModeling(c: Construction, given: Given = {}): Geom3 {
  const make = (of: Construction): Geom3 => makeByModeling(of, given);
  switch (c.op) {
    case 'union':
      return booleans.union(c.of.map(make));
    case 'subtract':
      return booleans.subtract(c.of.map(make));
    case 'translate':
      return transforms.translate(point3(c.by), make(c.of));
    case 'rotate':
      return transforms.rotate(
        [c.axis === 'x' ? c.angle : 0, c.axis === 'y' ? c.angle : 0, c.axis === 'z' ? c.angle : 0],
        make(c.of),
      );
    case 'loft': {
      if (given.loft) return given.loft();
      const { slice } = extrusions;
      const slices = c.sections.map(({ points }) => slice.fromPoints(points.map(point3)));
      return extrusions.extrudeFromSlices(
        {
          numberOfSlices: slices.length,
          callback: (_progress, index) => slices[index] as (typeof slices)[number],
        },
        slices[0] as (typeof slices)[number],
      ) as Geom3;
    }
    case 'extrude': {
      const [outline, ...more] = c.outlines;
      if (outline === undefined || more.length > 0) throw new Error('one outline is extruded');
      const flat = geometries.geom2.fromPoints(outline.map(point2));
      return transforms.translate([0, 0, c.z0], extrusions.extrudeLinear({ height: c.z1 - c.z0 }, flat));
    }
    case 'revolve': {
      const widest = Math.max(...c.profile.map(([r]) => r));
      const flat = geometries.geom2.fromPoints(
        c.profile.map(([r, z]): [number, number] => [Math.max(0, r), z]),
      );
      return extrusions.extrudeRotate({ segments: segmentsOfCircle(widest, c.tolerance) }, flat) as Geom3;
    }
    case 'frustum':
      return primitives.cylinderElliptic({
        height: c.z1 - c.z0,
        startRadius: [c.r0, c.r0],
        endRadius: [c.r1, c.r1],
        segments: segmentsOfCircle(Math.max(c.r0, c.r1), c.tolerance),
        center: [c.at[0], c.at[1], (c.z0 + c.z1) / 2],
      });
    case 'mesh':
      if (!given.mesh) throw new Error('nothing stands ready in this way');
      return given.mesh;
  }
}

export const scaledByModeling = (factors: Vec3, solid: Geom3): Geom3 =>
  transforms.scale(point3(factors), solid) as Geom3;

export const volumeByModeling = (solid: Geom3): number =>
  modeling.measurements.measureVolume(solid) as number;
