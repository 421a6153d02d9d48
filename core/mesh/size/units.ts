import { millimetresPerInch } from '../../units/index.js';

/** Units that mesh files are drawn in. */
export const meshUnits = ['mm', 'in', 'cm', 'm', 'ft'] as const;
export type MeshUnit = (typeof meshUnits)[number];

/** mm in one unit. A foot is 12 in (international yard and pound agreement of 1959). */
export const millimetresPer: Readonly<Record<MeshUnit, number>> = {
  mm: 1,
  in: millimetresPerInch,
  cm: 10,
  m: 1000,
  ft: 12 * millimetresPerInch,
};

export const unitNames: Readonly<Record<MeshUnit, string>> = {
  mm: 'millimetres',
  in: 'inches',
  cm: 'centimetres',
  m: 'metres',
  ft: 'feet',
};
