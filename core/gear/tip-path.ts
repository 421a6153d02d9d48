import type { FlankTable } from './flank-table.js';
import { inv } from './involute.js';

const golden = (Math.sqrt(5) - 1) / 2;

/** Least value of a function over an interval: a scan, then golden section about its lowest point. */
export function leastOver(f: (t: number) => number, from: number, to: number, scan: number): number {
  const at = (i: number) => from + ((to - from) * i) / scan;
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= scan; i++) {
    const value = f(at(i));
    if (value < least) [best, least] = [i, value];
  }
  if (!Number.isFinite(least)) return least;
  let [a, b] = [at(Math.max(0, best - 1)), at(Math.min(scan, best + 1))];
  for (let i = 0; i < 40; i++) {
    const [c, d] = [b - golden * (b - a), a + golden * (b - a)];
    const [fc, fd] = [f(c), f(d)];
    least = Math.min(least, fc, fd);
    if (fc < fd) b = d;
    else a = c;
  }
  return least;
}

/**
 * Least gap, mm along the profile's normal, between a gear's tooth and the tip of its mate as the two run with the
 * flanks touching; below 0 the tip cuts in. The mate's tip points are carried round its axis and looked at from the
 * gear, so it holds on flank and fillet, undercut or not. On the flank the gap is 0 where tip and flank are in contact.
 * `distance` is the centre distance, mm, `alphaWt` the working pressure angle there.
 */
export function tipGap(gear: FlankTable, mate: FlankTable, distance: number, alphaWt: number): number {
  const ratio = mate.teeth / gear.teeth;
  // With the flanks touching at the pitch point the middle of the gear's tooth stands this far below the line of
  // centres and the middle of the mate's above it, seen from the mate.
  const gearMiddle = inv(alphaWt) - gear.baseHalfAngle;
  const mateMiddle = mate.baseHalfAngle - inv(alphaWt);
  let least = Number.POSITIVE_INFINITY;
  for (const [radius, halfAngle] of mate.tip) {
    const cos = (distance ** 2 + radius ** 2 - gear.tipRadius ** 2) / (2 * distance * radius);
    if (cos >= 1) continue;
    const reach = Math.acos(Math.max(-1, cos));
    // theta: the tip point's angle at the mate's axis from the line of centres, positive where the gear turns to.
    const gap = (theta: number): number => {
      const turn = (theta + halfAngle - mateMiddle) * ratio;
      const [x, y] = [distance - radius * Math.cos(theta), radius * Math.sin(theta)];
      const r = Math.hypot(x, y);
      const profile = gear.at(r);
      if (profile === undefined) return Number.POSITIVE_INFINITY;
      return (Math.atan2(y, x) - (gearMiddle + turn) - profile.angle) * r * profile.share;
    };
    least = Math.min(least, leastOver(gap, -reach, reach, 96));
  }
  return least;
}
