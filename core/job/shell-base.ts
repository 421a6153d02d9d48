/** What of a pattern's meshes its shell is planned from. */
import { findInvestment } from '../foundry/investment.js';
import { fullGap, measureShellSurface, type ShellSurface } from '../foundry/shell/index.js';
import { maths } from '../maths/maths.js';
import { measureThinnest } from '../shape/thinnest.js';
import { measureBounds } from '../solid/mesh-bounds.js';
import type { Box, Mesh } from '../solid/types.js';
import type { Job } from './job.js';
import { present } from './present.js';

export interface ShellBase {
  /** Of the gated pattern. */
  readonly surface: ShellSurface;
  /** Between faces of the pattern, mm; left out where no gap is narrow enough to matter. */
  readonly narrowestGap?: number;
}

/** mm between places where gaps are measured: half of the narrowest that matters; wider on large patterns. */
const gapSpacing = ({ min, max }: Box): number =>
  Math.max(2, maths.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2]) / 100);

/** Undefined where the job's moulds are not shells. */
export function shellBaseOf(pattern: Mesh, gated: Mesh, job: Pick<Job, 'investment'>): ShellBase | undefined {
  const coats = findInvestment(job.investment)?.coats;
  if (!coats) return undefined;
  const below = fullGap(coats);
  const { gap } = measureThinnest(pattern, { below, spacing: gapSpacing(measureBounds(pattern) as Box) });
  return { surface: measureShellSurface(gated), ...present({ narrowestGap: gap?.thickness }) };
}
