/** An arch on two legs, built in at their feet: an eye on its base. N, mm. */

import { maths } from '../maths/maths.js';

/** Moments N·mm and forces N of an arch pulled at its crown. */
export interface ArchLoad {
  /** Moment under the pull. */
  readonly crown: number;
  /** Largest moment of the other sign, on the arch's flank. */
  readonly flank: number;
  /** Moment at the feet. */
  readonly foot: number;
  /** Force along the bar at the crown. */
  readonly thrust: number;
}

/**
 * Half ring on straight legs, both feet built in, pulled at the crown away from them. By the least strain energy in
 * bending (Castigliano; thin bar): the crown's moment M₀ and thrust H make ∫M ds and ∫M h ds vanish, h the depth under
 * the crown. Without legs H is 0.459 F, M₀ 0.151 F R and the feet's moment 0.111 F R (Roark, circular arches; from
 * memory).
 * @param radius of the centre line, mm @param leg length of each straight leg, mm
 */
export function archLoad(force: number, radius: number, leg = 0): ArchLoad {
  const [r, l] = [radius, leg];
  const q = Math.PI / 2;
  // ∫ds, ∫h ds and ∫h² ds over half the arch.
  const length = r * q + l;
  const first = r * r * (q - 1) + r * l + (l * l) / 2;
  const second = maths.pow(r, 3) * ((3 * Math.PI) / 4 - 2) + (maths.pow(r + l, 3) - maths.pow(r, 3)) / 3;
  // The pull's moment F/2 · r sin θ, and r over the legs, times 1 and h.
  const load = (force / 2) * (r * r + r * l);
  const loadFirst = (force / 2) * (maths.pow(r, 3) / 2 + r * (r * l + (l * l) / 2));
  const det = length * second - first * first;
  const crown = (load * second - loadFirst * first) / det;
  const thrust = (length * loadFirst - first * load) / det;
  const at = (angle: number): number =>
    crown + thrust * r * (1 - maths.cos(angle)) - (force / 2) * r * maths.sin(angle);
  return {
    crown: Math.abs(crown),
    // Where the moment turns: tan θ = F / 2 H.
    flank: Math.abs(at(maths.atan2(force / 2, thrust))),
    foot: Math.abs(crown + thrust * (r + l) - (force / 2) * r),
    thrust: Math.abs(thrust),
  };
}
