import { type Bolt, fastenerFitting, soldLength } from '../../core/hardware/index.js';
import type { Fitting } from '../../core/part/contract.js';

/** A deck as thick as this is what the screws of the cut list are long enough for, mm. */
const usualDeck = 20;

/** Length of a screw as sold that goes through so much of a fitting, mm, its deck, washer and nut. */
export function deckScrewLength(screw: Bolt, through: number): number {
  const { washerDiameter, nutHeight } = screw.hexagon;
  const washer = 0.1 * washerDiameter;
  return soldLength(screw, through + usualDeck + washer + nutHeight + 2 * screw.pitch);
}

/** Countersunk screws right through a fitting and its deck, with washers and nuts over a backing plate. */
export const deckFittings = (screw: Bolt, count: number, through: number): readonly Fitting[] => [
  fastenerFitting(screw, count, deckScrewLength(screw, through), 'countersunk', 'stainless'),
  { quantity: count, text: `stainless nut and washer ${screw.name}, over a backing plate` },
];
