import { maths } from '../../maths/maths.js';
import type { Mesh, Vec3 } from '../../solid/types.js';

/**
 * Where the picture is looked at from, radians. Azimuth: direction towards the viewer in the XY plane, from +X
 * towards +Y. Elevation above the horizon, −π/2 to π/2.
 */
export interface View {
  readonly azimuth: number;
  readonly elevation: number;
}

/** From the front, a little to the right and above. */
export const defaultView: View = { azimuth: (-62 / 180) * Math.PI, elevation: (33 / 180) * Math.PI };

/** A parallel projection onto samples: x to the right, y down, z towards the viewer, all in samples. */
export interface Camera {
  readonly width: number;
  readonly height: number;
  /** Samples per mm. */
  readonly scale: number;
  readonly right: Vec3;
  readonly up: Vec3;
  readonly towards: Vec3;
  /** Added after projecting, in samples. The third makes every depth at least 1: depth 0 is free to mean nothing. */
  readonly shift: readonly [number, number, number];
}

/** Free space round the shape, share of the frame. */
const padding = 0.055;

export function fitCamera(mesh: Mesh, view: View, width: number, height: number): Camera {
  const right: Vec3 = [-maths.sin(view.azimuth), maths.cos(view.azimuth), 0];
  const level = maths.cos(view.elevation);
  const towards: Vec3 = [
    level * maths.cos(view.azimuth),
    level * maths.sin(view.azimuth),
    maths.sin(view.elevation),
  ];
  const up: Vec3 = [
    -maths.sin(view.elevation) * maths.cos(view.azimuth),
    -maths.sin(view.elevation) * maths.sin(view.azimuth),
    level,
  ];
  let [x0, x1, y0, y1, z0] = [Infinity, -Infinity, Infinity, -Infinity, Infinity];
  const p = mesh.positions;
  for (let i = 0; i < p.length; i += 3) {
    const x = right[0] * p[i]! + right[1] * p[i + 1]! + right[2] * p[i + 2]!;
    const y = up[0] * p[i]! + up[1] * p[i + 1]! + up[2] * p[i + 2]!;
    const z = towards[0] * p[i]! + towards[1] * p[i + 1]! + towards[2] * p[i + 2]!;
    if (z < z0) z0 = z;
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
  }
  const scale = Math.min(
    (width * (1 - 2 * padding)) / Math.max(x1 - x0, 1e-9),
    (height * (1 - 2 * padding)) / Math.max(y1 - y0, 1e-9),
  );
  const shift = [
    width / 2 - (scale * (x0 + x1)) / 2,
    height / 2 + (scale * (y0 + y1)) / 2,
    1 - scale * z0,
  ] as const;
  return { width, height, scale, right, up, towards, shift };
}

/** One place in samples. */
export const projectPoint = (
  [x, y, z]: Vec3,
  { right: r, up: u, towards: d, scale, shift }: Camera,
): Vec3 => [
  scale * (r[0] * x + r[1] * y + r[2] * z) + shift[0],
  -scale * (u[0] * x + u[1] * y + u[2] * z) + shift[1],
  scale * (d[0] * x + d[1] * y + d[2] * z) + shift[2],
];

/** Vertex positions in samples: x, y, z a vertex. */
export function projectVertices(mesh: Mesh, camera: Camera): Float64Array {
  const { right: r, up: u, towards: d, scale, shift } = camera;
  const p = mesh.positions;
  const out = new Float64Array(p.length);
  for (let i = 0; i < p.length; i += 3) {
    const x = p[i]!;
    const y = p[i + 1]!;
    const z = p[i + 2]!;
    out[i] = scale * (r[0] * x + r[1] * y + r[2] * z) + shift[0];
    out[i + 1] = -scale * (u[0] * x + u[1] * y + u[2] * z) + shift[1];
    out[i + 2] = scale * (d[0] * x + d[1] * y + d[2] * z) + shift[2];
  }
  return out;
}
