/** Zinc-aluminium casting alloys. */
import { type Alloy, inchesPerFoot } from './alloy.js';
import { kalpakjian, makeItFrom, memory } from './sources.js';

const zincAlloy = {
  family: 'zinc',
  flaskRange: { thin: [85, 150], thick: [20, 85] },
  meltLoss: { low: 0.01, usual: 0.015, high: 0.02 },
  hazards: ['zinc-fume'],
} as const;

const zincSources = {
  liquidDensity: memory,
  pour: `${memory}; the range for gravity casting, halved by section`,
  flask: `${memory}; the range for zinc, halved by section`,
  meltLoss: memory,
  minimumSection: memory,
} as const;

export const zincAlloys: readonly Alloy[] = [
  {
    ...zincAlloy,
    name: 'zinc-alloy-3',
    title: 'Zinc alloy no. 3 (ZnAl4)',
    designation: { uns: 'Z33520', en: 'ZL3 / ZP3', other: 'ASTM AG40A' },
    composition: {
      Zn: { nominal: 95.95 },
      Al: { nominal: 4, min: 3.8, max: 4.2 },
      Mg: { nominal: 0.05, min: 0.035, max: 0.06 },
    },
    density: 6.6e-3,
    liquidDensity: 6.1e-3,
    solidus: 380,
    liquidus: 386,
    pourRange: { light: [435, 450], heavy: [420, 435] },
    // Zinc itself: Dooley 7/32, chart 5/16 in/ft. For zinc alloys Westermann gives 1.5 %, which is taken.
    contraction: { low: 0.013, usual: 0.015, high: inchesPerFoot(7 / 32) },
    // Kalpakjian's 6.5 % for zinc does not fit the densities of this alloy, liquid and solid; about 5 % does.
    freezingShrinkage: 0.05,
    latentHeat: 112,
    specificHeat: { solid: 0.41, liquid: 0.5 },
    conductivity: 0.113,
    strength: { tensile: 283, yield: 221 },
    minimumSection: 1,
    sources: {
      ...zincSources,
      composition: 'EN 1774 / EN 12844 table, ZL3',
      density: 'EN 1774 / EN 12844 table, ZL3',
      melting: 'EN 1774 / EN 12844 table, ZL3',
      contraction: 'Westermann Tables, p. 2, zinc alloys 1.5 %; high Dooley, zinc 7/32 in/ft',
      freezingShrinkage: memory,
      latentHeat: memory,
      specificHeat: `EN 1774 / EN 12844 table, ZL3; liquid ${memory}`,
      conductivity: 'EN 1774 / EN 12844 table, ZL3',
      strength: `${memory}, pressure die cast: gravity castings are weaker`,
    },
  },
  {
    ...zincAlloy,
    name: 'za-12',
    title: 'Zinc-aluminium ZA-12',
    designation: { uns: 'Z35631', en: 'ZP12' },
    composition: {
      Zn: { nominal: 88.08 },
      Al: { nominal: 11, min: 10.5, max: 11.5 },
      Cu: { nominal: 0.9, min: 0.5, max: 1.2 },
      Mg: { nominal: 0.02, min: 0.015, max: 0.03 },
    },
    density: 6.03e-3,
    liquidDensity: 5.6e-3,
    solidus: 377,
    liquidus: 432,
    pourRange: { light: [490, 520], heavy: [460, 490] },
    contraction: { low: 0.01, usual: 0.013, high: 0.015 },
    freezingShrinkage: 0.045,
    latentHeat: 120,
    specificHeat: { solid: 0.45, liquid: 0.51 },
    conductivity: 0.116,
    strength: { tensile: 276, yield: 214 },
    minimumSection: 1.5,
    sources: {
      ...zincSources,
      composition: makeItFrom('ZA-12'),
      density: makeItFrom('ZA-12'),
      melting: `Zinc-alloy maker's gravity-casting table (377 and 432 °C; MakeItFrom rounds to 380 and 430)`,
      contraction: `${makeItFrom('ZA-12, sand cast')} 1.3 %; high Westermann Tables, p. 2`,
      freezingShrinkage: `${memory}; under zinc's 6.5 % (${kalpakjian})`,
      latentHeat: makeItFrom('ZA-12'),
      specificHeat: `${makeItFrom('ZA-12')}; liquid ${memory}`,
      conductivity: makeItFrom('ZA-12'),
      strength: `${makeItFrom('ZA-12')}, sand cast`,
    },
  },
];
