/** Density of an alloy from its composition: a check, not a source. */
import type { Alloy, ElementSymbol } from './alloy.js';

/** g/mm³ at 20 °C (CRC Handbook, from memory; carbon as graphite, phosphorus white, sulphur rhombic). */
export const elementDensity: Readonly<Record<ElementSymbol, number>> = {
  Ag: 10.49e-3,
  Al: 2.7e-3,
  C: 2.26e-3,
  Cu: 8.96e-3,
  Fe: 7.87e-3,
  Mg: 1.74e-3,
  Mn: 7.3e-3,
  Ni: 8.91e-3,
  P: 1.82e-3,
  Pb: 11.34e-3,
  S: 2.07e-3,
  Sb: 6.7e-3,
  Si: 2.33e-3,
  Sn: 7.29e-3,
  Zn: 7.13e-3,
};

/**
 * Rule of mixtures by specific volumes, 1/ρ = Σ w/ρ over Σ w, g/mm³. Good within 2.5 % where the elements keep their
 * room. Aluminium and silicon dissolved in copper take much less than they do alone, and the beta phase of manganese
 * bronze packs closer: there it comes out 2 to 7 % light. Cast iron keeps part of its carbon bound, not as graphite.
 */
export function mixtureDensity(composition: Alloy['composition']): number {
  const shares = Object.entries(composition) as [ElementSymbol, { readonly nominal: number }][];
  const mass = shares.reduce((sum, [, { nominal }]) => sum + nominal, 0);
  const volume = shares.reduce((sum, [element, { nominal }]) => sum + nominal / elementDensity[element], 0);
  return mass / volume;
}

/** How far a density may lie from the rule of mixtures before it is doubted: the largest departure in the table. */
export const mixtureTolerance = 0.07;
