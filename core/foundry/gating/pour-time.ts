import { maths } from '../../maths/maths.js';
import type { Basis } from '../plans.js';
import { freezingTime } from './freezing.js';
import type { GatingCasting, GatingMetal, MetalFamily } from './input.js';

const rao = 'P. N. Rao, Manufacturing Technology: Foundry, Forming and Welding (from memory)';

/** Rao's K for copper alloys, t = K W^(1/3), s and kg. */
export const copperPourFactors = { topGate: 1.3, bottomGate: 1.8, brass: 1.9, tinBronze: 2.8 } as const;

/** Pouring time of copper alloys, s: t = K W^(1/3) (Rao). `mass` g. */
export const copperPourTime = (mass: number, factor: number): number => factor * maths.cbrt(mass / 1000);

/** Pouring time of grey iron under 450 kg, s: t = K (1.41 + T/14.59) √W (Rao). `mass` g, `section` T mm, `fluidity` K. */
export const ironPourTime = (mass: number, section: number, fluidity = 1): number =>
  fluidity * (1.41 + section / 14.59) * Math.sqrt(mass / 1000);

const factorOf = (family: MetalFamily): number =>
  family === 'tin-bronze'
    ? copperPourFactors.tinBronze
    : family === 'brass'
      ? copperPourFactors.brass
      : copperPourFactors.topGate;

const isCopper = (family: MetalFamily): boolean =>
  ['tin-bronze', 'brass', 'copper', 'aluminium-bronze'].includes(family);

/** Typical copper casting alloy, g/mm³: what a time for "the same volume in a copper alloy" is taken at. */
const copperDensity = 0.0088;

/** Rao's time for the casting, an upper bound for castings of a few kilograms. */
export const handbookPourTime = (
  metal: GatingMetal,
  casting: GatingCasting,
): { readonly time: number; readonly basis: Basis } => {
  if (isCopper(metal.family)) {
    const factor = factorOf(metal.family);
    return {
      time: copperPourTime(casting.mass, factor),
      basis: { rule: `t ≤ K W^(1/3), K = ${factor}, s and kg`, source: rao },
    };
  }
  if (metal.family === 'iron') {
    const section = (2 * casting.volume) / casting.area;
    return {
      time: ironPourTime(casting.mass, section),
      basis: { rule: 't ≤ (1.41 + T/14.59) √W, T = 2 V/A, s, mm and kg', source: rao },
    };
  }
  return {
    time: copperPourTime(casting.volume * copperDensity, copperPourFactors.topGate),
    basis: {
      rule: 't ≤ 1.3 W^(1/3), W the mass the casting would have in a copper alloy, s and kg',
      source: `common practice, no source; K from ${rao}`,
    },
  };
};

/** Longest pour the mould bears, s: a share of the freezing time of the thinnest wall (V/A where none is given). */
export const freezingPourTime = (metal: GatingMetal, casting: GatingCasting, share: number): number =>
  share * freezingTime(metal.freezingFactor, casting.thinnestModulus ?? casting.volume / casting.area);
