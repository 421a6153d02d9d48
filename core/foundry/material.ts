/** Masses from volumes, and the plastics that patterns are printed in. */
import type { Spread } from './alloys/index.js';
import { checkRange } from './input.js';

/** Anything with a density, g/mm³. */
export interface Material {
  readonly density: number;
}

/**
 * m = ρ V, g.
 * @param volume mm³, ≥ 0
 */
export function massOf(volume: number, material: Material): number {
  return checkRange('volume', volume, 0, Number.POSITIVE_INFINITY, 'mm³') * material.density;
}

/**
 * Metal for a gram of solid-printed pattern of the same volume: the bench check "weigh the pattern and multiply".
 * Sparse infill makes it wrong; the volume of the drawing does not mind.
 */
export const densityRatio = (metal: Material, plastic: Material): number => metal.density / plastic.density;

export interface Plastic extends Material {
  /** The word in jobs. */
  readonly name: string;
  readonly title: string;
  /** °C */
  readonly softens: number;
  /** °C: runs from here, or null for a thermoset that only chars. */
  readonly melts: number | null;
  /** °C: breaks down to vapour about here. */
  readonly decomposes: number;
  /** Fraction by which uncorrected prints come out small. */
  readonly printShrinkage: Spread;
  /** What to know when burning it out. */
  readonly burnoutNote: string;
  readonly source: string;
}

const polymerPage = 'Thermal-analysis instrument maker’s polymer page';

export const plastics: readonly Plastic[] = [
  {
    name: 'PLA',
    title: 'Polylactide filament',
    density: 1.24e-3,
    softens: 60,
    melts: 155,
    decomposes: 360,
    printShrinkage: { low: 0.002, usual: 0.0025, high: 0.003 },
    burnoutNote:
      'Unpigmented grades leave under 0.5 % ash; white, mineral-, metal- and wood-filled ones leave far more.',
    source: `${polymerPage}: softens 45–65 °C, melts 150–160 °C, decomposes 350–375 °C, 1.21–1.43 g/cm³; filament density from memory`,
  },
  {
    name: 'PETG',
    title: 'Glycol-modified polyester filament',
    density: 1.27e-3,
    softens: 80,
    melts: 230,
    decomposes: 420,
    printShrinkage: { low: 0.002, usual: 0.004, high: 0.006 },
    burnoutNote: 'Runs out less freely than PLA and chars: needs the full hold and plenty of air.',
    source: 'from memory',
  },
  {
    name: 'castable-resin',
    title: 'Castable photopolymer',
    density: 1.12e-3,
    softens: 60,
    melts: null,
    decomposes: 400,
    printShrinkage: { low: 0.002, usual: 0.005, high: 0.01 },
    burnoutNote:
      'Does not melt out: it swells and chars in place. Top hold at 732 °C in a programme of about 12 h; follow the resin maker’s.',
    source: 'Burnout from a printing forum; densities and temperatures from memory',
  },
];

/** A plastic by name, whatever the case; `undefined` when there is none. */
export function findPlastic(name: string): Plastic | undefined {
  const wanted = name.trim().toLowerCase();
  return plastics.find((p) => p.name.toLowerCase() === wanted);
}
