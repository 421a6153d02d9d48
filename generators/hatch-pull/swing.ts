import { maths } from '../../core/maths/maths.js';
import type { PullState } from './levels.js';

/** Farthest that a hinged tab reaches from its pin's axis behind it, mm: at its end's edges, bevelled, rounded or sharp. */
export function swingRadius({ sizes, skin, leg }: PullState): number {
  const end = sizes.pinToEnd + skin;
  const half = sizes.tabThickness / 2 + skin;
  // The underside of an oval pull's tab has a sharp edge.
  if (leg === 0) return maths.hypot(end, half);
  return Math.max(maths.hypot(end, half - leg), maths.hypot(end - leg, half));
}
