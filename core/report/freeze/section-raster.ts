import { encode } from 'fast-png';
import { maths } from '../../maths/maths.js';
import type { Vec2 } from '../../solid/types.js';
import { dataUri } from '../data-uri.js';
import type { UprightPlane } from './cut-mesh.js';
import type { FieldSampler } from './sample-field.js';
import { type Rgb, scaleColour } from './scale.js';
import type { ValueScale } from './value-scale.js';

/** Pixels to a mm on paper: 150 to the inch. */
const fineness = 6;
/** Colours, and strengths of a line over each of them. */
const levels = 160;
const shades = 3;
/** Pixels beyond an outline that are coloured still: the outline itself cuts them off. */
const beyond = 3;

export interface SectionRaster {
  readonly sampler: FieldSampler;
  readonly scale: ValueScale;
  readonly plane: UprightPlane;
  /** Of the metal, along the plane and up, mm. */
  readonly outlines: readonly (readonly Vec2[])[];
  readonly room: { readonly min: Vec2; readonly max: Vec2 };
  /** mm on paper for a mm of the pattern. */
  readonly perMm: number;
}

const n = (v: number): string => String(Math.round(v * 100) / 100 + 0);

/**
 * The plane's colours as a picture of indexed colours with lines at the legend's values, clear where there is no metal;
 * an SVG element whose upper left corner is `at`, mm on paper.
 */
export function rasterOf(section: SectionRaster, at: Vec2): string {
  const { scale, room, perMm } = section;
  const pixel = 1 / (fineness * perMm);
  const width = Math.max(1, Math.ceil((room.max[0] - room.min[0]) / pixel));
  const height = Math.max(1, Math.ceil((room.max[1] - room.min[1]) / pixel));
  const places = placesOf(section, width, height, pixel);
  const marks = scale.ticks.map((tick) => tick.at);
  const data = new Uint8Array(width * height);
  for (let i = 0; i < data.length; i++) {
    const t = places[i]!;
    if (t < 0) continue;
    const right = places[i + 1] ?? -1;
    const below = places[i + width] ?? -1;
    const dx = right < 0 ? 0 : right - t;
    const dy = below < 0 ? 0 : below - t;
    const slope = Math.max(Math.sqrt(dx * dx + dy * dy), 1e-5);
    let tick = -1;
    for (let k = 0; k < marks.length && tick < 0; k++) if (Math.abs(marks[k]! - t) < slope) tick = k;
    data[i] =
      tick < 0
        ? 1 + Math.min(levels - 1, Math.floor(t * levels))
        : 1 + levels + tick * shades + Math.floor((Math.abs(marks[tick]! - t) / slope) * shades);
  }
  const palette = [
    [255, 255, 255, 0],
    ...Array.from({ length: levels }, (_, i) => [...scaleColour((i + 0.5) / levels), 255]),
    ...scale.ticks.flatMap((tick) =>
      Array.from({ length: shades }, (_, i) => [...lineColour(tick.at, (shades - i) / (shades + 1)), 255]),
    ),
  ];
  const png = encode({ width, height, data, channels: 1, depth: 8, palette }, { zlib: { level: 6 } });
  return `<image x="${n(at[0])}" y="${n(at[1])}" width="${n(width / fineness)}" height="${n(height / fineness)}" preserveAspectRatio="none" href="${dataUri('image/png', png)}"/>`;
}

/** Place on the scale by pixel; −1 where there is no metal. */
function placesOf(
  { sampler, scale, plane: { through, direction }, outlines, room }: SectionRaster,
  width: number,
  height: number,
  pixel: number,
): Float32Array {
  const [c, s] = [maths.cos(direction), maths.sin(direction)];
  const places = new Float32Array(width * height).fill(-1);
  const rows = rowSpans(outlines, room, height, pixel);
  for (let row = 0; row < height; row++)
    for (const [from, to] of rows[row]!)
      for (let column = Math.max(0, from); column <= Math.min(width - 1, to); column++) {
        const u = room.min[0] + (column + 0.5) * pixel;
        const value = sampler(through[0] + u * c, through[1] + u * s, room.max[1] - (row + 0.5) * pixel);
        if (!Number.isNaN(value)) places[row * width + column] = scale.at(value);
      }
  return places;
}

/** First and last pixel of each stretch of metal in each row, a little more to either side and to rows above and below. */
function rowSpans(
  outlines: readonly (readonly Vec2[])[],
  room: SectionRaster['room'],
  height: number,
  pixel: number,
): readonly (readonly (readonly [number, number])[])[] {
  const crossings: number[][] = Array.from({ length: height }, () => []);
  for (const loop of outlines)
    for (let i = 0; i < loop.length; i++) {
      const [a, b] = [loop[i]!, loop[(i + 1) % loop.length]!];
      const [ra, rb] = [a, b].map((p) => (room.max[1] - p[1]) / pixel - 0.5) as [number, number];
      for (
        let row = Math.max(0, Math.ceil(Math.min(ra, rb)));
        row < Math.min(height, Math.max(ra, rb));
        row++
      )
        crossings[row]!.push((a[0] + ((row - ra) / (rb - ra)) * (b[0] - a[0]) - room.min[0]) / pixel);
    }
  const own = crossings.map((row) => {
    row.sort((p, q) => p - q);
    const spans: [number, number][] = [];
    for (let i = 0; i + 1 < row.length; i += 2)
      spans.push([Math.floor(row[i]!) - beyond, Math.ceil(row[i + 1]!) + beyond]);
    return spans;
  });
  return own.map((spans, row) => [...(own[row - 1] ?? []), ...spans, ...(own[row + 1] ?? [])]);
}

/** White over dark colours, black over light ones. */
function lineColour(at: number, strength: number): Rgb {
  const to = at < 0.55 ? 255 : 0;
  return scaleColour(at).map((v) => Math.round(v + (to - v) * strength * 0.75)) as unknown as Rgb;
}
