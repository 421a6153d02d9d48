import type { Alloy } from '../alloys/index.js';
import type { Investment } from '../investment.js';
import { freezingFactor } from './freezing.js';
import type { GatingMetal, MetalFamily } from './input.js';
import { gatingMould } from './mould.js';

const share = (alloy: Alloy, element: 'Zn' | 'Sn' | 'Al'): number => alloy.composition[element]?.nominal ?? 0;

const familyOf = (alloy: Alloy): MetalFamily => {
  if (alloy.family === 'aluminium' || alloy.family === 'iron' || alloy.family === 'zinc') return alloy.family;
  if (alloy.family !== 'copper') return 'other';
  if (share(alloy, 'Zn') >= 10) return 'brass';
  if (share(alloy, 'Al') >= 5) return 'aluminium-bronze';
  return share(alloy, 'Sn') > 0 ? 'tin-bronze' : 'copper';
};

/**
 * What gating needs to know of an alloy from the table and of the mould. Chvorinov's B is for the mould at the middle
 * of the alloy's range for thin castings, without superheat: the shorter, safer time.
 */
export const gatingMetal = (alloy: Alloy, investment: Pick<Investment, 'mould'>): GatingMetal => {
  const mould = gatingMould(investment);
  return {
    name: alloy.name,
    family: familyOf(alloy),
    liquidDensity: alloy.liquidDensity,
    freezingContraction: alloy.freezingShrinkage,
    freezingRange: alloy.liquidus - alloy.solidus,
    freezingFactor: freezingFactor({
      density: alloy.liquidDensity * 1e6,
      latentHeat: alloy.latentHeat * 1000,
      liquidHeat: alloy.specificHeat.liquid * 1000,
      superheat: 0,
      freezingTemperature: alloy.liquidus,
      mouldTemperature: (alloy.flaskRange.thin[0] + alloy.flaskRange.thin[1]) / 2,
      mouldConductivity: mould.conductivity,
      mouldDensity: mould.density,
      mouldHeat: mould.heat,
    }),
  };
};
