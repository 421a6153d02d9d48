import { encode } from 'fast-png';
import type { Mesh } from '../../solid/types.js';
import { weldMesh } from '../../solid/weld.js';
import { type Camera, defaultView, fitCamera, projectVertices, type View } from './camera.js';
import { type LinearColour, metalColour, type PreviewColour, parseColour, toByte } from './colour.js';
import { type GroundShadow, makeGroundShadow } from './ground.js';
import { lightSteps, makeLightTable } from './light.js';
import { findOcclusion } from './occlusion.js';
import {
  type Corner,
  drawLine,
  fillTriangle,
  makeSampleBuffer,
  normalUnit,
  type SampleBuffer,
} from './raster.js';
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
  /** Samples per pixel side, 1 to 4. Default 2. */
  readonly supersample?: number;
  /** A soft shadow on the ground. Default true. */
  readonly ground?: boolean;
}

export interface Pixels {
  readonly width: number;
  readonly height: number;
  /** Red, green, blue, 8 bits each, row by row from the top. */
  readonly data: Uint8Array;
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
export function renderPixels(mesh: Mesh, options: PreviewOptions = {}): Pixels {
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
  return resolve(buffer, factor, tables, open, background, shadow);
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

/** Index into a light table of one component of a stored normal, moved by part of a step. */
function lightIndex(component: number, offset: number): number {
  const at = Math.floor((component / normalUnit + 1) * 0.5 * (lightSteps - 1) + 0.5 + offset);
  return Math.max(0, Math.min(lightSteps - 1, at));
}

/** Colour that lines darken towards, linear: a warm near-black. */
const ink: LinearColour = [0.022, 0.019, 0.015];

/** Averages the samples of each pixel in linear light. */
function resolve(
  buffer: SampleBuffer,
  factor: number,
  tables: readonly Float32Array[],
  open: Float32Array,
  background: LinearColour,
  shadow: GroundShadow | null,
): Pixels {
  const width = buffer.width / factor;
  const height = buffer.height / factor;
  const data = new Uint8Array(width * height * 3);
  const share = 1 / (factor * factor);
  // Each sample of a pixel rounds its normal a little differently, so that no steps of the table show.
  const offsets = Array.from({ length: factor * factor }, (_, s) => (s + 0.5) * share - 0.5);
  const { depth, normalX, normalY, colour, line } = buffer;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const pixel = y * width + x;
      let ground = -1;
      let r = 0;
      let g = 0;
      let b = 0;
      for (let s = 0; s < factor * factor; s++) {
        const i = (y * factor + Math.floor(s / factor)) * buffer.width + x * factor + (s % factor);
        const keep = 1 - line[i]! / 255;
        r += ink[0] * (1 - keep);
        g += ink[1] * (1 - keep);
        b += ink[2] * (1 - keep);
        if (depth[i] === 0) {
          if (ground < 0) ground = 1 - (shadow?.at((x + 0.5) * factor, (y + 0.5) * factor) ?? 0);
          r += background[0] * ground * keep;
          g += background[1] * ground * keep;
          b += background[2] * ground * keep;
        } else {
          const table = tables[colour[i]!]!;
          const row = lightIndex(normalY[i]!, offsets[(s * 5 + 2) % offsets.length]!);
          const k = 3 * (row * lightSteps + lightIndex(normalX[i]!, offsets[s]!));
          const light = open[pixel]! * keep;
          r += table[k]! * light;
          g += table[k + 1]! * light;
          b += table[k + 2]! * light;
        }
      }
      data[3 * pixel] = toByte(r * share);
      data[3 * pixel + 1] = toByte(g * share);
      data[3 * pixel + 2] = toByte(b * share);
    }
  }
  return { width, height, data };
}

function checkCount(name: string, value: number, least: number, most: number): number {
  if (!(Number.isInteger(value) && value >= least && value <= most)) {
    throw new RangeError(`${name} is ${value}; a whole number from ${least} to ${most}`);
  }
  return value;
}
