import { maths } from '../../maths/maths.js';
import type { Basis } from '../plans.js';
import { standardGravity } from './choke.js';
import type { MetalFamily } from './input.js';

/**
 * Velocity above which a metal's surface folds its own film in, mm/s: V = 2 (γ g/ρ)^(1/4), where inertia just beats
 * surface tension (J. Campbell, Complete Casting Handbook, ch. 2). `surfaceTension` N/m, `density` g/mm³.
 */
export const criticalVelocity = (surfaceTension: number, density: number): number =>
  2 * maths.pow((surfaceTension * 1000 * standardGravity) / density, 0.25);

const critical =
  'J. Campbell, Complete Casting Handbook, ch. 2; Runyoro and Campbell, The Foundryman, April 1992';
const list =
  'lecture notes on gating system design: 75 mm/s aluminium bronze, 250 aluminium, 500 copper and iron';

const halfMetre: Basis = { rule: 'gate velocity ≤ 0.5 m/s', source: `${critical}; ${list}` };

/** Highest mean velocity through the gate by metal family, mm/s. */
export const velocityLimits: Readonly<
  Record<MetalFamily, { readonly limit: number; readonly basis: Basis }>
> = {
  'tin-bronze': { limit: 500, basis: halfMetre },
  brass: { limit: 500, basis: halfMetre },
  copper: { limit: 500, basis: halfMetre },
  // Its alumina film folds in like aluminium's and does not melt out.
  'aluminium-bronze': { limit: 75, basis: { rule: 'gate velocity ≤ 75 mm/s', source: list } },
  aluminium: {
    limit: 500,
    basis: { rule: 'gate velocity ≤ 0.5 m/s (older list: 0.25 m/s)', source: `${critical}; ${list}` },
  },
  iron: { limit: 500, basis: halfMetre },
  zinc: {
    limit: 370,
    basis: { rule: 'V = 2 (γ g/ρ)^(1/4) = 0.37 m/s for γ 0.78 N/m, ρ 6570 kg/m³', source: critical },
  },
  other: { limit: 500, basis: halfMetre },
};
