import { maths } from '../maths/maths.js';

/** The least of 1, 2, 5, 10, 20 … and their tenths that is not below `size`: for scales, sliders, hatches. */
export function roundStepOver(size: number): number {
  const power = Math.floor(maths.log10(size) + 1e-9);
  const leading = size / maths.pow(10, power);
  const digit = [1, 2, 5].find((d) => leading <= d * (1 + 1e-9)) ?? 10;
  // A quotient of whole numbers where it is below one: 0.2, not 0.2000…1.
  return power < 0 ? digit / maths.pow(10, -power) : digit * maths.pow(10, power);
}
