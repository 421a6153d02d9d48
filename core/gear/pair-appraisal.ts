import { rackSliding } from './rack-pair.js';
import type { AnyTriedPair } from './tried-pair.js';

/** What every kind of pair has: contact, and sliding at both roots. */
export interface LineFacts {
  /** Between the axes, or from the axis to the rack's datum line, mm. */
  readonly distance: number;
  readonly contactRatio: number;
  readonly overlapRatio: number;
  readonly totalContactRatio: number;
  /** Specific sliding where contact is nearest the root of gear 1 and of its mate. */
  readonly rootSliding: readonly [gear: number, mate: number];
}

/** The facts that pairs of every kind are compared by. */
export function appraise(pair: AnyTriedPair): LineFacts {
  const { contactRatio } = pair.facts;
  // A face width is always given to the checks.
  const overlapRatio = pair.facts.overlapRatio ?? 0;
  const line = { contactRatio, overlapRatio, totalContactRatio: contactRatio + overlapRatio };
  if (pair.mesh === 'external') {
    const { gear, mate, centreDistance } = pair.facts;
    return { ...line, distance: centreDistance, rootSliding: [gear.slidingAtRoot, mate.slidingAtRoot] };
  }
  if (pair.mesh === 'internal') {
    const { pinionSliding, ringSliding, centreDistance } = pair.facts;
    return { ...line, distance: centreDistance, rootSliding: [pinionSliding[0], ringSliding[1]] };
  }
  const { facts } = pair;
  return {
    ...line,
    distance: facts.mountingDistance,
    rootSliding: [facts.pinionSliding[0], rackSliding(facts)],
  };
}
