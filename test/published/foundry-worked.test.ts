/** Textbooks’ exercises in flow, heat, water and shrinkage against our formulas, all from memory. */
import { type Alloy, findAlloy } from '../../core/foundry/alloys/index.js';
import { mouldWater } from '../../core/foundry/burnout.js';
import { heatToMelt, planCharge } from '../../core/foundry/charge/charge.js';
import {
  circleArea,
  circleDiameter,
  fallVelocity,
  flowThrough,
  ironPourTime,
  taperRatio,
} from '../../core/foundry/gating/index.js';
import { findInvestment, mixFor } from '../../core/foundry/investment.js';
import { type Check, listed } from './listed.js';

const inch = 25.4;
/** Groover works with 981 cm/s² and 32.2 ft/s². */
const g = 9810;
const gInch = 32.2 * 12 * inch;
const groover = 'Groover, Fundamentals of Modern Manufacturing, ch. 10';
const kalpakjian = 'Kalpakjian, Manufacturing Engineering & Technology, ch. 10';
const rao = 'P. N. Rao, Manufacturing Technology: Foundry, Forming and Welding, ch. 4';

/** A metal of one melting point, as the exercises have it. */
const metal = (melting: number, solid: number, latent: number, liquid: number): Alloy => ({
  ...findAlloy('copper')!,
  solidus: melting,
  liquidus: melting,
  specificHeat: { solid, liquid },
  latentHeat: latent,
});

const sprue: readonly Check[] = [
  [
    'sprue and choke',
    'sprue 175 mm: velocity at its base, mm/s',
    groover,
    () => fallVelocity(175, g),
    '1853',
  ],
  [
    'sprue and choke',
    'base 400 mm², cavity 0.001 m³: s',
    groover,
    () => 1e6 / flowThrough(400, 1, 175, g),
    '1.35',
  ],
  [
    'sprue and choke',
    'sprue 6 in: velocity, in/s',
    groover,
    () => fallVelocity(6 * inch, gInch) / inch,
    '68.1',
  ],
  [
    'sprue and choke',
    'base 0.5 in²: in³/s',
    groover,
    () => flowThrough(0.5 * inch ** 2, 1, 6 * inch, gInch) / inch ** 3,
    '34.05',
  ],
  [
    'sprue and choke',
    'cavity 75 in³: s',
    groover,
    () => (75 * inch ** 3) / flowThrough(0.5 * inch ** 2, 1, 6 * inch, gInch),
    '2.2',
  ],
  ['sprue taper', '1 l/s down 175 mm: base, mm²', groover, () => 1e6 / fallVelocity(175, g), '540'],
  [
    'sprue taper',
    '50 in³/s down 8 in: base, in²',
    groover,
    () => (50 * inch) / fallVelocity(8 * inch, gInch),
    '0.636',
  ],
  [
    'sprue taper',
    'basin 10 in over the mould: velocity, in/s',
    kalpakjian,
    () => fallVelocity(10 * inch, gInch) / inch,
    '87.9',
  ],
  [
    'sprue taper',
    'levels 1 and 4 under the surface: areas as 2 to 1',
    kalpakjian,
    () => taperRatio(1, 4),
    '2',
  ],
  [
    'sprue taper',
    'the same: diameters as √2 to 1',
    kalpakjian,
    () => circleDiameter(taperRatio(1, 4)) / circleDiameter(1),
    '1.414',
  ],
];

const pouring: readonly Check[] = [
  [
    'pouring time',
    'grey iron, 20 kg, 15 mm, fluidity 28 in (of 40): s',
    rao,
    () => ironPourTime(20_000, 15, 28 / 40),
    '7.63',
  ],
];

const eutectic = metal(800, 0.33, 160, 0.29);
const aluminium = metal(660, 0.88, 389.3, 0.88);
const energy: readonly Check[] = [
  [
    'energy',
    'a cubic metre of a eutectic alloy of 800 °C from 25 to 900 °C: whole 10⁶ J, as printed',
    groover,
    () => Math.trunc((7.5e6 * heatToMelt(eutectic, 900, 25)) / 1e6),
    '3335',
  ],
  [
    'energy',
    'aluminium disk ø40 × 5 cm and 5 %, 25 to 800 °C: MJ',
    groover,
    () => {
      const inMoulds = 2.7 * circleArea(40) * 5;
      return (
        planCharge({
          alloy: aluminium,
          inMoulds,
          pourTemperature: 800,
          reserveFraction: 0.05,
          meltLoss: 0,
          startTemperature: 25,
        }).energy / 1e6
      );
    },
    '19.08',
  ],
];

const gypsum = findInvestment('gypsum-bonded')!;
const powder = mixFor(1, gypsum, 0.4, 0).powder;
const slurry: readonly Check[] = [
  [
    'slurry',
    'water that sets 100 g of hemihydrate, g',
    'Phillips’ Science of Dental Materials',
    () => {
      const { free } = mouldWater(gypsum);
      return ((0.4 - free / powder) / 0.28) * 100;
    },
    '18.6',
  ],
  [
    'slurry',
    'water in gypsum CaSO4·2H2O, %',
    'Dana, Manual of Mineralogy',
    () => {
      const { free, bound } = mouldWater(gypsum);
      return (100 * bound) / (0.28 * powder + (0.4 * powder - free));
    },
    '20.9',
  ],
];

const shrinks =
  (name: string): (() => number) =>
  () =>
    100 * findAlloy(name)!.freezingShrinkage;
const freezing: readonly Check[] = [
  ['volume on freezing', 'copper, %', `${kalpakjian}, table`, shrinks('copper'), '4.9'],
  ['volume on freezing', '70/30 brass, %', `${kalpakjian}, table`, shrinks('yellow-brass-c85400'), '4.5'],
  ['volume on freezing', '90Cu-10Al, %', `${kalpakjian}, table`, shrinks('aluminium-bronze'), '4.0'],
  ['volume on freezing', 'Al-12Si, %', `${kalpakjian}, table`, shrinks('al-si12'), '3.8'],
  ['volume on freezing', 'tin bronze, %', groover, shrinks('tin-bronze'), '5.5'],
  ['volume on freezing', 'grey iron of high carbon, %', groover, shrinks('grey-iron'), '1.8'],
];

listed('Flow, heat and shrinkage, worked examples from memory', [
  ...sprue,
  ...pouring,
  ...energy,
  ...slurry,
  ...freezing,
]);
