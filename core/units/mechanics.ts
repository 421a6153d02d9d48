/** Forces, torques, power and speeds: newtons, N·mm, watts, mm/s and rad/s inside. */
import { maths } from '../maths/maths.js';
import type { LengthUnit } from './length.js';
import type { Parsed } from './parsed.js';
import { parseQuantity, type UnitTable } from './quantity.js';

/** 1 lbf = 0.45359237 kg × 9.80665 m/s², exact (NIST SP 811, B.8). */
export const newtonsPerPound = 4.4482216152605;
/** 550 ft·lbf/s (NIST SP 811, B.8). */
export const wattsPerHorsepower = newtonsPerPound * 0.3048 * 550;

const pound = newtonsPerPound;
const joined = (force: string, arm: string): string[] =>
  ['', '·', '.', '-', ' ', '*', '⋅'].map((sign) => `${force}${sign}${arm}`);
const each = (spellings: readonly string[], times: number) =>
  Object.fromEntries(spellings.map((name) => [name, { times, over: 1 }]));

const torques: UnitTable = {
  quantity: 'torque',
  units: {
    ...each(joined('n', 'mm'), 1),
    ...each(joined('n', 'cm'), 10),
    ...each(joined('n', 'm'), 1000),
    ...each([...joined('lbf', 'in'), ...joined('lb', 'in'), ...joined('in', 'lb')], pound * 25.4),
    ...each([...joined('lbf', 'ft'), ...joined('lb', 'ft'), ...joined('ft', 'lb')], pound * 304.8),
  },
  ambiguous: {
    mNm: { problem: 'may be millinewton metres or newton millimetres', remedy: 'write N·m' },
  },
  example: '12Nm or 100lbf·in',
  accepted: 'N·m, N·mm, lbf·in or lbf·ft',
};

/** Reads a torque in N·mm: `12Nm`, `100 lbf·in`, `8ft-lb`. A bare number is in N·m, or lbf·in where lengths are inches. */
export const parseTorque = (input: string | number, unit: LengthUnit): Parsed =>
  parseQuantity(input, torques, unit === 'mm' ? 'nm' : 'lbfin');

const powers: UnitTable = {
  quantity: 'power',
  units: {
    w: { times: 1, over: 1 },
    watt: { times: 1, over: 1 },
    watts: { times: 1, over: 1 },
    kw: { times: 1000, over: 1 },
    hp: { times: wattsPerHorsepower, over: 1 },
  },
  ambiguous: {
    mW: { problem: 'may be milliwatts or megawatts', remedy: 'write W or kW' },
    PS: { problem: 'is the metric horsepower of 735.5 W', remedy: 'write W or kW' },
  },
  example: '60W or 1/4hp',
  accepted: 'W, kW or hp (550 ft·lbf/s)',
};

/** Reads a power in watts: `60W`, `0.25kW`, `1/4hp`. A bare number is in W, or hp where lengths are inches. */
export const parsePower = (input: string | number, unit: LengthUnit): Parsed =>
  parseQuantity(input, powers, unit === 'mm' ? 'w' : 'hp');

const perMinute = { times: Math.PI / 30, over: 1 };
const turns: UnitTable = {
  quantity: 'speed of rotation',
  units: {
    ...Object.fromEntries(['rpm', 'rev/min', 'r/min', 'turns a minute'].map((name) => [name, perMinute])),
    'rad/s': { times: 1, over: 1 },
  },
  ambiguous: {},
  example: '60 or 60rpm',
  accepted: 'rev/min (rpm) or rad/s',
};

/** Reads a speed of rotation in rad/s: `60`, `60rpm`, `6.3rad/s`. A bare number is in rev/min. */
export const parseTurns = (input: string | number): Parsed => parseQuantity(input, turns, 'rpm');

/** Three figures: more than a bench estimate is worth. */
const figures = (value: number): string => {
  if (!Number.isFinite(value) || value === 0) return value === 0 ? '0' : String(value);
  const digits = Math.max(0, 2 - Math.floor(maths.log10(Math.abs(value))));
  const text = Number(value.toPrecision(3)).toFixed(Math.min(6, digits));
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
};

/** `120 N`, `27 lbf` */
export const formatForce = (newtons: number, unit: LengthUnit): string =>
  unit === 'mm' ? `${figures(newtons)} N` : `${figures(newtons / pound)} lbf`;

/** `12 N·m`, `106 lbf·in`; from 10 000 lbf·in in lbf·ft. */
export const formatTorque = (newtonMillimetres: number, unit: LengthUnit): string => {
  if (unit === 'mm') return `${figures(newtonMillimetres / 1000)} N·m`;
  const inches = newtonMillimetres / (pound * 25.4);
  return Math.abs(inches) < 10_000 ? `${figures(inches)} lbf·in` : `${figures(inches / 12)} lbf·ft`;
};

/** `60 W`, `1.2 kW`, `0.08 hp` */
export const formatPower = (watts: number, unit: LengthUnit): string => {
  if (unit === 'in') return `${figures(watts / wattsPerHorsepower)} hp`;
  return Math.abs(watts) < 1000 ? `${figures(watts)} W` : `${figures(watts / 1000)} kW`;
};

/** `0.12 m/s`, `24 ft/min` */
export const formatVelocity = (millimetresPerSecond: number, unit: LengthUnit): string =>
  unit === 'mm'
    ? `${figures(millimetresPerSecond / 1000)} m/s`
    : `${figures((millimetresPerSecond * 60) / 304.8)} ft/min`;

/** `24 rev/min` */
export const formatTurns = (radiansPerSecond: number): string =>
  `${figures((radiansPerSecond * 30) / Math.PI)} rev/min`;

/** `69 MPa`, `10000 psi` */
export const formatStress = (megapascals: number, unit: LengthUnit): string =>
  unit === 'mm' ? `${figures(megapascals)} MPa` : `${figures((megapascals * 25.4 ** 2) / pound)} psi`;
