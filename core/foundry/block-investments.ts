/** Investments that are mixed with water and poured round the pattern in a flask: block moulds. */
import type { BlockInvestment } from './investment.js';

export const blockInvestments: readonly BlockInvestment[] = [
  {
    name: 'gypsum-bonded',
    title: 'Gypsum-bonded investment',
    waterRatio: 0.4,
    waterRatioRange: [0.34, 0.55],
    powderDensity: 2.5e-3,
    workingTime: 9 * 60,
    standTime: 2 * 3600,
    burnoutPeak: 730,
    // Sulphur dioxide forms from about 700 to 750 °C where carbon is present; the shop ceiling of 788 °C gives
    // dark, rough castings.
    maxBurnout: 750,
    maxMetal: 1200,
    warnLiquidus: 1020,
    stopLiquidus: 1150,
    mould: { density: 1.1e-3, specificHeat: 0.84, conductivity: 0.35e-3, strength: 0.3 },
    expansion: {
      setting: { low: 0.001, usual: 0.003, high: 0.005 },
      thermal: {
        low: [
          [20, 0],
          [250, 0.002],
          [450, -0.004],
          [700, -0.005],
        ],
        usual: [
          [20, 0],
          [270, 0.006],
          [450, 0.005],
          [600, 0.007],
          [700, 0.008],
        ],
        high: [
          [20, 0],
          [270, 0.009],
          [450, 0.01],
          [700, 0.0136],
        ],
      },
    },
    sources: {
      ratio: 'Jewellery trade, 38 to 40 : 100; 400 g to 160 g is common practice, no source',
      powderDensity: 'from memory: hemihydrate 2.75, cristobalite 2.3, quartz 2.65 g/cm³',
      times: 'Typical maker’s datasheet, working time 8–10 min (from memory); stand 2 h: jewellery trade',
      limits:
        'Decomposition from about 900 °C: TG-DTA study of gypsum-bonded investments; ceiling 730–760 °C and metal to 1100–1200 °C from memory',
      mould:
        'from memory: plaster mould, k 0.35 W/(m·K), 1100 kg/m³, 840 J/(kg·K); bending strength 0.3 MPa after the fire: common practice, no source',
      expansion:
        'By heat, high: 1.32–1.36 % at 700 °C, 5 °C/min, shrinking step at 350–450 °C (Dental Materials Journal, Gypsum-bonded investment and dental precision casting, II and IV); low: foundry plasters, net 0 to −1 % (from memory); setting from memory',
    },
  },
  {
    name: 'phosphate-bonded',
    title: 'Phosphate-bonded investment',
    waterRatio: 0.22,
    waterRatioRange: [0.14, 0.35],
    powderDensity: 2.6e-3,
    workingTime: 4 * 60,
    standTime: 3600,
    burnoutPeak: 900,
    maxBurnout: 1050,
    maxMetal: 1550,
    warnLiquidus: null,
    stopLiquidus: 1500,
    mould: { density: 1.7e-3, specificHeat: 1, conductivity: 0.6e-3, strength: 1.5 },
    expansion: {
      setting: { low: 0.002, usual: 0.004, high: 0.008 },
      thermal: {
        low: [
          [20, 0],
          [270, 0.004],
          [800, 0.008],
        ],
        usual: [
          [20, 0],
          [270, 0.006],
          [573, 0.01],
          [800, 0.011],
        ],
        high: [
          [20, 0],
          [270, 0.008],
          [573, 0.013],
          [800, 0.014],
        ],
      },
    },
    sources: {
      ratio: 'from memory; the maker’s liquid is often part colloidal silica: use the maker’s ratio',
      powderDensity: 'from memory: silica and magnesia with phosphate',
      times: 'from memory',
      limits: 'from memory',
      mould: 'from memory',
      expansion: 'from memory',
    },
  },
];
