import { encode } from 'fast-png';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { weldMesh } from '../../solid/weld.js';
import { type Camera, defaultView, fitCamera, projectPoint, projectVertices, type View } from './camera.js';
import { metalColour, type PreviewColour, parseColour } from './colour.js';
import { makeGroundShadow } from './ground.js';
import { makeLightTable } from './light.js';
import { findOcclusion } from './occlusion.js';
import { type Corner, drawLine, fillTriangle, makeSampleBuffer, type SampleBuffer } from './raster.js';
import { type Pixels, resolve, type SurfaceTint } from './resolve.js';
import { type SmoothMesh, smoothNormals } from './smooth-normals.js';

/** Triangles `start` to `start + count − 1` in a colour of their own; later groups win. */
export interface ColourGroup {
  readonly start: number;
  readonly count: number;
  readonly colour: PreviewColour;
}

export interface PreviewOptions {
  /** Pixels, 16 to 4096. Default 640 × 480. */
  readonly width?: number;
  readonly height?: number;
  readonly view?: View;
  /** `#rrggbb`, default white: it prints. */
  readonly background?: string;
  /** Of triangles in no group. Default metal. */
  readonly colour?: PreviewColour;
  readonly groups?: readonly ColourGroup[];
  /** Colours by place instead of `colour`, whose finish they have; groups keep theirs. */
  readonly tint?: SurfaceTint;
  /** Samples per pixel side, 1 to 4. Default 2. */
  readonly supersample?: number;
  /** A soft shadow on the ground. Default true. */
  readonly ground?: boolean;
}

/** A picture and how it was seen. */
export interface Scene {
  readonly pixels: Pixels;
  /**
   * Where a place stands in the picture, pixels, y down, and how far behind the surface that is seen there, mm; negative
   * in front of it, endless where nothing is.
   */
  readonly look: (at: Vec3) => { readonly x: number; readonly y: number; readonly behind: number };
}

/** A shaded picture of the mesh, fitted to the frame, as PNG bytes. See `renderPixels`. */
export function renderPreview(mesh: Mesh, options: PreviewOptions = {}): Uint8Array {
  const { width, height, data } = renderPixels(mesh, options);
  return encode({ width, height, data, channels: 3, depth: 8 }, { zlib: { level: 4 } });
}

/**
 * Draws the mesh in parallel projection: smooth shading split at creases, creases and outlines as thin lines,
 * corners softly darkened, a soft shadow on the ground. The same input gives the same pixels.
 *
 * @throws RangeError for sizes, colours or groups out of range. A mesh that is not closed is drawn as it is.
 */
export const renderPixels = (mesh: Mesh, options: PreviewOptions = {}): Pixels =>
  renderScene(mesh, options).pixels;

/** The same, to find places in it. */
export function renderScene(mesh: Mesh, options: PreviewOptions = {}): Scene {
  const width = checkCount('width', options.width ?? 640, 16, 4096);
  const height = checkCount('height', options.height ?? 480, 16, 4096);
  const factor = checkCount('supersample', options.supersample ?? 2, 1, 4);
  const view = options.view ?? defaultView;
  const background = parseColour(options.background ?? '#ffffff');
  const colours = [options.colour ?? metalColour, ...(options.groups ?? []).map((g) => g.colour)];
  const tables = colours.map((c) => makeLightTable(c, view.elevation));

  const welded = weldMesh(mesh);
  const camera = fitCamera(welded, view, width * factor, height * factor);
  const buffer = makeSampleBuffer(camera.width, camera.height);
  drawMesh(
    buffer,
    welded,
    camera,
    colourOfTriangles(mesh.triangles.length / 3, options.groups ?? []),
    factor,
  );
  const open = findOcclusion(buffer, factor, Math.max(width, height) * 0.03);
  const shadow = options.ground === false ? null : makeGroundShadow(welded, camera);
  const pixels = resolve({ buffer, factor, tables, open, background, shadow, camera, tint: options.tint });
  return {
    pixels,
    look(at) {
      const [x, y, z] = projectPoint(at, camera);
      const [column, row] = [Math.floor(x), Math.floor(y)];
      const inside = column >= 0 && row >= 0 && column < buffer.width && row < buffer.height;
      const seen = inside ? buffer.depth[row * buffer.width + column]! : 0;
      return { x: x / factor, y: y / factor, behind: seen === 0 ? Infinity : (seen - z) / camera.scale };
    },
  };
}

