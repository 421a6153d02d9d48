import type { Camera } from './camera.js';
import { type LinearColour, toByte } from './colour.js';
import type { GroundShadow } from './ground.js';
import { lightSteps } from './light.js';
import { normalUnit, type SampleBuffer } from './raster.js';

export interface Pixels {
  readonly width: number;
  readonly height: number;
  /** Red, green, blue, 8 bits each, row by row from the top. */
  readonly data: Uint8Array;
}

/** Colour of a surface at a place, mm, with its outward unit normal; undefined: as it is. */
export type SurfaceTint = (
  x: number,
  y: number,
  z: number,
  nx: number,
  ny: number,
  nz: number,
) => LinearColour | undefined;

/** What a picture is made of once all is drawn. */
export interface Picture {
  readonly buffer: SampleBuffer;
  /** Samples a pixel side. */
  readonly factor: number;
  /** Light by normal, for each colour of the buffer. */
  readonly tables: readonly Float32Array[];
  /** Darkening a pixel. */
  readonly open: Float32Array;
  readonly background: LinearColour;
  readonly shadow: GroundShadow | null;
  readonly camera: Camera;
  /** Of colour 0. */
  readonly tint: SurfaceTint | undefined;
}

const white: LinearColour = [1, 1, 1];

/** Asks for the colour at a sample: its place and normal, back from the picture into space. */
function tintAt({ buffer, camera, tint }: Picture, sample: number): LinearColour | undefined {
  if (tint === undefined) return undefined;
  const { right, up, towards, scale, shift } = camera;
  const a = ((sample % buffer.width) + 0.5 - shift[0]) / scale;
  const b = (shift[1] - Math.floor(sample / buffer.width) - 0.5) / scale;
  const c = (buffer.depth[sample]! - shift[2]) / scale;
  const u = buffer.normalX[sample]! / normalUnit;
  const v = buffer.normalY[sample]! / normalUnit;
  const w = Math.sqrt(Math.max(0, 1 - u * u - v * v));
  return tint(
    right[0] * a + up[0] * b + towards[0] * c,
    right[1] * a + up[1] * b + towards[1] * c,
    right[2] * a + up[2] * b + towards[2] * c,
    right[0] * u + up[0] * v + towards[0] * w,
    right[1] * u + up[1] * v + towards[1] * w,
    right[2] * u + up[2] * v + towards[2] * w,
  );
}

/** Index into a light table of one component of a stored normal, moved by part of a step. */
function lightIndex(component: number, offset: number): number {
  const at = Math.floor((component / normalUnit + 1) * 0.5 * (lightSteps - 1) + 0.5 + offset);
  return Math.max(0, Math.min(lightSteps - 1, at));
}

/** Colour that lines darken towards, linear: a warm near-black. */
const ink: LinearColour = [0.022, 0.019, 0.015];

/** Averages the samples of each pixel in linear light. */
export function resolve(picture: Picture): Pixels {
  const { buffer, factor, tables, open, background, shadow } = picture;
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
      // One colour a pixel, of the first surface in it: fields are smooth where surfaces are.
      let tint: LinearColour | undefined | null = null;
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
          if (tint === null && colour[i] === 0) tint = tintAt(picture, i);
          const own = colour[i] === 0 && tint ? tint : white;
          r += table[k]! * light * own[0];
          g += table[k + 1]! * light * own[1];
          b += table[k + 2]! * light * own[2];
        }
      }
      data[3 * pixel] = toByte(r * share);
      data[3 * pixel + 1] = toByte(g * share);
      data[3 * pixel + 2] = toByte(b * share);
    }
  }
  return { width, height, data };
}
