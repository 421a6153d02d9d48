import { maths } from '../../maths/maths.js';
import type { Cavity } from './cavity.js';
import { upwardNormal } from './tops.js';

/**
 * A number of each vertex, less the higher it is and for one height by its own number: all differ. Heights closer than
 * about 2⁻³⁰ of the cavity's count as one. Doubles, so that the engine sorts them natively.
 */
export function heightKeys(heights: Float64Array): Float64Array {
  const count = heights.length;
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < count; i++) {
    low = Math.min(low, heights[i]!);
    high = Math.max(high, heights[i]!);
  }
  const places = placesOf(count);
  const scale = (2 ** 52 / places - 1) / Math.max(high - low, 1e-9);
  const keys = new Float64Array(count);
  for (let i = 0; i < count; i++) keys[i] = Math.floor((high - heights[i]!) * scale) * places + i;
  return keys;
}

/** The vertices from the top down. */
export function downward(keys: Float64Array): Uint32Array {
  const places = placesOf(keys.length);
  const sorted = keys.slice().sort();
  const order = new Uint32Array(sorted.length);
  for (let i = 0; i < sorted.length; i++) order[i] = sorted[i]! % places;
  return order;
}

const placesOf = (count: number): number => maths.pow(2, Math.ceil(maths.log2(count + 1)));

/** The local tops with air below, none of them in a hole's roof: each begins a piece. */
export function trueTops(cavity: Cavity, keys: Float64Array): readonly number[] {
  const { mesh, starts } = cavity;
  const t = mesh.triangles;
  const lower = new Uint8Array(keys.length);
  for (let f = 0; f < t.length; f += 3) {
    const [a, b, c] = [t[f]!, t[f + 1]!, t[f + 2]!];
    const top = Math.min(keys[a]!, keys[b]!, keys[c]!);
    if (keys[a] !== top) lower[a] = 1;
    if (keys[b] !== top) lower[b] = 1;
    if (keys[c] !== top) lower[c] = 1;
  }
  const tops: number[] = [];
  for (let v = 0; v < keys.length; v++)
    if (!lower[v] && starts[v + 1]! > starts[v]! && upwardNormal(cavity, v) >= 0) tops.push(v);
  return tops;
}
