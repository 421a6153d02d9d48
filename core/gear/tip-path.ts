import { maths } from '../maths/maths.js';
import type { FlankTable } from './flank-table.js';
import { inv } from './involute.js';

const golden = (Math.sqrt(5) - 1) / 2;

/** Where a function is least over an interval, and how much: a scan, then golden section about its lowest point. */
export function leastOver(
  f: (t: number) => number,
  from: number,
  to: number,
  scan: number,
): { readonly at: number; readonly value: number } {
  const place = (i: number) => from + ((to - from) * i) / scan;
  let best = 0;
  let value = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= scan; i++) {
    const here = f(place(i));
    if (here < value) [best, value] = [i, here];
  }
  let at = place(best);
  if (!Number.isFinite(value)) return { at, value };
  let [a, b] = [place(Math.max(0, best - 1)), place(Math.min(scan, best + 1))];
  let [c, d] = [b - golden * (b - a), a + golden * (b - a)];
  let [fc, fd] = [f(c), f(d)];
  for (let i = 0; i < 40; i++) {
    const [t, ft] = fc < fd ? [c, fc] : [d, fd];
    if (ft < value) [at, value] = [t, ft];
    if (fc < fd) {
      [b, d, fd] = [d, c, fc];
      c = b - golden * (b - a);
      fc = f(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + golden * (b - a);
      fd = f(d);
    }
  }
  return { at, value };
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
    const reach = maths.acos(Math.max(-1, cos));
    // theta: the tip point's angle at the mate's axis from the line of centres, positive where the gear turns to.
    const gap = (theta: number): number => {
      const turn = (theta + halfAngle - mateMiddle) * ratio;
      const [x, y] = [distance - radius * maths.cos(theta), radius * maths.sin(theta)];
      const r = maths.hypot(x, y);
      const profile = gear.at(r);
      if (profile === undefined) return Number.POSITIVE_INFINITY;
      return (maths.atan2(y, x) - (gearMiddle + turn) - profile.angle) * r * profile.share;
    };
    least = Math.min(least, leastOver(gap, -reach, reach, 96).value);
  }
  return least;
}