function colourOfTriangles(count: number, groups: readonly ColourGroup[]): Uint8Array {
  const colours = new Uint8Array(count);
  if (groups.length > 254) throw new RangeError(`${groups.length} colour groups; up to 254`);
  groups.forEach((group, i) => {
    const { start, count: n } = group;
    if (!(Number.isInteger(start) && Number.isInteger(n) && start >= 0 && n >= 0 && start + n <= count)) {
      throw new RangeError(`colour group of triangles ${start} to ${start + n - 1}; the mesh has ${count}`);
    }
    colours.fill(i + 1, start, start + n);
  });
  return colours;
}

/** Line strengths, 0 to 255. */
const outlineStrength = 200;
const creaseStrength = 135;

function drawMesh(
  buffer: SampleBuffer,
  mesh: Mesh,
  camera: Camera,
  colours: Uint8Array,
  factor: number,
): void {
  const points = projectVertices(mesh, camera);
  const smooth = smoothNormals(mesh);
  const t = mesh.triangles;
  const front = new Uint8Array(t.length / 3);
  const corner = (): Corner => ({ x: 0, y: 0, z: 0, nx: 0, ny: 0 });
  const [a, b, c] = [corner(), corner(), corner()] as const;
  for (let f = 0; f < front.length; f++) {
    setCorner(a, 3 * f, points, t, smooth, camera);
    setCorner(b, 3 * f + 1, points, t, smooth, camera);
    setCorner(c, 3 * f + 2, points, t, smooth, camera);
    // y runs down: counter-clockwise from outside is a negative turn here.
    if ((b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y) >= 0) continue;
    front[f] = 1;
    fillTriangle(buffer, a, b, c, colours[f]!);
  }
  drawEdges(buffer, points, t, smooth, front, factor);
}

function setCorner(
  corner: Corner,
  at: number,
  points: Float64Array,
  t: Uint32Array,
  smooth: SmoothMesh,
  { right, up }: Camera,
): void {
  const v = 3 * t[at]!;
  const n = 3 * at;
  const normals = smooth.corners;
  corner.x = points[v]!;
  corner.y = points[v + 1]!;
  corner.z = points[v + 2]!;
  corner.nx = right[0] * normals[n]! + right[1] * normals[n + 1]! + right[2] * normals[n + 2]!;
  corner.ny = up[0] * normals[n]! + up[1] * normals[n + 1]! + up[2] * normals[n + 2]!;
}

function drawEdges(
  buffer: SampleBuffer,
  points: Float64Array,
  t: Uint32Array,
  smooth: SmoothMesh,
  front: Uint8Array,
  factor: number,
): void {
  const point = (v: number) => ({ x: points[3 * v]!, y: points[3 * v + 1]!, z: points[3 * v + 2]! });
  for (let h = 0; h < t.length; h++) {
    const twin = smooth.twins[h]!;
    if (twin >= 0 && twin < h) continue;
    const here = front[Math.floor(h / 3)]!;
    const there = twin < 0 ? 0 : front[Math.floor(twin / 3)]!;
    if (here + there === 0) continue;
    const outline = here + there === 1;
    if (!outline && smooth.creases[h] === 0) continue;
    const end = h % 3 === 2 ? h - 2 : h + 1;
    const thickness = outline ? factor : Math.max(1, Math.round(factor * 0.6));
    const strength = outline ? outlineStrength : creaseStrength;
    drawLine(buffer, point(t[h]!), point(t[end]!), thickness, strength, 1.5 * factor);
  }
}

function checkCount(name: string, value: number, least: number, most: number): number {
  if (!(Number.isInteger(value) && value >= least && value <= most)) {
    throw new RangeError(`${name} is ${value}; a whole number from ${least} to ${most}`);
  }
  return value;
}
