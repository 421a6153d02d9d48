/** Textbooks’ exercises in freezing times and moduli against our formulas, all from memory. */
import { barModulus, circleArea, freezingTime, modulus } from '../../core/foundry/gating/index.js';
import { type Check, listed } from './listed.js';

const groover = 'Groover, Fundamentals of Modern Manufacturing, ch. 10';
const kalpakjian = 'Kalpakjian, Manufacturing Engineering & Technology, ch. 10';

const box = (a: number, b: number, c: number): number => modulus(a * b * c, 2 * (a * b + b * c + a * c));
const cylinder = (d: number, h: number): number =>
  modulus(circleArea(d) * h, 2 * circleArea(d) + Math.PI * d * h);
/** Of unit volume. */
const unitSphere = (): number => {
  const r = (3 / (4 * Math.PI)) ** (1 / 3);
  return modulus(1, 4 * Math.PI * r * r);
};
const unitCylinder = (): number => {
  const d = (4 / Math.PI) ** (1 / 3);
  return cylinder(d, d);
};
/** Constant of a mould by one casting, then the time of another. */
const constantOf = (time: number, mod: number): number => time / freezingTime(1, mod);

const chvorinov: readonly Check[] = [
  [
    'Chvorinov',
    'plate 7.5 × 12.5 × 2 cm in 1.6 min: constant, min/cm²',
    groover,
    () => constantOf(1.6, box(7.5, 12.5, 2)),
    '3.26',
  ],
  [
    'Chvorinov',
    'its riser D = H for 2.0 min: D, cm',
    groover,
    () => 6 * Math.sqrt(2 / constantOf(1.6, box(7.5, 12.5, 2))),
    '4.7',
  ],
  [
    'Chvorinov',
    'steel plate 30 × 10 × 2 cm, constant 4.0 min/cm²: min',
    groover,
    () => freezingTime(4, box(30, 10, 2)),
    '2.49',
  ],
  [
    'Chvorinov',
    'aluminium disk ø500 × 20 mm, constant 2.0 s/mm²: s',
    groover,
    () => freezingTime(2, cylinder(500, 20)),
    '171.5',
  ],
  [
    'Chvorinov',
    'cube of 50 mm in 155 s: constant, s/mm²',
    groover,
    () => constantOf(155, box(50, 50, 50)),
    '2.232',
  ],
  [
    'Chvorinov',
    'cylinder ø30 × 50 mm in the same mould: s',
    groover,
    () => freezingTime(constantOf(155, box(50, 50, 50)), cylinder(30, 50)),
    '74.3',
  ],
  [
    'Chvorinov',
    'sphere of unit volume, times the constant',
    kalpakjian,
    () => freezingTime(1, unitSphere()),
    '0.043',
  ],
  [
    'Chvorinov',
    'cube of unit volume, times the constant',
    kalpakjian,
    () => freezingTime(1, box(1, 1, 1)),
    '0.028',
  ],
  [
    'Chvorinov',
    'cylinder H = D of unit volume, times the constant',
    kalpakjian,
    () => freezingTime(1, unitCylinder()),
    '0.033',
  ],
];

const shapes: readonly Check[] = [
  [
    'modulus',
    'cube of side a: a/6, for 60',
    'Wlodawer, Directional Solidification of Steel Castings',
    () => box(60, 60, 60),
    '10',
  ],
  ['modulus', 'cylinder H = D: D/6, for 60', 'Wlodawer', () => cylinder(60, 60), '10'],
  ['modulus', 'endless bar of 20 × 30: ab / 2(a + b)', 'Wlodawer', () => box(20, 30, 1e9), '6.0'],
  ['modulus', 'endless plate 12 thick: half of it', 'Wlodawer', () => box(12, 1e9, 1e9), '6.0'],
  ['modulus', 'endless round bar ø24: D/4', 'Wlodawer', () => barModulus(24), '6.0'],
  ['modulus', 'area of a sphere of unit volume', kalpakjian, () => 1 / unitSphere(), '4.84'],
  ['modulus', 'area of a cylinder H = D of unit volume', kalpakjian, () => 1 / unitCylinder(), '5.54'],
];

listed('Freezing, worked examples from memory', [...chvorinov, ...shapes]);
