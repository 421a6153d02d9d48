/**
 * Brute-force envelope of the ISO 53 basic rack, for tests only. It shares no code with the program: it knows
 * a rack, rolls it round a blank and keeps what no position of the rack has removed. No involute and no
 * trochoid formula appears here.
 *
 * Transverse section, millimetres, radians. The gear's axis is the origin, a tooth is centred on +X. In the
 * gear's frame at roll angle φ the rack point (u, v), u along the pitch line and v outward from it, stands at
 *   P = (r + v) e_r(φ) + (u − r φ) e_t(φ),
 * which is rolling without slip on the reference circle of radius r.
 */

/** The same field names as the program's gear specification, so that one can be handed over as it is. */
export interface RackOracleInput {
  readonly normalModule: number;
  readonly teeth: number;
  readonly normalPressureAngle: number;
  readonly helixAngle: number;
  readonly profileShift: number;
  readonly addendum: number;
  readonly dedendum: number;
  readonly rootRadius: number;
  readonly thinning: number;
  /** Tip circle the blank was turned to, mm. */
  readonly tipDiameter: number;
}

export type ToothRegion = 'root' | 'flank' | 'tip';

export interface Deviation {
  /** Signed distance to the true boundary, mm: positive outside the metal. */
  readonly distance: number;
  /** The piece of boundary that is nearest; `flank` is everything between root and tip circle, fillet too. */
  readonly region: ToothRegion;
  /** Radius of the nearest boundary point, mm. */
  readonly radius: number;
}

export interface ProfilePoint {
  readonly radius: number;
  /** Half tooth angle at that radius. */
  readonly angle: number;
  readonly x: number;
  readonly y: number;
}

export interface RackOracle {
  readonly referenceRadius: number;
  readonly rootRadius: number;
  /** Radius of the tip, or of the point where the flanks meet if that comes first. */
  readonly tipRadius: number;
  /** The upper flank (+Y side) of the tooth on +X, root to tip, chords within `chord` of the truth. */
  readonly profile: readonly ProfilePoint[];
  /** Half the tooth's angle at a radius between root and tip circle: a minimum over all rack positions. */
  halfAngleAt(radius: number): number;
  isMetal(x: number, y: number): boolean;
  /** The crudest answer: steps the rack through `steps` positions and asks if the point lies in a rack tooth. */
  isMetalByStepping(x: number, y: number, steps?: number): boolean;
  /** Distance within the transverse section, good to about 1e-6 mm. */
  deviationAt(x: number, y: number): Deviation;
  /** Signed distance within the section, less `offset` (transverse, mm): 0 on a profile moved out by it. */
  distanceToTooth(x: number, y: number, offset?: number): number;
  /**
   * Signed shortest distance in space from a point in the section to the helical tooth surface (right or left
   * hand alike), mm: a search over the neighbouring sections, each the same profile turned by tan β / r a mm.
   */
  normalDistanceToTooth(x: number, y: number): number;
}

const golden = (Math.sqrt(5) - 1) / 2;

/** Least value of f on [lo, hi]: a scan, then a golden-section search about every low point of the scan. */
function minimum(f: (t: number) => number, lo: number, hi: number, scan: number): number {
  const at = (i: number) => lo + ((hi - lo) * i) / scan;
  const values = Array.from({ length: scan + 1 }, (_, i) => f(at(i)));
  let best = Math.min(...values);
  for (let i = 0; i <= scan; i++) {
    const here = values[i]!;
    if (here > (values[i - 1] ?? Infinity) || here > (values[i + 1] ?? Infinity)) continue;
    let a = at(Math.max(0, i - 1));
    let b = at(Math.min(scan, i + 1));
    let c = b - golden * (b - a);
    let d = a + golden * (b - a);
    let fc = f(c);
    let fd = f(d);
    // 44 steps shrink the bracket by 6e-10; the minimum is flat, so its value is far better than that.
    for (let step = 0; step < 44; step++) {
      if (fc < fd) {
        b = d;
        d = c;
        fd = fc;
        c = b - golden * (b - a);
        fc = f(c);
      } else {
        a = c;
        c = d;
        fc = fd;
        d = a + golden * (b - a);
        fd = f(d);
      }
    }
    best = Math.min(best, fc, fd);
  }
  return best;
}

/**
 * Builds the oracle. `chord` is how far the stored polyline may lie from the true profile, mm.
 * Throws RangeError when the rack's tip rounding does not fit its tip land.
 */
