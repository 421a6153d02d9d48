/** Metal, mould and surroundings as heat sees them, from the tables. */
import type { Alloy, AlloyFamily } from '../foundry/alloys/index.js';
import { surfaceEmissivity } from '../foundry/charge/cooling.js';
import type { Investment } from '../foundry/investment.js';
import type { Basis } from '../foundry/plans.js';
import { roomTemperature, stillAir } from '../foundry/surroundings.js';
import type { Surroundings } from './heat-problem.js';
import type { FreezingMetal, MouldSubstance } from './substance.js';

/**
 * Of a liquid's conductivity to its solid's at the melting point: copper 165 to 330, aluminium 94 to 211, zinc 50 to
 * 96 W/(m·K) (K. C. Mills, Recommended Values of Thermophysical Properties for Selected Commercial Alloys, 2002, from
 * memory).
 */
const liquidShare = 0.5;

/** Between metal and investment, mm²·K/W: 1000 W/(m²·K) (from memory: 500 to 2000 for castings in ceramic and plaster moulds). */
export const contactResistance = 1e3;

export const freezingMetal = (alloy: Alloy): FreezingMetal => ({
  density: alloy.liquidDensity,
  solidus: alloy.solidus,
  liquidus: alloy.liquidus,
  latentHeat: alloy.latentHeat,
  specificHeat: alloy.specificHeat,
  conductivity: { solid: alloy.conductivity, liquid: liquidShare * alloy.conductivity },
});

export const mouldSubstance = ({ mould }: Pick<Investment, 'mould'>): MouldSubstance => ({
  density: mould.density,
  specificHeat: mould.specificHeat,
  conductivity: mould.conductivity,
});

/** What a mould, and the metal in its cup, give their heat to as it stands. */
export const surroundingsOf = (
  stands: 'in its flask' | 'bare' | 'in dry sand',
  family: AlloyFamily,
): Surroundings => {
  const metalEmissivity = surfaceEmissivity[family];
  // Sand some 20 mm deep, 0.3 W/(m·K), lets as much through as still air and does not radiate.
  if (stands === 'in dry sand')
    return { temperature: roomTemperature, convection: 15e-6, emissivity: 0, metalEmissivity };
  // Scaled steel 0.8, fused silica with stucco 0.9 (from memory).
  const emissivity = stands === 'bare' ? 0.9 : 0.8;
  return { temperature: roomTemperature, convection: stillAir, emissivity, metalEmissivity };
};

export const substanceBases: Readonly<Record<'metal' | 'contact' | 'surroundings', Basis>> = {
  metal: {
    rule: 'latent heat given off evenly from liquidus to solidus; one specific heat and conductivity each for solid and liquid, liquid half as conductive; one density, the liquid’s',
    source: 'the alloy’s row of the table; half: K. C. Mills, 2002 (from memory)',
  },
  contact: {
    rule: '1000 W/(m²·K) between metal and mould, all the while',
    source:
      'from memory: 500 to 2000 in ceramic and plaster moulds; a gap that opens as the metal shrinks is not counted',
  },
  surroundings: {
    rule: 'still air at 20 °C, 10 W/(m²·K), and radiation: emissivity of steel 0.8, of a bare shell 0.9, of the metal in the open cup its skin’s, 0.4 for copper alloys and iron, 0.2 for aluminium',
    source: 'Stefan–Boltzmann and Newton; values from memory',
  },
};
