/** Finishing stock by surface class: what the casting is larger than the part. */
import { type Finding, warn } from '../part/finding.js';
import { type Stock, type SurfaceClass, surfaceClasses } from '../part/stock.js';
import { checkRange } from './input.js';
import { type MachiningGrade, requiredMachiningAllowance } from './iso-8062.js';
import type { Basis, StockPlan } from './plans.js';

/**
 * ISO 8062:1994 Table B.1 has grade E for investment casting (wax from a metal die) and D to F for permanent
 * moulds. A printed pattern in a plaster mould adds the printer's error and the layer lines to the wax figures, so
 * the allowance is one grade coarser than E.
 */
export const defaultMachiningGrade: MachiningGrade = 'F';

/** mm: what filing and polishing take off a hand-finished surface, and a light dressing of tooth flanks. */
const handFinish = 0.25;
const lightDressing = 0.1;
/** mm left to file once the layer steps are gone. */
const underTheSteps = 0.05;
/** More than any grade of the table: catches a wrong unit. */
const largestStock = 15;

export interface StockInput {
  /** Largest overall dimension of the finished part, mm, over 0 to 1000. */
  readonly largestDimension: number;
  /** Layer height of the print, mm, 0.01 to 1. */
  readonly layerHeight: number;
  /** For the machined classes (face, bore, mating). Default F. */
  readonly grade?: MachiningGrade;
  /** Light dressing of flanks and tips, mm, 0 to 2. Default 0.1. */
  readonly dressing?: number;
  /** mm per side, set in the job, one class at a time. */
  readonly overrides?: Partial<Stock>;
}

/**
 * Stock of every class with its basis.
 * - face, bore, mating: ISO 8062-3 required machining allowance;
 * - skin: 0.25 mm, never less than the layer height + 0.05: the steps a print leaves on a sloping surface are
 *   at most h cos θ ≤ h high;
 * - flank, tip: cast to size with a light dressing; the machining grade would be far too much on a tooth.
 * @throws FoundryInputError when a size is out of range.
 */
export function planStock(input: StockInput): StockPlan {
  const { layerHeight, overrides = {}, grade = defaultMachiningGrade, dressing = lightDressing } = input;
  checkRange('layerHeight', layerHeight, 0.01, 1, 'mm');
  checkRange('dressing', dressing, 0, 2, 'mm');
  const allowance = requiredMachiningAllowance(input.largestDimension, grade);
  const machined: readonly [number, Basis] = [
    allowance,
    {
      rule: `required machining allowance, grade ${grade}, largest dimension ${round(input.largestDimension)} mm`,
      source: `ISO 8062-3 (RMAG ${grade}, from memory); grade: investment casting E, printed pattern in plaster one coarser`,
    },
  ];
  const dressed: readonly [number, Basis] = [
    dressing,
    {
      rule: 'cast to size, light dressing only',
      source: input.dressing === undefined ? 'common practice, no source' : 'set in the job',
    },
  ];
  const skin = Math.max(handFinish, layerHeight + underTheSteps);
  const table: Readonly<Record<SurfaceClass, readonly [number, Basis]>> = {
    flank: dressed,
    tip: dressed,
    face: machined,
    bore: machined,
    mating: machined,
    skin: [
      skin,
      {
        rule: `max(${handFinish} mm, layer height ${layerHeight} + ${underTheSteps} mm)`,
        source: 'common practice, no source; steps of a print are at most one layer high',
      },
    ],
  };
  const rows = surfaceClasses.map((c): [SurfaceClass, readonly [number, Basis]] => {
    const own = overrides[c];
    if (own === undefined) return [c, table[c]];
    checkRange(`stock.${c}`, own, 0, largestStock, 'mm');
    return [c, [own, { rule: `${own} mm per side`, source: 'set in the job' }]];
  });
  return {
    stock: Object.fromEntries(rows.map(([c, [value]]) => [c, value])) as Record<SurfaceClass, number>,
    basis: Object.fromEntries(rows.map(([c, [, basis]]) => [c, basis])) as Record<SurfaceClass, Basis>,
  };
}

/** Warns where stock set in the job is less than the layer lines it must remove. */
export function checkStock(stock: Stock, layerHeight: number): readonly Finding[] {
  if (stock.skin >= layerHeight) return [];
  return [
    warn(
      'skin-below-layer-lines',
      `Skin stock ${round(stock.skin)} mm is less than the layer height ${round(layerHeight)} mm: layer lines stay in the metal.`,
      `Use at least ${round(layerHeight + underTheSteps)} mm, or print thinner layers.`,
      'stock.skin',
    ),
  ];
}

const round = (x: number): number => Math.round(x * 1000) / 1000;
