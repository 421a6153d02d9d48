/** A metal as heat sees it. One density: the mass in the cavity is what was poured. */
export interface FreezingMetal {
  /** g/mm³, liquid. */
  readonly density: number;
  /** °C */
  readonly solidus: number;
  readonly liquidus: number;
  /** J/g */
  readonly latentHeat: number;
  /** J/(g·K) */
  readonly specificHeat: { readonly solid: number; readonly liquid: number };
  /** W/(mm·K) */
  readonly conductivity: { readonly solid: number; readonly liquid: number };
}

export interface MouldSubstance {
  /** g/mm³ */
  readonly density: number;
  /** J/(g·K) */
  readonly specificHeat: number;
  /** W/(mm·K) */
  readonly conductivity: number;
}

/** A pure metal or eutectic freezes over this much, °C, so that heat is a function of temperature. */
const leastRange = 0.5;

/**
 * Heat content of cells that hold `share` of metal and the rest of mould, J/mm³ over the solidus: three straight
 * pieces, below the solidus, in the freezing range where the latent heat comes out evenly, and above the liquidus.
 */
export interface CellHeat {
  readonly solidus: number;
  readonly liquidus: number;
  /** J/(mm³·K) by cell. */
  readonly below: Float64Array;
  readonly within: Float64Array;
  readonly above: Float64Array;
}

export function cellHeat(share: Float32Array, metal: FreezingMetal, mould: MouldSubstance): CellHeat {
  const solidus = Math.min(metal.solidus, metal.liquidus - leastRange);
  const { liquidus, density, specificHeat } = metal;
  const rest = mould.density * mould.specificHeat;
  const mix = (own: number): Float64Array => Float64Array.from(share, (s) => s * own + (1 - s) * rest);
  const latent = (density * metal.latentHeat) / (liquidus - solidus);
  return {
    solidus,
    liquidus,
    below: mix(density * specificHeat.solid),
    within: mix((density * (specificHeat.solid + specificHeat.liquid)) / 2 + latent),
    above: mix(density * specificHeat.liquid),
  };
}

/** J/mm³ of a cell at a temperature. */
export const heatAt = (h: CellHeat, cell: number, temperature: number): number => {
  if (temperature <= h.solidus) return h.below[cell]! * (temperature - h.solidus);
  const range = h.liquidus - h.solidus;
  if (temperature <= h.liquidus) return h.within[cell]! * (temperature - h.solidus);
  return h.within[cell]! * range + h.above[cell]! * (temperature - h.liquidus);
};

/** °C of a cell with that heat content: the inverse of `heatAt`. */
export const temperatureAt = (h: CellHeat, cell: number, heat: number): number => {
  if (heat <= 0) return h.solidus + heat / h.below[cell]!;
  const full = h.within[cell]! * (h.liquidus - h.solidus);
  if (heat <= full) return h.solidus + heat / h.within[cell]!;
  return h.liquidus + (heat - full) / h.above[cell]!;
};
