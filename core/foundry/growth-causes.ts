/** Growth composed from its causes: metal, mould and print. Fractions of a length; °C. */
import type { Alloy, AlloyFamily, Spread } from './alloys/index.js';
import { checkRange } from './input.js';
import { interpolate } from './interpolate.js';
import type { Investment } from './investment.js';
import type { Plastic } from './material.js';
import type { GrowthCause } from './plans.js';

export interface GrowthCausesInput {
  readonly alloy: Alloy;
  readonly investment: Investment;
  readonly plastic: Plastic;
  /** °C of the mould at the pour. */
  readonly flaskTemperature: number;
  /** Measured in this shop; the plastic's usual when left out. 0 where the print is corrected for it. */
  readonly printShrinkage?: number;
}

/** α, 1/K, the mean from 20 °C to `to`, °C. */
interface Expansion {
  readonly alpha: number;
  readonly to: number;
  readonly source: string;
}

const cda = (alpha: number, to = 200): Expansion => ({ alpha, to, source: 'CDA data (from memory)' });
const memory = (alpha: number, to: number): Expansion => ({ alpha, to, source: 'from memory' });

/** By alloy; an alloy that is not here takes its family's. */
const expansions: Readonly<Record<string, Expansion>> = {
  'tin-bronze': cda(19.8e-6),
  'tin-bronze-c90300': cda(18e-6),
  'navy-m-bronze': cda(18e-6),
  'bearing-bronze': cda(18e-6),
  'red-brass': cda(18e-6),
  'yellow-brass': cda(21.6e-6),
  'yellow-brass-c85400': cda(20.2e-6),
  'manganese-bronze': cda(20.3e-6),
  'silicon-bronze': cda(19.6e-6),
  'silicon-brass': cda(19.6e-6),
  'aluminium-bronze': cda(16.2e-6),
  copper: cda(16.9e-6, 100),
  a356: memory(21.5e-6, 100),
  'al-319': memory(21.5e-6, 100),
  'al-si12': memory(20.4e-6, 100),
  'za-12': memory(24.1e-6, 100),
};

const families: Readonly<Record<AlloyFamily, Expansion>> = {
  copper: memory(19e-6, 200),
  aluminium: memory(21.5e-6, 100),
  zinc: memory(27.4e-6, 100),
  iron: memory(10.8e-6, 100),
  tin: memory(23.5e-6, 100),
  silver: memory(19.2e-6, 100),
};

/**
 * How the mean expansion from 20 °C of the base metal grows with temperature: [°C, 10⁻⁶/K]. An alloy's published
 * value is carried to its solidus in the same proportion.
 */
const curves: Readonly<Record<AlloyFamily, readonly (readonly [number, number])[]>> = {
  copper: [
    [100, 17],
    [300, 17.8],
    [500, 18.5],
    [700, 19.3],
    [900, 20.2],
    [1083, 21],
  ],
  aluminium: [
    [100, 23.8],
    [300, 25.6],
    [500, 27.4],
    [660, 29],
  ],
  silver: [
    [100, 19.2],
    [300, 20],
    [500, 20.6],
    [800, 21.9],
  ],
  iron: [
    [100, 10.8],
    [300, 12.3],
    [500, 13.1],
    [1140, 14.5],
  ],
  zinc: [
    [100, 27.4],
    [420, 29.5],
  ],
  tin: [
    [100, 23.5],
    [232, 24.5],
  ],
};

/** Linear contraction of the solid from the solidus to 20 °C: mean α (T_s − 20), with 8 % either way. */
export function metalContraction(alloy: Alloy): Spread & { readonly source: string } {
  const { alpha, to, source } = expansions[alloy.name] ?? families[alloy.family];
  const curve = curves[alloy.family];
  const mean = (alpha * interpolate(curve, alloy.solidus)) / interpolate(curve, to);
  const usual = mean * (alloy.solidus - 20);
  return { low: 0.92 * usual, usual, high: 1.08 * usual, source };
}

/** The mould's own thermal expansion at the flask's temperature, against 20 °C. */
export const mouldExpansion = (investment: Investment, temperature: number): Spread => ({
  low: interpolate(investment.expansion.thermal.low, temperature),
  usual: interpolate(investment.expansion.thermal.usual, temperature),
  high: interpolate(investment.expansion.thermal.high, temperature),
});

/**
 * g = (1 + metal) / ((1 + setting) (1 + mould) (1 − print)): the cavity is the print, grown by the plaster's setting and
 * heating; the casting is the cavity less the metal's contraction. `low` and `high` put every cause at the end that
 * makes g smallest or largest; g is never taken below 1, since a pattern is not drawn smaller than its casting here.
 * @throws FoundryInputError for a flask temperature or print shrinkage out of range.
 */
export function composeGrowth(input: GrowthCausesInput): {
  readonly growth: Spread;
  readonly causes: readonly GrowthCause[];
} {
  const { alloy, investment, plastic } = input;
  checkRange('flaskTemperature', input.flaskTemperature, 0, 1400, '°C');
  const metal = metalContraction(alloy);
  const mould = mouldExpansion(investment, input.flaskTemperature);
  const { setting } = investment.expansion;
  const measured = input.printShrinkage;
  if (measured !== undefined) checkRange('printShrinkage', measured, 0, 0.02);
  const print =
    measured === undefined ? plastic.printShrinkage : { low: measured, usual: measured, high: measured };
  const g = (m: number, s: number, t: number, p: number): number =>
    Math.max(1, (1 + m) / ((1 + s) * (1 + t) * (1 - p)));
  return {
    growth: {
      low: g(metal.low, setting.high, mould.high, print.low),
      usual: g(metal.usual, setting.usual, mould.usual, print.usual),
      high: g(metal.high, setting.low, mould.low, print.high),
    },
    causes: [
      {
        name: 'metal contracts',
        effect: { low: metal.low, usual: metal.usual, high: metal.high },
        basis: {
          rule: `mean α (solidus − 20 °C), solidus ${alloy.solidus} °C; α carried to the solidus as the base metal's`,
          source: `${metal.source}; base metals: Touloukian, Thermophysical Properties of Matter 12 (from memory)`,
        },
      },
      {
        name: 'mould expands by heat',
        effect: opposite(mould),
        basis: {
          rule: `at ${Math.round(input.flaskTemperature)} °C`,
          source: investment.sources.expansion,
        },
      },
      {
        name: 'mould expands in setting',
        effect: opposite(setting),
        basis: { rule: 'linear, free', source: investment.sources.expansion },
      },
      {
        name: 'print comes out small',
        effect: print,
        basis: {
          rule: measured === 0 ? 'already in the printer’s correction' : 'uncorrected',
          source:
            measured === undefined
              ? plastic.source
              : measured === 0
                ? 'set in the job'
                : 'set in the shop profile',
        },
      },
    ],
  };
}

const opposite = ({ low, usual, high }: Spread): Spread => ({ low: -high, usual: -usual, high: -low });
