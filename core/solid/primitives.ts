import type { Manifold } from 'manifold-3d/manifold.js';
import { maths } from '../maths/maths.js';
import { coveredArea, extrude, revolve } from './binding.js';
import {
  checkFinite,
  checkPolygon,
  checkPositive,
  checkVec2,
  checkVec3,
  measureArea,
} from './check-input.js';
import { type Engine, guard } from './engine.js';
import { SolidError } from './errors.js';
import { KernelSolid } from './kernel-solid.js';
import { segmentsOfCircle, segmentsOfSphere } from './segments.js';
import type { Polygon, Solid, Vec2, Vec3 } from './types.js';

/** See `Kernel.box`. */
export function makeBox(engine: Engine, min: Vec3, max: Vec3): Solid {
  checkVec3(min, 'box min');
  checkVec3(max, 'box max');
  const size = [0, 1, 2].map((k) => checkPositive(max[k]! - min[k]!, `box size in ${'xyz'[k]}`));
  return placed(engine, 'box', [min[0], min[1], min[2]], () =>
    engine.wasm.Manifold.cube([size[0]!, size[1]!, size[2]!]),
  );
}

/** See `Kernel.sphere`. */
export function makeSphere(engine: Engine, centre: Vec3, radius: number, tolerance: number): Solid {
  checkVec3(centre, 'sphere centre');
  const n = segmentsOfSphere(radius, tolerance);
  return placed(engine, 'sphere', [centre[0], centre[1], centre[2]], () =>
    engine.wasm.Manifold.sphere(radius, n),
  );
}

/** See `Kernel.frustum`. */
export function makeFrustum(
  engine: Engine,
  at: Vec2,
  z0: number,
  r0: number,
  z1: number,
  r1: number,
  tolerance: number,
): Solid {
  checkVec2(at, 'frustum axis');
  checkFinite(z0, 'frustum z0');
  const height = checkPositive(checkFinite(z1, 'frustum z1') - z0, 'frustum height z1 − z0');
  for (const [r, name] of [
    [r0, 'r0'],
    [r1, 'r1'],
  ] as const)
    if (checkFinite(r, `frustum ${name}`) < 0)
      throw new SolidError('bad-size', `frustum ${name} is ${r}; it must be 0 or greater`);
  const n = segmentsOfCircle(Math.max(r0, r1), tolerance);
  const { Manifold } = engine.wasm;
  if (r0 > 0)
    return placed(engine, 'frustum', [at[0], at[1], z0], () => Manifold.cylinder(height, r0, r1, n));
  // A cylinder's lower radius may not be 0: make the cone upright and turn it over.
  const cone = KernelSolid.make(engine, 'frustum', () => Manifold.cylinder(height, r1, 0, n));
  return cone.mirror([0, 0, 1]).translate([at[0], at[1], z0 + height]);
}

/** See `Kernel.extrude`. */
export function makeExtrusion(engine: Engine, outlines: readonly Polygon[], z0: number, z1: number): Solid {
  checkFinite(z0, 'extrusion z0');
  const height = checkPositive(checkFinite(z1, 'extrusion z1') - z0, 'extrusion height z1 − z0');
  checkOutlines(engine, outlines, 'extrusion outline');
  return placed(engine, 'extrude', [0, 0, z0], () => extrude(engine.wasm, outlines, height));
}

/** Radii below this, mm, are on the axis. */
const onAxis = 1e-7;

/** See `Kernel.revolve`. */
export function makeRevolution(engine: Engine, profile: Polygon, tolerance: number): Solid {
  checkPolygon(profile, 'revolution profile');
  const radii = profile.map((p) => p[0]);
  const least = Math.min(...radii);
  if (least < -onAxis)
    throw new SolidError(
      'bad-outline',
      `the revolution profile reaches r = ${least}; r must be 0 or greater`,
    );
  const n = segmentsOfCircle(Math.max(...radii), tolerance);
  const snapped = profile.map(([r, z]): Vec2 => [r < onAxis ? 0 : r, z]);
  checkOutlines(engine, [snapped], 'revolution profile');
  return KernelSolid.make(engine, 'revolve', () => revolve(engine.wasm, [snapped], n));
}

/** See `Kernel.hull`. */
export function makeHull(engine: Engine, parts: readonly Solid[]): Solid {
  if (parts.length === 0) throw new SolidError('empty-operand', 'hull of no solids');
  const all = parts.map((part) => KernelSolid.operand(part, 'hull'));
  return KernelSolid.make(engine, 'hull', () => engine.wasm.Manifold.hull(all));
}

/** See `Kernel.union`. */
export function makeUnion(engine: Engine, parts: readonly Solid[]): Solid {
  if (parts.length === 0) throw new SolidError('empty-operand', 'union of no solids');
  const all = parts.map((part) => KernelSolid.operand(part, 'union'));
  return KernelSolid.make(engine, 'union', () => engine.wasm.Manifold.union(all));
}

function placed(
  engine: Engine,
  what: string,
  at: readonly [number, number, number],
  create: () => Manifold,
): Solid {
  const solid = KernelSolid.make(engine, what, create);
  return at.every((v) => v === 0) ? solid : solid.translate(at);
}

/** Throws if outlines cross, overlap or run the wrong way. */
function checkOutlines(engine: Engine, outlines: readonly Polygon[], what: string): void {
  if (outlines.length === 0) throw new SolidError('bad-outline', `${what}: there is none`);
  outlines.forEach((outline, i) => {
    checkPolygon(outline, `${what} ${i}`);
  });
  const area = outlines.reduce((sum, outline) => sum + measureArea(outline), 0);
  if (!(area > 0))
    throw new SolidError(
      'bad-outline',
      `${what}: the enclosed area is ${area} mm²; outlines run counter-clockwise, holes clockwise`,
    );
  engine.scopes.require();
  // Clean outlines cover what their points sum to; a crossing or an overlap changes it.
  const reach = outlines.reduce((sum, outline) => sum + measurePerimeter(outline), 0);
  if (Math.abs(guard(engine, what, () => coveredArea(engine.wasm, outlines)) - area) > 1e-6 * reach)
    throw new SolidError('bad-outline', `${what}: it crosses itself or another, or overlaps it`);
}

function measurePerimeter(polygon: Polygon): number {
  return polygon.reduce((sum, [x, y], i) => {
    const [u, v] = polygon[(i + 1) % polygon.length]!;
    return sum + maths.hypot(u - x, v - y);
  }, 0);
}
