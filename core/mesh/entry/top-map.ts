import { passColumns } from '../../solid/columns.js';
import { measureBounds } from '../../solid/mesh-bounds.js';
import type { Box, Mesh } from '../../solid/types.js';

/** The part as seen from above, on a square grid of uprights. */
export interface TopMap {
  /** Between uprights, mm. */
  readonly step: number;
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  /** Height of the uppermost surface at upright i + j × (number of xs), mm; minus infinity beside the part. */
  readonly top: Float64Array;
  /** Where the metal under that surface ends, mm. */
  readonly under: Float64Array;
  /** The triangle on top; −1 beside the part. */
  readonly triangle: Int32Array;
}

/** Uprights along the longer side in plan. */
const across = 150;

export function mapTops(mesh: Mesh): TopMap {
  const { min, max } = measureBounds(mesh) as Box;
  const step = Math.max(max[0] - min[0], max[1] - min[1]) / across;
  const ruler = (axis: 0 | 1): Float64Array => {
    const count = Math.max(1, Math.ceil((max[axis] - min[axis]) / step - 1e-6));
    const from = (min[axis] + max[axis] - (count - 1) * step) / 2;
    return Float64Array.from({ length: count }, (_, i) => from + i * step);
  };
  const [xs, ys] = [ruler(0), ruler(1)];
  const { starts, heights } = passColumns(mesh, xs, ys);
  const top = new Float64Array(xs.length * ys.length).fill(Number.NEGATIVE_INFINITY);
  const under = top.slice();
  for (let c = 0; c < top.length; c++) {
    const last = starts[c + 1]! - 1;
    if (last <= starts[c]! - 1 || last - 1 < starts[c]!) continue;
    top[c] = heights[last]!;
    under[c] = heights[last - 1]!;
  }
  return { step, xs, ys, top, under, triangle: trianglesOnTop(mesh, xs, ys) };
}

/** The triangle that is highest at each upright, of those that face up. */
function trianglesOnTop(
  { positions: p, triangles: t }: Mesh,
  xs: Float64Array,
  ys: Float64Array,
): Int32Array {
  const found = new Int32Array(xs.length * ys.length).fill(-1);
  const height = new Float64Array(found.length).fill(Number.NEGATIVE_INFINITY);
  const [x0, y0] = [xs[0]!, ys[0]!];
  const step = xs.length > 1 ? xs[1]! - x0 : ys.length > 1 ? ys[1]! - y0 : 1;
  for (let f = 0; f < t.length; f += 3) {
    const [a, b, c] = [3 * t[f]!, 3 * t[f + 1]!, 3 * t[f + 2]!];
    const [ax, ay, bx, by, cx, cy] = [p[a]!, p[a + 1]!, p[b]!, p[b + 1]!, p[c]!, p[c + 1]!];
    const area = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
    if (area <= 0) continue;
    const firstX = Math.max(0, Math.ceil((Math.min(ax, bx, cx) - x0) / step));
    const lastX = Math.min(xs.length - 1, Math.floor((Math.max(ax, bx, cx) - x0) / step));
    const firstY = Math.max(0, Math.ceil((Math.min(ay, by, cy) - y0) / step));
    const lastY = Math.min(ys.length - 1, Math.floor((Math.max(ay, by, cy) - y0) / step));
    for (let j = firstY; j <= lastY; j++)
      for (let i = firstX; i <= lastX; i++) {
        const [x, y] = [xs[i]!, ys[j]!];
        const u = (bx - x) * (cy - y) - (cx - x) * (by - y);
        const v = (cx - x) * (ay - y) - (ax - x) * (cy - y);
        const w = area - u - v;
        if (u < 0 || v < 0 || w < 0) continue;
        const z = (u * p[a + 2]! + v * p[b + 2]! + w * p[c + 2]!) / area;
        const at = i + xs.length * j;
        if (z > height[at]!) {
          height[at] = z;
          found[at] = f / 3;
        }
      }
  }
  return found;
}
