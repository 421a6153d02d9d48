/** Masses: grams inside. */
import { formatNumber, type NumberFormat } from './format-number.js';
import type { Parsed } from './parsed.js';
import { parseQuantity, type UnitTable } from './quantity.js';

export type MassUnit = 'g' | 'kg' | 'oz' | 'lb' | 'ozt';

/**
 * Grams in each unit, exact. Avoirdupois pound 453.59237 g by definition, ounce a sixteenth of it; troy ounce
 * 480 grains of 64.79891 mg (NIST SP 811, B.8).
 */
export const gramsPer: Readonly<Record<MassUnit, number>> = {
  g: 1,
  kg: 1000,
  oz: 28.349523125,
  lb: 453.59237,
  ozt: 31.1034768,
};

const gram = { times: 1, over: 1 };
const kilogram = { times: 1000, over: 1 };
const ounce = { times: 28_349_523_125, over: 1_000_000_000 };
const pound = { times: 45_359_237, over: 100_000 };
const troyOunce = { times: 311_034_768, over: 10_000_000 };

const table: UnitTable = {
  quantity: 'mass',
  units: {
    g: gram,
    gram,
    grams: gram,
    kg: kilogram,
    oz: ounce,
    lb: pound,
    lbs: pound,
    ozt: troyOunce,
    'troy oz': troyOunce,
  },
  ambiguous: {
    gr: { problem: 'may be grains or grams', remedy: 'write grams as g' },
    Mg: { problem: 'may be milligrams or tonnes', remedy: 'write grams as g and kilograms as kg' },
    '#': { problem: 'may be pounds or a size number', remedy: 'write pounds as lb' },
  },
  example: '250g or 8oz',
  accepted: 'g, kg, oz, lb or ozt (troy ounces)',
};

/** Reads a mass in grams: `250g`, `1.2kg`, `25lb`, `8oz` (avoirdupois), `5ozt` (troy). A bare number is in `unit`. */
export const parseMass = (input: string | number, unit: MassUnit): Parsed =>
  parseQuantity(input, table, unit);

/** The unit a person would use for this mass: g below 1 kg, oz below 1 lb. */
export const bestMassUnit = (grams: number, system: 'mm' | 'in'): MassUnit => {
  const size = Math.abs(grams);
  if (system === 'mm') return size < 1000 ? 'g' : 'kg';
  return size < gramsPer.lb ? 'oz' : 'lb';
};

const usualDigits: Readonly<Record<MassUnit, number>> = { g: 1, kg: 3, oz: 2, lb: 3, ozt: 3 };

/** A mass for people: `250 g`, `1.2 kg`, `8 oz`. */
export const formatMass = (grams: number, unit: MassUnit, format: NumberFormat = {}): string =>
  `${formatNumber(grams / gramsPer[unit], { digits: usualDigits[unit], ...format })} ${unit}`;
