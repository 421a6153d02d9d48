/** Rates of heating: °C an hour inside. */

import type { Parsed } from './parsed.js';
import { parseQuantity, type UnitTable } from './quantity.js';

const celsius = { times: 1, over: 1 };
const fahrenheit = { times: 5, over: 9 };
const spelled = (scale: string): readonly string[] => [
  `${scale}/h`,
  `°${scale}/h`,
  `${scale}/hr`,
  `°${scale}/hr`,
];

const rates: UnitTable = {
  quantity: 'rate of heating',
  units: {
    ...Object.fromEntries(spelled('c').map((name) => [name, celsius])),
    ...Object.fromEntries(spelled('f').map((name) => [name, fahrenheit])),
  },
  ambiguous: {
    '°/h': { problem: 'does not say which degrees', remedy: 'write it like 150C/h or 270F/h' },
  },
  example: '150C/h or 270F/h',
  accepted: 'C/h or F/h',
};

/** Reads a rate of heating in °C/h: `150C/h`, `270F/h`. A bare number is refused: it does not say which degrees. */
export const parseTemperatureRate = (input: string | number): Parsed => parseQuantity(input, rates, null);
