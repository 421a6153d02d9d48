import { maths } from '../../maths/maths.js';
import { normalUnit, type SampleBuffer } from './raster.js';

/** Directions a cell looks in, and steps along each. */
const directions = 8;
const reach = [0.25, 0.6, 1] as const;
/** Neighbouring cells turn their star of directions differently, over a tile of 4 × 4; a blur evens that out. */
const tile = 4;
/** Darkening of a place shut in on all sides. */
const strength = 1.6;
const darkest = 0.25;
/** Pixels per cell side: corners darken softly, so a coarse grid will do. */
const pixelsPerCell = 2;

interface Cells {
  readonly width: number;
  readonly height: number;
  /** Towards the viewer in cells; 0 where nothing is. */
  readonly depth: Float32Array;
  readonly open: Float32Array;
}

/**
 * Soft darkening of corners and grooves, one value a pixel, 0 dark to 1 open: from each place, how far its
 * surroundings rise above its own surface. Works on the depth of the picture, so only what is seen counts.
 *
 * @param factor samples per pixel side.
 * @param radius how far a place looks, in pixels.
 */
export function findOcclusion(buffer: SampleBuffer, factor: number, radius: number): Float32Array {
  const cells = lookRound(buffer, factor * pixelsPerCell, radius / pixelsPerCell);
  const smooth = { ...cells, open: blurWithin(cells, radius * 0.3) };
  return toPixels(buffer, factor, smooth, radius * 0.3);
}

function lookRound(buffer: SampleBuffer, step: number, radius: number): Cells {
  const width = Math.ceil(buffer.width / step);
  const height = Math.ceil(buffer.height / step);
  const depth = new Float32Array(width * height);
  const sampleAt = (x: number, y: number): number =>
    Math.min(y * step + (step >> 1), buffer.height - 1) * buffer.width +
    Math.min(x * step + (step >> 1), buffer.width - 1);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) depth[y * width + x] = buffer.depth[sampleAt(x, y)]! / step;
  }
  const open = new Float32Array(width * height).fill(1);
  const stars = makeStars(radius);
  const looks = directions * reach.length;
  const wide = 1 / (4 * radius * radius);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const z = depth[i]!;
      if (z === 0) continue;
      const sample = sampleAt(x, y);
      const nx = buffer.normalX[sample]! / normalUnit;
      const ny = -buffer.normalY[sample]! / normalUnit;
      const nz = Math.sqrt(Math.max(0.02, 1 - nx * nx - ny * ny));
      const star = ((x % tile) * tile + (y % tile)) * looks * 2;
      let shut = 0;
      for (let k = star; k < star + looks * 2; k += 2) {
        const dx = stars[k]!;
        const dy = stars[k + 1]!;
        const px = x + dx;
        const py = y + dy;
        if (px < 0 || py < 0 || px >= width || py >= height) continue;
        const there = depth[py * width + px]!;
        if (there === 0) continue;
        const dz = there - z;
        const rise = nx * dx + ny * dy + nz * dz;
        if (rise <= 0) continue;
        const far = dx * dx + dy * dy + dz * dz;
        const above = rise / Math.sqrt(far) - 0.12;
        // What stands far in front is another thing, not a wall of this one.
        if (above > 0 && far * wide < 1) shut += above * (1 - far * wide);
      }
      open[i] = Math.max(darkest, 1 - (strength * shut) / looks);
    }
  }
  return { width, height, depth, open };
}

/** Whole-cell offsets of each tile place's star, dx, dy in turn. */
function makeStars(radius: number): Int16Array {
  const stars: number[] = [];
  for (let t = 0; t < tile * tile; t++) {
    for (let d = 0; d < directions; d++) {
      const angle = (2 * Math.PI * (d + ((t * 7) % (tile * tile)) / (tile * tile))) / directions;
      for (const r of reach) {
        const dx = Math.round(maths.cos(angle) * radius * r);
        const dy = Math.round(maths.sin(angle) * radius * r);
        stars.push(...(dx === 0 && dy === 0 ? [1, 0] : [dx, dy]));
      }
    }
  }
  return Int16Array.from(stars);
}

/** Mean over a tile, of the cells at about the same depth. */
function blurWithin({ width, height, depth, open }: Cells, sameDepth: number): Float32Array {
  const out = new Float32Array(open.length).fill(1);
  const half = tile / 2;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const z = depth[i]!;
      if (z === 0) continue;
      let sum = 0;
      let n = 0;
      for (let py = Math.max(0, y - half); py < Math.min(height, y + half); py++) {
        for (let px = Math.max(0, x - half); px < Math.min(width, x + half); px++) {
          const j = py * width + px;
          if (Math.abs(depth[j]! - z) > sameDepth) continue;
          sum += open[j]!;
          n++;
        }
      }
      out[i] = n > 0 ? sum / n : open[i]!;
    }
  }
  return out;
}

/** Between the four cells round a pixel, those at about its own depth. */
function toPixels(buffer: SampleBuffer, factor: number, cells: Cells, sameDepth: number): Float32Array {
  const width = buffer.width / factor;
  const height = buffer.height / factor;
  const out = new Float32Array(width * height).fill(1);
  const step = factor * pixelsPerCell;
  for (let y = 0; y < height; y++) {
    const v = (y + 0.5) / pixelsPerCell - 0.5;
    const cy = Math.floor(v);
    for (let x = 0; x < width; x++) {
      const z =
        buffer.depth[(y * factor + (factor >> 1)) * buffer.width + x * factor + (factor >> 1)]! / step;
      if (z === 0) continue;
      const u = (x + 0.5) / pixelsPerCell - 0.5;
      const cx = Math.floor(u);
      let sum = 0;
      let weights = 0;
      for (let k = 0; k < 4; k++) {
        const px = cx + (k & 1);
        const py = cy + (k >> 1);
        if (px < 0 || py < 0 || px >= cells.width || py >= cells.height) continue;
        const j = py * cells.width + px;
        if (Math.abs(cells.depth[j]! - z) > sameDepth) continue;
        const weight = Math.abs(1 - Math.abs(u - px)) * Math.abs(1 - Math.abs(v - py)) + 1e-3;
        sum += weight * cells.open[j]!;
        weights += weight;
      }
      if (weights > 0) out[y * width + x] = sum / weights;
    }
  }
  return out;
}
