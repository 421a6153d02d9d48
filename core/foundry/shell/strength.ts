/** How thick a shell must be to bear the metal in it. */
import type { Alloy } from '../alloys/index.js';
import { columnPressure } from '../gating/choke.js';
import { interpolate } from '../interpolate.js';
import type { ShellSurface } from './surface.js';

/** Between breaking strength and what is relied on, as for the floors of block moulds. */
export const shellSafety = 3;

/** β by length / width of a rectangle held at its edges; level from 2 on but for the last half per cent. */
const clampedRectangle: readonly (readonly [number, number])[] = [
  [1, 0.3078],
  [1.2, 0.3834],
  [1.4, 0.4356],
  [1.6, 0.468],
  [1.8, 0.4872],
  [2, 0.4974],
  [4, 0.5],
];

/**
 * Greatest bending stress in a rectangular plate held at its edges under an even pressure, MPa: σ = β p b² / t², at the
 * middle of the long edge (Roark's Formulas for Stress and Strain, table 11.4, case 8a; β from memory).
 * @param pressure MPa
 * @param width b, mm, > 0
 * @param length mm, ≥ b
 * @param thickness t, mm, > 0
 */
export const clampedRectangleStress = (
  pressure: number,
  width: number,
  length: number,
  thickness: number,
): number => (interpolate(clampedRectangle, length / width) * pressure * width ** 2) / thickness ** 2;

/** Hoop stress in a thin tube, MPa: σ = p R / t. */
export const hoopStress = (pressure: number, radius: number, thickness: number): number =>
  (pressure * radius) / thickness;

export interface ShellStress {
  /** MPa at the foot of the pattern. */
  readonly pressure: number;
  readonly greatest: number;
  /** mm: width of the flat with the greatest bending; 0 where the hoop is worse. */
  readonly flat: number;
}

/**
 * The worst of: the shell as a tube of the pattern's radius in plan, under the pressure at its foot; and each flat of
 * the pattern as a plate held at its edges, under the pressure at its lowest point. Metal stands to the top.
 */
export function shellStress(
  surface: Pick<ShellSurface, 'flats' | 'top' | 'bottom'>,
  radius: number,
  alloy: Pick<Alloy, 'liquidDensity'>,
  thickness: number,
): ShellStress {
  const at = (z: number): number => columnPressure(surface.top - z, alloy.liquidDensity);
  const pressure = at(surface.bottom);
  let worst = { greatest: hoopStress(pressure, radius, thickness), flat: 0 };
  for (const { width, length, bottom } of surface.flats) {
    const stress = width > 0 ? clampedRectangleStress(at(bottom), width, length, thickness) : 0;
    if (stress > worst.greatest) worst = { greatest: stress, flat: width };
  }
  return { pressure, ...worst };
}

/** Fewest coats from `least` to `most` whose stress is allowed, or `most`. */
export function coatsToBear(
  stressAt: (count: number) => number,
  allowed: number,
  { least, most }: { readonly least: number; readonly most: number },
): number {
  let count = least;
  while (count < most && stressAt(count) > allowed) count++;
  return count;
}
