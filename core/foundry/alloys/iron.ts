/** Grey iron. */
import { type Alloy, inchesPerFoot } from './alloy.js';
import { dooley, groover, memory, supplierChart } from './sources.js';

export const irons: readonly Alloy[] = [
  {
    name: 'grey-iron',
    title: 'Grey iron, class 30',
    family: 'iron',
    designation: { uns: 'F12101', en: 'EN-GJL-200', other: 'ASTM A48 class 30' },
    composition: {
      Fe: { nominal: 94.1 },
      C: { nominal: 3.3, min: 3.2, max: 3.5 },
      Si: { nominal: 2.1, min: 1.9, max: 2.3 },
      Mn: { nominal: 0.5 },
    },
    density: 7.2e-3,
    liquidDensity: 6.9e-3,
    solidus: 1140,
    liquidus: 1195,
    pourRange: { light: [1370, 1450], heavy: [1300, 1370] },
    flaskRange: { thin: [700, 900], thick: [500, 700] },
    // Dooley 3/32 in/ft, the chart 1/10 to 1/8, Westermann 1 %: the middle, 1/10 to 1/8, governs.
    contraction: { low: inchesPerFoot(3 / 32), usual: 0.01, high: inchesPerFoot(1 / 8) },
    // Groover has 1.8 % of shrinkage, Kalpakjian 2.5 % of expansion (graphite). Feeding is planned for shrinkage.
    freezingShrinkage: 0.018,
    latentHeat: 240,
    // 0.49 at room temperature; from 20 °C to the solidus, the change to austenite in it, about 0.7.
    specificHeat: { solid: 0.7, liquid: 0.83 },
    conductivity: 0.048,
    strength: { tensile: 207, yield: null },
    meltLoss: { low: 0.02, usual: 0.03, high: 0.05 },
    minimumSection: 3,
    hazards: ['very-hot-melt'],
    sources: {
      composition: memory,
      density: 'Westermann Tables',
      liquidDensity: memory,
      melting: `${memory}, middle of 1130–1150 and 1180–1210 °C`,
      pour: memory,
      flask: memory,
      contraction: `Westermann Tables, p. 2, 1 %; low ${dooley}; high ${supplierChart}`,
      freezingShrinkage: groover,
      latentHeat: memory,
      specificHeat: memory,
      conductivity: memory,
      strength: 'ASTM A48 class 30 minimum (from memory)',
      meltLoss: memory,
      minimumSection: memory,
    },
  },
];
