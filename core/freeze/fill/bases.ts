import type { Basis } from '../../foundry/plans.js';
import { marginLimit } from './thin-places.js';

/** Rules and sources of the filling. */
export const fillBases: Readonly<
  Record<'fillingFlow' | 'fillingAir' | 'fillingOrder' | 'misrunMargin' | 'leastMargin', Basis>
> = {
  fillingFlow: {
    rule: 'Bernoulli from the cup, kept full, to each gate or to the level over it; losses of entry 0.25, taper 0.05, knees, steps, friction and outlet in place of a discharge coefficient; no faster than the plan’s pouring time',
    source:
      'Weisbach (knees), Borda and Carnot, Blasius; F. M. White, Fluid Mechanics (from memory); pouring time: the gating plan’s, the longest',
  },
  fillingAir: {
    rule: 'as much air leaves as metal comes: pipe friction and 1.5 velocity heads in each vent; without vents past the metal in the sprue',
    source:
      'Hagen and Poiseuille; flooding: G. B. Wallis, One-dimensional Two-phase Flow, 1969 (from memory); what the mould lets through is not counted',
  },
  fillingOrder: {
    rule: 'metal goes to the lowest place that it can come to; no momentum, no splashing, no surface tension',
    source: 'hydrostatics; the level is one for all castings of a mould',
  },
  misrunMargin: {
    rule: '1/Σ Δt/t_stop along the way of the metal that comes first; t_stop: 0.3 solid',
    source: 'M. C. Flemings, Solidification Processing, 1974, fluidity x = v t_stop (from memory)',
  },
  leastMargin: {
    rule: `time to freeze ≥ ${marginLimit} × time to fill`,
    source: 'common practice, no source',
  },
};
