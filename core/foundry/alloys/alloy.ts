/** What a casting alloy's row holds. g, mm, °C, J, W; fractions are of 1. */

/** Elements that appear in the table's compositions. */
export type ElementSymbol =
  | 'Ag'
  | 'Al'
  | 'C'
  | 'Cu'
  | 'Fe'
  | 'Mg'
  | 'Mn'
  | 'Ni'
  | 'P'
  | 'Pb'
  | 'S'
  | 'Sb'
  | 'Si'
  | 'Sn'
  | 'Zn';

export type AlloyFamily = 'copper' | 'aluminium' | 'zinc' | 'iron' | 'tin' | 'silver';

/** Hazards beyond the molten metal itself; `cautions.ts` says what to do about each. */
export type HazardCode =
  | 'zinc-fume'
  | 'lead'
  | 'copper-fume'
  | 'antimony'
  | 'manganese-fume'
  | 'heavy-dross'
  | 'fine-chips-burn'
  | 'very-hot-melt';

/** Mass %. `min` and `max` are the specification's limits where it sets them. */
export interface ElementShare {
  readonly nominal: number;
  readonly min?: number;
  readonly max?: number;
}

/** Lowest and highest, in that order. */
export type Range = readonly [number, number];

/** A value with the spread that the sources show. */
export interface Spread {
  readonly low: number;
  readonly usual: number;
  readonly high: number;
}

/** The groups of values that have a source of their own. */
export type ValueGroup =
  | 'composition'
  | 'density'
  | 'liquidDensity'
  | 'melting'
  | 'pour'
  | 'flask'
  | 'contraction'
  | 'freezingShrinkage'
  | 'latentHeat'
  | 'specificHeat'
  | 'conductivity'
  | 'strength'
  | 'meltLoss'
  | 'minimumSection';

export interface Alloy {
  /** The word in jobs and on the command line, kebab-case. */
  readonly name: string;
  readonly title: string;
  /** Row of the table that an own alloy starts from. */
  readonly basedOn?: string;
  readonly family: AlloyFamily;
  /** UNS number or ASTM name, and the nearest EN designation (similar, not identical). */
  readonly designation: { readonly uns: string | null; readonly en: string | null; readonly other?: string };
  readonly composition: Readonly<Partial<Record<ElementSymbol, ElementShare>>>;
  /** g/mm³, solid at 20 °C. */
  readonly density: number;
  /** g/mm³, at the liquidus. */
  readonly liquidDensity: number;
  /** °C */
  readonly solidus: number;
  /** °C */
  readonly liquidus: number;
  /** Metal temperature at the pour, °C, for light (thin) and heavy (thick) castings. */
  readonly pourRange: { readonly light: Range; readonly heavy: Range };
  /** Temperature of an investment mould at the pour, °C, for thin and thick castings. */
  readonly flaskRange: { readonly thin: Range; readonly thick: Range };
  /** Patternmaker's contraction allowance, mm per mm of finished casting: pattern = casting × (1 + a). */
  readonly contraction: Spread;
  /** Volume lost on freezing, as a fraction of the liquid's volume. */
  readonly freezingShrinkage: number;
  /** J/g */
  readonly latentHeat: number;
  /** J/(g·K), of the solid (20 °C to the liquidus) and of the liquid. */
  readonly specificHeat: { readonly solid: number; readonly liquid: number };
  /** W/(mm·K), solid at 20 °C. */
  readonly conductivity: number;
  /** MPa, as cast; `yield` null where the source gives none. */
  readonly strength: { readonly tensile: number; readonly yield: number | null };
  /** Metal lost to oxide, dross and fume, as a fraction of the charge. */
  readonly meltLoss: Spread;
  /** mm: thinnest wall that fills in a hot investment mould. */
  readonly minimumSection: number;
  readonly hazards: readonly HazardCode[];
  readonly sources: Readonly<Record<ValueGroup, string>>;
}

/** A shrink rule's inches per foot as a fraction: 3/16 in/ft = 0.015625. */
export const inchesPerFoot = (inches: number): number => inches / 12;
