import { after, type Sheet } from './sheet.js';
import { smoothCosine } from './smooth.js';

/** Of a normal distribution's spread over the median of its amounts. */
const spreadOverMedian = 1.4826;

/**
 * How far the corners of a scan stray from the surface, mm, one standard deviation: by the median height of corners over
 * the middle of their neighbours, where nothing bends sharply. What curves counts as noise too, so it is an upper bound.
 *
 * @param isFree triangles to ask, 1 each
 */
export function estimateNoise(sheet: Sheet, isFree: Uint8Array): number {
  const { corners, positions: p, normals, areas, beyond, triangles } = sheet;
  const vertices = p.length / 3;
  const around = new Float64Array(3 * vertices);
  const normal = new Float64Array(3 * vertices);
  const count = new Uint16Array(vertices);
  const isOut = new Uint8Array(vertices);
  for (let f = 0; f < triangles; f++) {
    for (let h = 3 * f; h < 3 * f + 3; h++) {
      const v = corners[h]!;
      const w = corners[after(h)]!;
      const g = beyond[h]!;
      count[v]!++;
      for (let k = 0; k < 3; k++) {
        around[3 * v + k]! += p[3 * w + k]!;
        normal[3 * v + k]! += areas[f]! * normals[3 * f + k]!;
      }
      if (isFree[f] === 1 && g >= 0 && facing(normals, f, g) > smoothCosine) continue;
      isOut[v] = 1;
      isOut[w] = 1;
    }
  }
  const heights: number[] = [];
  for (let v = 0; v < vertices; v++) {
    const n = count[v]!;
    if (isOut[v] === 1 || n < 3) continue;
    let [height, length] = [0, 0];
    for (let k = 0; k < 3; k++) {
      height += (p[3 * v + k]! - around[3 * v + k]! / n) * normal[3 * v + k]!;
      length += normal[3 * v + k]! ** 2;
    }
    // The mean of n neighbours strays too: its variance is 1/n of a corner's.
    if (length > 0) heights.push(Math.abs(height) / Math.sqrt(length * (1 + 1 / n)));
  }
  if (heights.length === 0) return 0;
  heights.sort((a, b) => a - b);
  return spreadOverMedian * heights[Math.floor(heights.length / 2)]!;
}

const facing = (n: Float64Array, f: number, g: number): number =>
  n[3 * f]! * n[3 * g]! + n[3 * f + 1]! * n[3 * g + 1]! + n[3 * f + 2]! * n[3 * g + 2]!;
