import type { StandFacts } from './facts.js';
import type { StandMeasures } from './measure.js';

/**
 * What each thing is worth of a whole that is 1. Common practice, no source: support spoils the surface and leaves
 * scraps in the mould, what falls over does not print, heavy metal far from its feeder freezes hollow.
 */
export const standWeights = {
  /** Nothing to support: 1; a quarter of the part's mean shadow to support: 0.57; half of that for what falls over. */
  support: 0.25,
  /** No air shut in: 1; in one place, which a vent mends: 0.67; in two: 0.5; a quarter of the volume counts as one more. */
  air: 0.15,
  /** Half for standing steadily, half for a foot of 0.3 of the mean shadow; falls over: 0. */
  foot: 0.25,
  /** Heavy metal three quarters up or higher: 1; a quarter or lower: 0. */
  feed: 0.15,
  /** Level surface near the top, wide enough for the sprue: 1. */
  gate: 0.15,
  /** Lying low: near 1; as tall as the tallest way: 0. */
  height: 0.05,
} as const;

/** A foot of less than this share of the mean shadow is a point. */
const leastFoot = 0.01;

/** A part whose middle lies this share of its height inside its foot stands steadily. */
const steady = 0.08;

/** 0 to 1 by `standWeights`. @param tallest height of the tallest way to stand, mm */
export function scoreStand(m: StandMeasures, { mass, sprue }: StandFacts, tallest: number): number {
  // A convex body's shadow is a quarter of its surface in the mean (Cauchy).
  const shadow = mass.area / 4;
  const foot = m.foot / shadow;
  const stands = m.balance > 0 && foot >= leastFoot;
  return (
    ((stands ? 1 : 0.5) * standWeights.support) / (1 + (3 * m.support) / shadow) +
    standWeights.air / (1 + m.air.places / 2 + (2 * m.air.volume) / mass.volume) +
    (stands
      ? (standWeights.foot / 2) * (Math.min(1, m.balance / (steady * m.height)) + Math.min(1, foot / 0.3))
      : 0) +
    standWeights.feed * Math.min(1, Math.max(0, (m.feed - 0.25) / 0.5)) +
    standWeights.gate * Math.min(1, m.gate / ((Math.PI / 4) * sprue * sprue)) +
    standWeights.height * (1 - m.height / tallest)
  );
}
