import type { Vec2 } from '../../solid/types.js';
import type { RunningPair } from './running-pair.js';

/**
 * Which flanks touch: those that lead as the gear turns counter-clockwise and drives, those that trail, or neither, half
 * the backlash on either side.
 */
const flankSides = ['leading', 'trailing', 'midway'] as const;
export type FlankSide = (typeof flankSides)[number];

export const sideSign = (side: FlankSide): -1 | 0 | 1 =>
  side === 'leading' ? 1 : side === 'trailing' ? -1 : 0;

/** A turn about the member's own Z as it is built, rad, then a move in the pair's frame, mm. */
export interface Stand {
  readonly turn: number;
  readonly at: Vec2;
}

const quarter = Math.PI / 2;

/** How both members stand when the gear is turned by `angle`, rad, counter-clockwise. The gear's stand is its angle. */
export function standsAt(
  pair: RunningPair,
  angle: number,
  side: FlankSide,
): { readonly gear: Stand; readonly mate: Stand } {
  const { mesh, pitchRadius, backlash } = pair;
  const ratio = mesh.gear.teeth / mesh.mate.teeth;
  // What the mate lags behind where the gear's leading flanks push it, along the pitch circle.
  const lag = (sideSign(side) * backlash) / 2;
  const gear: Stand = { turn: angle, at: [0, 0] };
  if (mesh.kind === 'external') {
    const turn = Math.PI - Math.PI / mesh.mate.teeth - angle * ratio + (lag / pitchRadius) * ratio;
    return { gear, mate: { turn, at: [mesh.distance, 0] } };
  }
  if (mesh.kind === 'internal')
    return { gear, mate: { turn: (angle - lag / pitchRadius) * ratio, at: [-mesh.distance, 0] } };
  return {
    gear,
    mate: { turn: quarter, at: [mesh.distance, rackStart(pair) + pitchRadius * angle - lag] },
  };
}

/** Where the end of the rack stands at no turn: a space near its middle faces the gear's tooth. */
const rackStart = (pair: RunningPair): number => -rackPitch(pair) * Math.round(pair.mesh.mate.teeth / 2);

/** Pitch at which the mate's teeth follow: rad, of a rack mm. */
export const matePitch = (pair: RunningPair): number =>
  pair.mesh.kind === 'rack' ? rackPitch(pair) : (2 * Math.PI) / pair.mesh.mate.teeth;

export const rackPitch = ({ pitchRadius, mesh }: RunningPair): number =>
  (2 * Math.PI * pitchRadius) / mesh.gear.teeth;

/** Turns of the gear between which a rack reaches its line of centres, rad; any others. */
export function turnLimits(pair: RunningPair): readonly [least: number, most: number] {
  if (pair.mesh.kind !== 'rack') return [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  const { teeth } = pair.mesh.mate;
  const before = Math.round(teeth / 2);
  const pitch = (2 * Math.PI) / pair.mesh.gear.teeth;
  return [-(teeth - before) * pitch, before * pitch];
}
