/** Aluminium-silicon casting alloys. */
import { type Alloy, inchesPerFoot } from './alloy.js';
import { kalpakjian, memory, supplierChart } from './sources.js';

const lightAlloy = {
  family: 'aluminium',
  pourRange: { light: [700, 760], heavy: [675, 730] },
  flaskRange: { thin: [275, 400], thick: [200, 275] },
  // Chart 5/32 in/ft, Westermann 1.25 %; Dooley's 7/32 is for unalloyed aluminium and is left out.
  contraction: { low: 0.01, usual: inchesPerFoot(5 / 32), high: inchesPerFoot(11 / 64) },
  meltLoss: { low: 0.01, usual: 0.02, high: 0.1 },
  minimumSection: 1.2,
} as const;

const lightAlloySources = {
  liquidDensity: memory,
  pour: memory,
  flask: memory,
  contraction: `${supplierChart}, aluminium 5/32 in/ft; Westermann Tables, p. 2, 1.25 %; low and high ${memory}`,
  meltLoss: `${memory}; high is thin scrap`,
  minimumSection: memory,
} as const;

export const aluminiumAlloys: readonly Alloy[] = [
  {
    ...lightAlloy,
    name: 'a356',
    title: 'Aluminium-silicon A356 (Al-7Si-0.35Mg)',
    designation: { uns: 'A13560', en: 'EN AC-42100' },
    composition: {
      Al: { nominal: 92.65 },
      Si: { nominal: 7, min: 6.5, max: 7.5 },
      Mg: { nominal: 0.35, min: 0.25, max: 0.45 },
    },
    density: 2.685e-3,
    liquidDensity: 2.4e-3,
    solidus: 555,
    liquidus: 615,
    freezingShrinkage: 0.052,
    // ASM and SubsTech give 389, MakeItFrom 500 (the mean of the elements); calorimetry runs 390 to 430.
    latentHeat: 389,
    specificHeat: { solid: 0.963, liquid: 1.1 },
    conductivity: 0.15,
    strength: { tensile: 186, yield: 90 },
    hazards: ['fine-chips-burn'],
    sources: {
      ...lightAlloySources,
      composition: 'Alloy data sheet, A356.0',
      density: 'Alloy data sheet, A356.0',
      melting: 'Alloy data sheet, A356.0',
      freezingShrinkage: `Between aluminium 7.1 % and Al-12Si 3.8 % (${kalpakjian}), by silicon`,
      latentHeat: 'ASM Handbook vol. 2 and SubsTech, 356.0',
      specificHeat: `Alloy data sheet, A356.0, at 100 °C; liquid ${memory}`,
      conductivity: 'Alloy data sheet, A356.0',
      strength: 'Foundry sheet, A356-F typical',
    },
  },
  {
    ...lightAlloy,
    name: 'al-319',
    title: 'Aluminium-silicon-copper 319 (Al-6Si-3.5Cu)',
    designation: { uns: 'A03190', en: 'EN AC-45000' },
    composition: {
      Al: { nominal: 90.5 },
      Si: { nominal: 6, min: 5.5, max: 6.5 },
      Cu: { nominal: 3.5, min: 3, max: 4 },
    },
    density: 2.79e-3,
    liquidDensity: 2.45e-3,
    solidus: 516,
    liquidus: 604,
    freezingShrinkage: 0.055,
    latentHeat: 389,
    specificHeat: { solid: 0.963, liquid: 1.1 },
    conductivity: 0.109,
    strength: { tensile: 186, yield: 124 },
    hazards: ['fine-chips-burn'],
    sources: {
      ...lightAlloySources,
      composition: 'ASM Handbook vol. 2, 319.0 (from memory)',
      density: 'ASM Handbook vol. 2, 319.0 (from memory)',
      melting: 'ASM Handbook vol. 2, 319.0 (from memory)',
      freezingShrinkage: `Between aluminium 7.1 %, Al-4.5Cu 6.3 % and Al-12Si 3.8 % (${kalpakjian})`,
      latentHeat: 'ASM Handbook vol. 2, 319.0 (from memory)',
      specificHeat: `ASM Handbook vol. 2, 319.0 (from memory); liquid ${memory}`,
      conductivity: 'ASM Handbook vol. 2, 319.0 (from memory)',
      strength: 'ASM Handbook vol. 2, 319-F typical (from memory)',
    },
  },
  {
    ...lightAlloy,
    name: 'al-si12',
    title: 'Aluminium-silicon eutectic (Al-12Si)',
    designation: { uns: 'A14130', en: 'EN AC-44100' },
    composition: { Al: { nominal: 88 }, Si: { nominal: 12, min: 10.5, max: 13.5 } },
    density: 2.66e-3,
    liquidDensity: 2.45e-3,
    solidus: 574,
    liquidus: 582,
    freezingShrinkage: 0.038,
    // Older tables repeat 389 for every Al-Si alloy; thermal-storage work on the eutectic measures 550 to 560.
    latentHeat: 550,
    specificHeat: { solid: 0.963, liquid: 1.1 },
    conductivity: 0.13,
    strength: { tensile: 150, yield: 70 },
    hazards: ['fine-chips-burn'],
    sources: {
      ...lightAlloySources,
      composition: memory,
      density: memory,
      melting: memory,
      freezingShrinkage: `${kalpakjian}, Al-12Si`,
      latentHeat: 'Thermal-storage literature on eutectic Al-Si (from memory)',
      specificHeat: memory,
      conductivity: memory,
      strength: memory,
    },
  },
];
