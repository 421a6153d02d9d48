/**
 * Chvorinov's rule and moduli. Sources: N. Chvorinov, Giesserei 27 (1940); M. C. Flemings, Solidification
 * Processing; D. R. Poirier and G. H. Geiger, Transport Phenomena in Materials Processing.
 */

/** V/A, mm. */
export const modulus = (volume: number, area: number): number => volume / area;

/** Modulus of a long round bar, mm: D/4. */
export const barModulus = (diameter: number): number => diameter / 4;

/** Modulus of a long ring-shaped bar that cools inside and outside, mm: half its wall. */
export const ringModulus = (inner: number, outer: number): number => (outer - inner) / 4;

/** Freezing time, s: t = B M². `factor` B s/mm², `mod` M mm. */
export const freezingTime = (factor: number, mod: number): number => factor * mod ** 2;

export interface FreezingProperties {
  /** Metal: kg/m³, J/kg, J/(kg K), K over the liquidus, °C. */
  readonly density: number;
  readonly latentHeat: number;
  readonly liquidHeat: number;
  readonly superheat: number;
  readonly freezingTemperature: number;
  /** Mould: °C, W/(m K), kg/m³, J/(kg K). */
  readonly mouldTemperature: number;
  readonly mouldConductivity: number;
  readonly mouldDensity: number;
  readonly mouldHeat: number;
}

/** Chvorinov's B, s/mm²: (π/4) [ρ_m L'/(T_m − T_0)]²/(k ρ c)_mould, L' = L + c_l·superheat (Flemings; Poirier and Geiger). */
export const freezingFactor = (p: FreezingProperties): number => {
  const heat = p.latentHeat + p.liquidHeat * p.superheat;
  const ratio = (p.density * heat) / (p.freezingTemperature - p.mouldTemperature);
  const perSquareMetre = ((Math.PI / 4) * ratio ** 2) / (p.mouldConductivity * p.mouldDensity * p.mouldHeat);
  return perSquareMetre * 1e-6;
};
