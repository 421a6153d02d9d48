import { maths } from '../../maths/maths.js';
import type { Vec3 } from '../../solid/types.js';

/** Directions spread evenly over the sphere along a spiral of the golden angle (R. Swinbank and R. J. Purser, 2006). */
export const evenSphere = (count: number): readonly Vec3[] =>
  Array.from({ length: count }, (_, i) => {
    const z = 1 - (2 * i + 1) / count;
    const r = Math.sqrt(1 - z * z);
    const turn = i * Math.PI * (3 - Math.sqrt(5));
    return [r * maths.cos(turn), r * maths.sin(turn), z];
  });
