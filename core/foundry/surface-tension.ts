/** What keeps metal out of sharp corners and thin slots. */
import type { AlloyFamily } from './alloys/index.js';
import { standardGravity } from './gating/choke.js';
import type { Basis } from './plans.js';

/**
 * N/m, liquid in air near its melting point (T. Iida and R. I. L. Guthrie, The Physical Properties of Liquid Metals,
 * 1988, from memory: Cu 1.30, Zn 0.78, Sn 0.55, Ag 0.92; grey iron 1.0 with its sulphur). Aluminium's 0.87 counts twice:
 * its oxide skin bears about as much again (J. Campbell, Complete Casting Handbook, from memory).
 */
export const surfaceTension: Readonly<Record<AlloyFamily, number>> = {
  copper: 1.3,
  aluminium: 1.74,
  zinc: 0.78,
  iron: 1,
  tin: 0.55,
  silver: 0.92,
};

/**
 * Radius, mm, to which a sharp edge of the mould is filled under `head` mm of metal that does not wet it: γ/(ρ g h), one
 * of the two curvatures being none (Laplace). Half of the thinnest slot that fills at all. `tension` N/m, `density` g/mm³.
 */
export const edgeRadius = (tension: number, density: number, head: number): number =>
  (tension * 1e3) / (density * standardGravity * head);

export const edgeBasis: Basis = {
  rule: 'r = γ/(ρ g h) under the cup’s level; γ of copper alloys 1.3 N/m, iron 1.0, silver 0.92, zinc 0.78, tin 0.55, aluminium 0.87, twice for its skin',
  source:
    'Laplace; T. Iida and R. I. L. Guthrie, 1988; skin: J. Campbell, Complete Casting Handbook (from memory)',
};
