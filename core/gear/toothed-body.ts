import type { Kernel, LoftSection, Solid } from '../solid/types.js';
import type { LayerPlan } from './layers.js';
import { wholeOutline } from './transverse-profile.js';

/** Lofts the planned sections into the solid toothed body, axis on Z. */
export function loftToothedBody(kernel: Kernel, plan: LayerPlan): Solid {
  const sections: LoftSection[] = plan.layers.map(({ z, turn }) => ({
    points: wholeOutline(plan.pitch, turn).map(([x, y]) => [x, y, z] as const),
  }));
  const period = plan.pitch.points.length;
  return kernel.loft(sections, (layer, i) => plan.diagonals[layer]?.[i % period] ?? true);
}
