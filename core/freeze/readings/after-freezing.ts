import type { Alloy } from '../../foundry/alloys/index.js';
import { absoluteZero } from '../../units/index.js';

/**
 * Longer than calculated until a mould is moved: the mould's conductivity, on which the time depends in proportion, is
 * known to about a quarter. Common practice, no source.
 */
export const moveMargin = 1.25;

/** s from the full mould, of all its metal being solid after `solid`. */
export const moveAfter = (solid: number): number => moveMargin * solid;

/** °C: black heat, under the 525 °C at which things begin to glow (J. W. Draper, 1847, from memory). Common practice, no source. */
const blackHeat = 480;

/** Of the solidus in K: there metal has got its strength. Common practice, no source. */
const coldEnough = 0.75;

/**
 * °C that the metal's hottest must have come down to before a plaster mould is quenched: black heat, and no more than
 * three quarters of the solidus in K, some 350 °C for aluminium and 100 °C for pewter. Shells are not quenched: at that
 * temperature they may be handled.
 */
export const quenchTemperature = ({ solidus }: Pick<Alloy, 'solidus'>): number =>
  Math.min(blackHeat, coldEnough * (solidus - absoluteZero) + absoluteZero);
