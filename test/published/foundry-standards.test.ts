/** Rows of public standards against our tables, all from memory. */
import { type ElementSymbol, findAlloy } from '../../core/foundry/alloys/index.js';
import {
  castingTolerance,
  machiningGrades,
  requiredMachiningAllowance,
} from '../../core/foundry/iso-8062.js';
import { type Check, listed } from './listed.js';

/** ASTM B584, B26, B86 and B560: limits of the elements that make the alloy, %. */
const limits: readonly (readonly [
  uns: string,
  standard: string,
  ...(readonly [ElementSymbol, number, number])[],
])[] = [
  ['C90300', 'ASTM B584', ['Cu', 86, 89], ['Sn', 7.5, 9], ['Zn', 3, 5]],
  ['C90500', 'ASTM B584', ['Cu', 86, 89], ['Sn', 9, 11], ['Zn', 1, 3]],
  ['C92200', 'ASTM B584', ['Cu', 86, 90], ['Sn', 5.5, 6.5], ['Pb', 1, 2], ['Zn', 3, 5]],
  ['C93200', 'ASTM B584', ['Cu', 81, 85], ['Sn', 6.3, 7.5], ['Pb', 6, 8]],
  ['C83600', 'ASTM B584', ['Cu', 84, 86], ['Sn', 4, 6], ['Pb', 4, 6], ['Zn', 4, 6]],
  ['C85400', 'ASTM B584', ['Cu', 65, 70], ['Sn', 0.5, 1.5], ['Pb', 1.5, 3.8], ['Zn', 24, 32]],
  ['C85700', 'ASTM B584', ['Cu', 58, 64], ['Sn', 0.5, 1.5], ['Pb', 0.8, 1.5], ['Zn', 32, 40]],
  ['C86500', 'ASTM B584', ['Cu', 55, 60], ['Zn', 36, 42], ['Fe', 0.4, 2]],
  ['C87500', 'ASTM B584', ['Zn', 12, 16], ['Si', 3, 5]],
  ['C95400', 'ASTM B148', ['Al', 10, 11.5], ['Fe', 3, 5]],
  ['A13560', 'ASTM B26', ['Si', 6.5, 7.5], ['Mg', 0.25, 0.45]],
  ['A03190', 'ASTM B26', ['Si', 5.5, 6.5], ['Cu', 3, 4]],
  ['Z35631', 'ASTM B86', ['Al', 10.5, 11.5], ['Cu', 0.5, 1.2]],
  ['L13911', 'ASTM B560 type 1', ['Sn', 90, 93], ['Sb', 6, 8], ['Cu', 0.25, 2]],
];
const alloyRows: readonly Check[] = limits.flatMap(([uns, standard, ...rows]) =>
  rows.flatMap(([element, low, high]): Check[] => {
    const share = () => findAlloy(uns)!.composition[element];
    return [
      [
        'alloy limits',
        `${uns}: least ${element}, %`,
        standard,
        () => share()?.min ?? Number.NaN,
        String(low),
      ],
      [
        'alloy limits',
        `${uns}: most ${element}, %`,
        standard,
        () => share()?.max ?? Number.NaN,
        String(high),
      ],
    ];
  }),
);

/** ISO 8062-3, grades E to H by largest dimension, mm a side. */
const allowances: readonly (readonly [number, ...string[]])[] = [
  [40, '0.4', '0.5', '0.5', '0.7'],
  [63, '0.4', '0.5', '0.7', '1'],
  [100, '0.7', '1', '1.4', '2'],
  [160, '1.1', '1.5', '2.2', '3'],
  [250, '1.4', '2', '2.8', '4'],
  [400, '1.8', '2.5', '3.5', '5'],
  [630, '2.2', '3', '4', '6'],
  [1000, '2.5', '3.5', '5', '7'],
];
const firstGrade = machiningGrades.indexOf('E');
/** ISO 8062-3, DCTG 4 to 8 by dimension, mm in all. */
const tolerances: readonly (readonly [number, ...string[]])[] = [
  [10, '0.26', '0.36', '0.52', '0.74', '1.0'],
  [16, '0.28', '0.38', '0.54', '0.78', '1.1'],
  [25, '0.30', '0.42', '0.58', '0.82', '1.2'],
  [40, '0.32', '0.46', '0.64', '0.90', '1.3'],
  [63, '0.36', '0.50', '0.70', '1.0', '1.4'],
  [100, '0.40', '0.56', '0.78', '1.1', '1.6'],
  [160, '0.44', '0.62', '0.88', '1.2', '1.8'],
  [250, '0.50', '0.70', '1.0', '1.4', '2.0'],
  [400, '0.56', '0.78', '1.1', '1.6', '2.2'],
];
const iso: readonly Check[] = [
  ...allowances.flatMap(([size, ...row]) =>
    row.map((text, i): Check => {
      const grade = machiningGrades[firstGrade + i]!;
      return [
        'ISO 8062-3',
        `RMAG ${grade} to ${size} mm`,
        'ISO 8062-3:2007',
        () => requiredMachiningAllowance(size, grade),
        text,
      ];
    }),
  ),
  ...tolerances.flatMap(([size, ...row]) =>
    row.map(
      (text, i): Check => [
        'ISO 8062-3',
        `DCTG ${4 + i} to ${size} mm`,
        'ISO 8062-3:2007',
        () => castingTolerance(size, 4 + i),
        text,
      ],
    ),
  ),
];

listed('Rows of standards from memory', [...alloyRows, ...iso]);
