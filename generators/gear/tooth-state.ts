import { gearGeometry } from '../../core/gear/gear-geometry.js';
import { withFlankStock, withTipStock } from '../../core/gear/gear-states.js';
import type { GearSpec } from '../../core/gear/spec.js';
import type { ToothForm } from '../../core/gear/tooth-form.js';
import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as length } from '../../core/part/dimension.js';
import type { Stock } from '../../core/part/stock.js';

export interface ToothState {
  /** The gear as drawn, without stock. */
  readonly spec: GearSpec;
  /** The tooth of the state that is built. */
  readonly form: ToothForm;
  readonly stock: Stock;
  /** Face width over which a measurement over teeth can lie, mm; for a double-helical gear one half. */
  readonly measurableWidth: number;
}

/** The gear whose flanks and tips are those of the state. */
export const builtSpec = ({ spec, stock }: ToothState): GearSpec =>
  withTipStock(withFlankStock(spec, stock.flank), stock.tip);

/** Diameters between which the flank is involute, mm. */
export const involuteLimits = (form: ToothForm) => ({
  involuteFrom: 2 * form.formRadius,
  involuteTo: 2 * (form.tipRadius - form.tipRounding),
});

/** Longer leads than this, mm, are those of a straight tooth to any bench. */
const longestLead = 1e6;

/** Helix lead and axial pitch, where the teeth are not straight. */
export function helixDimensions(spec: GearSpec): readonly Dimension[] {
  if (spec.helixAngle === 0) return [];
  const { lead, axialPitch } = gearGeometry(spec);
  if (!(Math.abs(lead) < longestLead)) return [];
  const more = { detail: true, role: 'reference' } as const;
  return [
    length('p_z', 'helix lead', lead, 'z', 'calculated', more),
    length('p_x', 'axial pitch', axialPitch, 'z', 'calculated', more),
  ];
}
