/** The ceramic shell: fused-silica slurry bound by colloidal silica, stuccoed with fused-silica grain. */
import type { ShellInvestment } from '../investment.js';

/** One kind of coat. */
export interface CoatKind {
  /** mm that it adds, dry. */
  readonly thickness: number;
  /** s until the next, in moving air within the room's limits. */
  readonly dryTime: number;
  /** Grain thrown on, mm; null for a coat of slurry alone. */
  readonly grain: readonly [number, number] | null;
}

export interface ShellCoats {
  /** Against the pattern; those over it; slurry alone over all. */
  readonly prime: CoatKind;
  readonly backup: CoatKind;
  readonly seal: CoatKind;
  /** Stuccoed coats, whatever the pressure: light metals, copper alloys, iron; and as many as are laid at most. */
  readonly least: { readonly light: number; readonly copper: number; readonly iron: number };
  readonly most: number;
  /** Share of a stuccoed coat's dry mass that is stucco. */
  readonly stuccoShare: number;
  /** g of flour to a gram of sol; silica in the sol, by mass; true density of both, g/mm³. */
  readonly flourPerSol: number;
  readonly solSilica: number;
  readonly silicaDensity: number;
  /** Share of the dry shell's mass that is still water when it goes into the fire. */
  readonly residualWater: number;
  /** MPa in bending, dried but not fired. */
  readonly greenStrength: number;
  /** Of the drying room: °C, and relative humidity as a fraction. */
  readonly room: {
    readonly temperature: readonly [number, number];
    readonly humidity: readonly [number, number];
  };
  /** °C of the kiln that a dried shell is put into for the plastic to flash off. */
  readonly flash: number;
}

const hour = 3600;

export const ceramicShell: ShellInvestment = {
  name: 'ceramic-shell',
  title: 'Ceramic shell',
  burnoutPeak: 900,
  // Above this fused silica turns to cristobalite in hours and the shell cracks as it cools through 200 to 270 °C.
  maxBurnout: 1100,
  maxMetal: 1650,
  warnLiquidus: null,
  stopLiquidus: null,
  mould: { density: 1.6e-3, specificHeat: 1.05, conductivity: 0.7e-3, strength: 4 },
  expansion: {
    setting: { low: 0, usual: 0, high: 0 },
    thermal: {
      // Low: sinters a little in the fire. High: alumino-silicate grain in place of fused silica.
      low: [
        [20, 0],
        [850, 0.0003],
        [1000, -0.002],
      ],
      usual: [
        [20, 0],
        [1000, 0.00054],
      ],
      high: [
        [20, 0],
        [1000, 0.005],
      ],
    },
  },
  coats: {
    prime: { thickness: 0.8, dryTime: 4 * hour, grain: [0.1, 0.3] },
    backup: { thickness: 1.1, dryTime: 4 * hour, grain: [0.3, 0.7] },
    seal: { thickness: 0.3, dryTime: 24 * hour, grain: null },
    least: { light: 5, copper: 6, iron: 7 },
    most: 12,
    stuccoShare: 0.6,
    flourPerSol: 1.7,
    solSilica: 0.3,
    silicaDensity: 2.2e-3,
    residualWater: 0.01,
    greenStrength: 2,
    room: { temperature: [20, 26], humidity: [0.4, 0.6] },
    flash: 870,
  },
  sources: {
    coats:
      'Beeley & Smart, Investment Casting; ASM Handbook 15: 5 to 9 coats, shells of 5 to 10 mm (from memory); least by metal and share of stucco: common practice, no source',
    slurry:
      'Fused-silica flour 1.6–1.8 : 1 on a sol of 30 % silica; fused silica 2.2 g/cm³ (from memory): use the maker’s ratio',
    drying:
      '2 to 4 h a coat in moving air at 40–60 % relative humidity, 12 to 24 h after the last (from memory); longer in pockets and deep holes',
    gaps: 'two coats on both walls must go in: common practice, no source',
    limits:
      'Flash fire at 870–1100 °C, fired from 850 °C; fused silica turns to cristobalite from about 1100 °C; steel is poured to 1650 °C: ASM Handbook 15, Beeley & Smart (from memory)',
    mould:
      'from memory: 25–30 % pores in fused silica; k 0.5–1 W/(m·K); 1.05 J/(g·K) to 900 °C; bending strength 2 MPa dried, 4 MPa fired, the low end of 3 to 8',
    expansion:
      'Fused silica 0.55 × 10⁻⁶/K, alumino-silicates about 5 × 10⁻⁶/K (from memory); the sol sets without growing',
  },
};
