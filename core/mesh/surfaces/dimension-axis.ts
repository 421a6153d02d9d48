import type { DimensionAxis } from '../../part/contract.js';
import type { Vec3 } from '../../solid/types.js';

/** Which of a printer's corrections a size along a direction of the standing part takes: the one it lies nearer to. */
export const dimensionAxis = ([x, y, z]: Vec3): DimensionAxis => (z * z > x * x + y * y ? 'z' : 'xy');
