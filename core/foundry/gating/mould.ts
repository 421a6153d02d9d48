import type { Investment } from '../investment.js';

/**
 * The mould as Chvorinov's rule wants it (`FreezingProperties`): W/(m·K), kg/m³, J/(kg·K). A shell takes heat 3 to 4
 * times as fast as plaster, so a thin section has that much less time to fill. The rule's half-infinite mould holds
 * until heat comes through the shell, after t²/4α, some 30 s for 7 mm; from then on a bare shell radiates.
 */
export const gatingMould = ({
  mould,
}: Pick<Investment, 'mould'>): {
  readonly conductivity: number;
  readonly density: number;
  readonly heat: number;
} => ({
  conductivity: mould.conductivity * 1e3,
  density: mould.density * 1e6,
  heat: mould.specificHeat * 1e3,
});
