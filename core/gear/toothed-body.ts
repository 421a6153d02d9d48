import type { Kernel, LoftSection, Solid } from '../solid/types.js';
import type { Layer } from './chord-deviation.js';
import type { LayerPlan } from './layers.js';
import { wholeOutline } from './transverse-profile.js';

/**
 * Lofts the planned sections into the solid toothed body, axis on Z.
 * @param overrun length, mm, that either end runs on straight, for a body that cuts out: so its side faces come to lie
 * in the end sections and the cut adds no corners between them
 */
export function loftToothedBody(kernel: Kernel, plan: LayerPlan, overrun = 0): Solid {
  const [first, last] = [plan.layers[0] as Layer, plan.layers.at(-1) as Layer];
  const below = overrun > 0 ? [{ ...first, z: first.z - overrun }] : [];
  const above = overrun > 0 ? [{ ...last, z: last.z + overrun }] : [];
  const sections: LoftSection[] = [...below, ...plan.layers, ...above].map(({ z, turn }) => ({
    points: wholeOutline(plan.pitch, turn).map(([x, y]) => [x, y, z] as const),
  }));
  const period = plan.pitch.points.length;
  return kernel.loft(sections, (layer, i) => plan.diagonals[layer - below.length]?.[i % period] ?? true);
}
