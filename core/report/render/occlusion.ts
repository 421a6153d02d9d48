import { normalUnit, type SampleBuffer } from './raster.js';

/** Directions a pixel looks in, and steps along each. */
const directions = 8;
const reach = [0.25, 0.6, 1] as const;
/** Darkening of a place shut in on all sides. */
const strength = 1.25;

/**
 * Soft darkening of corners and grooves, one value a pixel, 0 dark to 1 open: from each pixel, how far its
 * surroundings rise above its own surface. Works on the depth of the picture, so only what is seen counts.
 *
 * @param factor samples per pixel side.
 * @param radius how far a pixel looks, in pixels.
 */
export function findOcclusion(buffer: SampleBuffer, factor: number, radius: number): Float32Array {
  const width = Math.floor(buffer.width / factor);
  const height = Math.floor(buffer.height / factor);
  const depth = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      depth[y * width + x] =
        buffer.depth[(y * factor + (factor >> 1)) * buffer.width + x * factor + (factor >> 1)]! / factor;
    }
  }
  const open = new Float32Array(width * height).fill(1);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const z = depth[i]!;
      if (z === Number.NEGATIVE_INFINITY) continue;
      const s = (y * factor + (factor >> 1)) * buffer.width + x * factor + (factor >> 1);
      const nx = buffer.normalX[s]! / normalUnit;
      const ny = -buffer.normalY[s]! / normalUnit;
      const nz = Math.sqrt(Math.max(0.02, 1 - nx * nx - ny * ny));
      // Each pixel of a 4 × 4 tile turns its star differently; the blur below evens that out.
      const spin = (((x & 3) * 4 + (y & 3)) * 7 * (2 * Math.PI)) / (16 * directions);
      let shut = 0;
      for (let d = 0; d < directions; d++) {
        const angle = spin + (d * 2 * Math.PI) / directions;
        const cx = Math.cos(angle) * radius;
        const cy = Math.sin(angle) * radius;
        for (const r of reach) {
          const px = Math.round(x + cx * r);
          const py = Math.round(y + cy * r);
          if (px < 0 || py < 0 || px >= width || py >= height) continue;
          const dz = depth[py * width + px]! - z;
          if (dz < -2 * radius) continue;
          const dx = px - x;
          const dy = py - y;
          const far = dx * dx + dy * dy + dz * dz;
          const above = (nx * dx + ny * dy + nz * dz) / Math.sqrt(far + 1e-9) - 0.12;
          // What stands far in front is another thing, not a wall of this one.
          if (above > 0) shut += above * Math.max(0, 1 - far / (4 * radius * radius));
        }
      }
      open[i] = Math.max(0.25, 1 - (strength * shut) / (directions * reach.length));
    }
  }
  return blurWithin(open, depth, width, height, radius);
}

/** Mean over a 4 × 4 tile, of pixels that belong to the same surface by their depth. */
function blurWithin(
  values: Float32Array,
  depth: Float32Array,
  width: number,
  height: number,
  radius: number,
): Float32Array {
  const out = new Float32Array(values.length).fill(1);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const z = depth[i]!;
      if (z === Number.NEGATIVE_INFINITY) continue;
      let sum = 0;
      let n = 0;
      for (let py = Math.max(0, y - 2); py < Math.min(height, y + 2); py++) {
        for (let px = Math.max(0, x - 2); px < Math.min(width, x + 2); px++) {
          const j = py * width + px;
          if (Math.abs(depth[j]! - z) > radius * 0.6) continue;
          sum += values[j]!;
          n++;
        }
      }
      out[i] = n > 0 ? sum / n : values[i]!;
    }
  }
  return out;
}
