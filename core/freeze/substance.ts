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
 * Heat content of what holds some share of metal and the rest of mould, J/mm³ over the solidus: three straight pieces,
 * below the solidus, in the freezing range where the latent heat comes out evenly, and above the liquidus.
 */
export interface HeatLaw {
  /** °C */
  readonly solidus: number;
  readonly liquidus: number;
  /** J/(mm³·K) of metal by piece, and of mould. */
  readonly below: number;
  readonly within: number;
  readonly above: number;
  readonly mould: number;
}

export function heatLaw(metal: FreezingMetal, mould: MouldSubstance): HeatLaw {
  const solidus = Math.min(metal.solidus, metal.liquidus - leastRange);
  const { liquidus, density, specificHeat, latentHeat } = metal;
  return {
    solidus,
    liquidus,
    below: density * specificHeat.solid,
    within:
      (density * (specificHeat.solid + specificHeat.liquid)) / 2 +
      (density * latentHeat) / (liquidus - solidus),
    above: density * specificHeat.liquid,
    mould: mould.density * mould.specificHeat,
  };
}

/** J/(mm³·K) of a cell that holds `share` of metal with that heat capacity. */
export const mix = (law: HeatLaw, share: number, own: number): number =>
  share * own + (1 - share) * law.mould;

/** J/mm³ of a cell that holds `share` of metal, all of it liquid at the liquidus. */
export const fullHeat = (law: HeatLaw, share: number): number =>
  mix(law, share, law.within) * (law.liquidus - law.solidus);

/** J/mm³ of a cell that holds `share` of metal, at a temperature. */
export function lawHeat(law: HeatLaw, share: number, temperature: number): number {
  const over = temperature - law.solidus;
  if (over <= 0) return mix(law, share, law.below) * over;
  if (temperature <= law.liquidus) return mix(law, share, law.within) * over;
  return fullHeat(law, share) + mix(law, share, law.above) * (temperature - law.liquidus);
}

/** °C of a cell that holds `share` of metal and so much heat: the inverse of `lawHeat`. */
export function lawTemperature(law: HeatLaw, share: number, heat: number): number {
  if (heat <= 0) return law.solidus + heat / mix(law, share, law.below);
  const full = fullHeat(law, share);
  if (heat <= full) return law.solidus + heat / mix(law, share, law.within);
  return law.liquidus + (heat - full) / mix(law, share, law.above);
}