export function rackOracle(input: RackOracleInput, chord = 1e-6): RackOracle {
  const { normalModule: m, teeth: z, normalPressureAngle: alpha, helixAngle: beta } = input;
  const stretch = 1 / Math.cos(beta);
  const r = (m * z * stretch) / 2;
  const pitch = Math.PI * m * stretch;

  // One rack tooth in its normal section, about its own centre line. Datum line at v = x m.
  const vDatum = input.profileShift * m;
  const vTip = vDatum - input.dedendum * m;
  const rho = input.rootRadius * m;
  const vCentre = vTip + rho;
  const halfAtDatum = (Math.PI * m) / 4 + input.thinning / 2;
  const flankHalf = (v: number) => halfAtDatum + (v - vDatum) * Math.tan(alpha);
  // Centre of the rounding: a distance rho inside the flank and inside the tip line.
  const centreHalf = flankHalf(vCentre) - rho / Math.cos(alpha);
  if (centreHalf < -1e-12 * m) {
    throw new RangeError(`the rack's tip rounding ${input.rootRadius} is too large for its tip land`);
  }
  const arcEnd = Math.PI / 2 - alpha;
  const vFlankStart = vCentre - rho * Math.cos(arcEnd);

  /** Half width of the rack tooth at height v, normal section; negative below its tip. */
  const halfWidth = (v: number): number => {
    if (v < vTip) return -1;
    if (v >= vFlankStart) return flankHalf(v);
    return centreHalf + Math.sqrt(Math.max(0, rho * rho - (vCentre - v) ** 2));
  };

  // The rack tooth that cuts the upper flank stands half a pitch up the pitch line; its near side matters.
  const nearSide = (half: number) => pitch / 2 - half * stretch;
  const rootRadius = r + vTip;

  const halfAngleAt = (radius: number): number => {
    if (radius < rootRadius) return Math.PI / z;
    /** Angle at which this rack point, sweeping, crosses the circle, one crossing for each side. */
    const crossing = (v: number, half: number, side: number) => {
      const height = Math.min(1, Math.max(-1, (r + v) / radius));
      const psi = side * Math.acos(height);
      return psi + (nearSide(half) - radius * Math.sin(psi)) / r;
    };
    let least = Infinity;

    // Straight flank: every point of it no higher than the circle, swept by ψ over both crossings at once.
    if (radius > r + vFlankStart) {
      const reach = Math.acos((r + vFlankStart) / radius);
      const onFlank = (psi: number) => {
        const v = radius * Math.cos(psi) - r;
        return psi + (nearSide(flankHalf(v)) - radius * Math.sin(psi)) / r;
      };
      least = minimum(onFlank, -reach, reach, 64);
    }

    // Tip rounding, from the tip line (a = 0) as far up as the circle goes.
    if (rho === 0) return Math.min(least, crossing(vTip, centreHalf, 1), crossing(vTip, centreHalf, -1));
    const sine = Math.sqrt(Math.max(0, radius - rootRadius) / (2 * rho));
    const arcMax = Math.min(arcEnd, sine < 1 ? 2 * Math.asin(sine) : Math.PI);
    for (const side of [-1, 1]) {
      // a = arcMax (1 − s²) keeps the crossing smooth where circle and rack point just touch.
      const onArc = (s: number) => {
        const a = arcMax * (1 - s * s);
        return crossing(vCentre - rho * Math.cos(a), centreHalf + rho * Math.sin(a), side);
      };
      least = Math.min(least, minimum(onArc, 0, 1, 48));
    }
    return least;
  };

  // Where the flanks meet before the tip circle the tooth is pointed: the rack removes the rest.
  let tipRadius = input.tipDiameter / 2;
  if (halfAngleAt(tipRadius) < 0) {
    let metal = Math.max(rootRadius, Math.min(r, tipRadius));
    let air = tipRadius;
    if (halfAngleAt(metal) < 0) metal = rootRadius;
    for (let i = 0; i < 60; i++) {
      const mid = (metal + air) / 2;
      if (halfAngleAt(mid) < 0) air = mid;
      else metal = mid;
    }
    tipRadius = metal;
  }

  const pointAt = (t: number): ProfilePoint => {
    // t² because the fillet leaves the root circle tangentially: equal steps of angle there, not of radius.
    const radius = rootRadius + (tipRadius - rootRadius) * t * t;
    const angle = halfAngleAt(radius);
    return { radius, angle, x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
  };
  const profile: ProfilePoint[] = [];
  const subdivide = (t0: number, p0: ProfilePoint, t1: number, p1: ProfilePoint, depth: number): void => {
    const tm = (t0 + t1) / 2;
    const pm = pointAt(tm);
    const length = Math.hypot(p1.x - p0.x, p1.y - p0.y);
    const sag = Math.abs((pm.x - p0.x) * (p1.y - p0.y) - (pm.y - p0.y) * (p1.x - p0.x)) / (length || 1);
    if (depth >= 4 && (depth > 22 || length < chord || sag < chord / 2)) {
      profile.push(pm, p1);
      return;
    }
    subdivide(t0, p0, tm, pm, depth + 1);
    subdivide(tm, pm, t1, p1, depth + 1);
  };
  const first = pointAt(0);
  const last = pointAt(1);
  profile.push(first);
  subdivide(0, first, 1, last, 0);

  /** Into the half sector between a tooth's centre line and its space's: the gear is its mirror images. */
  const fold = (x: number, y: number) => {
    const radius = Math.hypot(x, y);
    const step = (2 * Math.PI) / z;
    const angle = Math.atan2(y, x);
    return { radius, angle: Math.abs(angle - step * Math.round(angle / step)) };
  };

  const isMetal = (x: number, y: number): boolean => {
    const { radius, angle } = fold(x, y);
    if (radius <= rootRadius) return true;
    return radius <= tipRadius && angle <= halfAngleAt(radius);
  };

  const isMetalByStepping = (x: number, y: number, steps = 20_000): boolean => {
    const radius = Math.hypot(x, y);
    if (radius > input.tipDiameter / 2) return false;
    if (radius <= rootRadius) return true;
    const angle = Math.atan2(y, x);
    const reach = Math.acos(rootRadius / radius);
    for (let i = 0; i <= steps; i++) {
      const phi = angle - reach + (2 * reach * i) / steps;
      const v = radius * Math.cos(angle - phi) - r;
      const u = radius * Math.sin(angle - phi) + r * phi;
      const fromTooth = Math.abs((((u % pitch) + pitch) % pitch) - pitch / 2);
      if (fromTooth < halfWidth(v) * stretch) return false;
    }
    return true;
  };

  const arcDistance = (px: number, py: number, radius: number, from: number, to: number): number => {
    const angle = Math.atan2(py, px);
    const nearest = Math.min(to, Math.max(from, angle));
    return Math.hypot(px - radius * Math.cos(nearest), py - radius * Math.sin(nearest));
  };

  const deviationAt = (x: number, y: number): Deviation => {
    const { radius, angle } = fold(x, y);
    const px = radius * Math.cos(angle);
    const py = radius * Math.sin(angle);
    let least = arcDistance(px, py, rootRadius, first.angle, Math.max(first.angle, Math.PI / z));
    let region: ToothRegion = 'root';
    let at = rootRadius;
    const toTip = arcDistance(px, py, tipRadius, 0, Math.max(0, last.angle));
    if (toTip < least) {
      least = toTip;
      region = 'tip';
      at = tipRadius;
    }
    // Nearest point first by vertices within reach of the radius, then on the chords beside them.
    let lo = 0;
    let hi = profile.length - 1;
    while (hi - lo > 1) {
      const mid = (lo + hi) >> 1;
      if (profile[mid]!.radius < radius) lo = mid;
      else hi = mid;
    }
    const tryChord = (i: number) => {
      const a = profile[i]!;
      const b = profile[i + 1]!;
      const dx = b.x - a.x;
      const dy = b.y - a.y;
      const square = dx * dx + dy * dy;
      const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((px - a.x) * dx + (py - a.y) * dy) / square));
      const d = Math.hypot(px - a.x - t * dx, py - a.y - t * dy);
      if (d < least) {
        least = d;
        region = 'flank';
        at = a.radius + t * (b.radius - a.radius);
      }
    };
    for (let i = lo; i >= 0 && radius - profile[i + 1]!.radius < least; i--) tryChord(i);
    for (let i = lo + 1; i + 1 < profile.length && profile[i]!.radius - radius < least; i++) tryChord(i);
    return { distance: isMetal(x, y) ? -least : least, region, radius: at };
  };

  const distanceToTooth = (x: number, y: number, offset = 0): number => deviationAt(x, y).distance - offset;

  const normalDistanceToTooth = (x: number, y: number): number => {
    const inSection = distanceToTooth(x, y);
    if (beta === 0) return inSection;
    const turn = Math.tan(beta) / r;
    const squareAt = (height: number) => {
      const cos = Math.cos(turn * height);
      const sin = Math.sin(turn * height);
      return height * height + distanceToTooth(x * cos - y * sin, x * sin + y * cos) ** 2;
    };
    const reach = Math.abs(inSection);
    return Math.sign(inSection) * Math.sqrt(minimum(squareAt, -reach, reach, 8));
  };

  return {
    referenceRadius: r,
    rootRadius,
    tipRadius,
    profile,
    halfAngleAt,
    isMetal,
    isMetalByStepping,
    deviationAt,
    distanceToTooth,
    normalDistanceToTooth,
  };
}
