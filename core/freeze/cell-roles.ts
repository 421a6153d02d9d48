import { pointAt } from '../foundry/gating/clearance.js';
import { sprueOutline, sprueRadius, sprueShape } from '../foundry/gating/sprue.js';
import type { GatingPlan } from '../foundry/plans.js';
import { maths } from '../maths/maths.js';
import { cellRole, leastShare } from './cast-fields.js';
import { type Grid, middlesOf } from './grid.js';

/**
 * What each cell belongs to, `cellRole`: castings where most of its metal is the patterns' own; else sprue with cup and
 * runners, or a vent, whichever lies nearer.
 */
export function cellRoles(
  grid: Grid,
  share: Float32Array,
  castingShare: Float32Array,
  gating: GatingPlan,
): Uint8Array {
  const [nx, ny] = grid.counts;
  const [xs, ys, zs] = grid.edges.map(middlesOf) as [Float64Array, Float64Array, Float64Array];
  const outline = sprueOutline(sprueShape(gating));
  const axis = gating.sprue.at;
  const apart = (path: Parameters<typeof pointAt>[0], radius: number, x: number, y: number, z: number) => {
    const [px, py] = pointAt(path, z);
    const below = Math.max(0, path[0]![2] - z);
    return maths.hypot(x - px, y - py, below) - radius;
  };
  const isVent = (x: number, y: number, z: number): boolean => {
    if (gating.vents.length === 0) return false;
    const toVent = Math.min(...gating.vents.map((v) => apart(v.path, v.diameter / 2, x, y, z)));
    const under = Math.max(0, axis[2] - z);
    const toSprue = maths.hypot(
      Math.max(0, maths.hypot(x - axis[0], y - axis[1]) - sprueRadius(outline, z - axis[2])),
      under,
    );
    const toRunner = gating.gates.map((g) =>
      g.runner ? apart(g.runner.path, g.runner.diameter / 2, x, y, z) : Number.POSITIVE_INFINITY,
    );
    return toVent < Math.min(toSprue, ...toRunner);
  };
  const role = new Uint8Array(grid.size);
  for (let c = 0; c < grid.size; c++) {
    const s = share[c]!;
    if (s < leastShare) continue;
    if (castingShare[c]! >= s / 2) {
      role[c] = cellRole.casting;
      continue;
    }
    const [x, y, z] = [xs[c % nx]!, ys[Math.floor(c / nx) % ny]!, zs[Math.floor(c / (nx * ny))]!];
    role[c] = isVent(x, y, z) ? cellRole.vent : cellRole.gating;
  }
  return role;
}
