import { maths } from '../maths/maths.js';
import { bendAt, joinCurves, planChain } from '../solid/sample-chain.js';
import type { PlaneCurve } from '../solid/sample-curve.js';
import type { Vec2 } from '../solid/types.js';
import type { ToothForm } from './tooth-form.js';

/** A point of the exact outline and its outward normal. */
export interface CurvePoint {
  readonly x: number;
  readonly y: number;
  readonly nx: number;
  readonly ny: number;
  /** How far along the chord it stands, as a share of it. */
  readonly along: number;
}

/** One chord of the sampled tooth: its ends, and the exact curve between them, both included. */
export interface Chord {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly curve: readonly CurvePoint[];
}

/**
 * One pitch of the gear's outline, counter-clockwise, from a corner of the tooth on +X to the same corner of the next.
 * `chords[i]` runs from `points[i]` to the next point, the last one to the next tooth's first.
 */
export interface PitchOutline {
  readonly teeth: number;
  readonly points: readonly Vec2[];
  readonly chords: readonly Chord[];
}

const arc = (radius: number, from: number, to: number): PlaneCurve => ({
  from,
  to,
  at: (t) => [radius * maths.cos(t), radius * maths.sin(t)],
});

const mirrored = (curve: PlaneCurve): PlaneCurve => ({
  from: curve.to,
  to: curve.from,
  at: (t) => {
    const [x, y] = curve.at(t);
    return [x, -y];
  },
});

export interface PitchOptions {
  /**
   * Turn of the section along the axis, rad/mm: on a helicoid a distance in the section is longer than the one along
   * the surface's normal, by 1 / cos of the angle between them.
   */
  readonly rate?: number;
  /**
   * Share of the tolerance that a strip of the helix takes up at the tip cylinder. Where the surface is bent one way
   * along both chord and helix, more than an involute helicoid is, the two add up, and the chords get what is left.
   */
  readonly strip?: number;
  /** Ends chords where flank and fillet meet. A chord across such a joint bends badly along a helix. */
  readonly parted?: boolean;
}

/** How many points one pitch takes, and on demand the pitch. */
export interface PitchPlan {
  readonly size: number;
  readonly sample: () => PitchOutline;
}

/** One pitch with the fewest chords that stay within `tolerance` (mm) of the exact outline. */
export function planPitch(
  form: ToothForm,
  tolerance: number,
  { rate = 0, parted = false, strip = 0 }: PitchOptions = {},
): PitchPlan {
  const share = ([x, y]: Vec2, [nx, ny]: Vec2, bend: () => number): number => {
    const lean = 1 / maths.hypot(1, rate * (x * ny - y * nx));
    const arm = x * nx + y * ny;
    return strip > 0 && arm > 0
      ? lean / leftBeside((strip * lean * arm) / form.tipRadius, bend() * arm)
      : lean;
  };
  const runs = smoothRuns(form, parted).map(({ curves, symmetric }) => ({
    curves,
    plan: planChain(curves, tolerance, { symmetric, ...(rate === 0 ? {} : { share }) }),
  }));
  return {
    size: runs.reduce((sum, { plan }) => sum + plan.chords, 0),
    sample: () => {
      const points: Vec2[] = [];
      const chords: Chord[] = [];
      for (const { curves, plan } of runs) {
        const { points: sampled, parameters } = plan.sample();
        const curve = joinCurves(curves);
        for (let i = 0; i + 1 < sampled.length; i++) {
          points.push(sampled[i] as Vec2);
          chords.push(chordBetween(curve, parameters[i] as number, parameters[i + 1] as number));
        }
      }
      return { teeth: form.teeth, points, chords };
    },
  };
}

/**
 * Share of the tolerance left for a chord where a strip takes up `strip` of it. The surface's second fundamental form in
 * chord and strip is a, c and √(a c / k), a diagonal errs by a + c − 2 √(a c / k), and k is 1 on an involute helicoid,
 * where one over the curvature is the arm of the normal about the axis.
 * @param k curvature of the section times that arm
 */
function leftBeside(strip: number, k: number): number {
  if (k <= 1) return 1;
  const root = Math.sqrt(strip / k) + Math.sqrt(Math.max(0, 1 - strip * (1 - 1 / k)));
  return Math.min(1, Math.max(leastLeft, root * root));
}
const leastLeft = 0.05;

/** Whether some of the outline is bent more than an involute helicoid, so that chords and strips share the tolerance. */
export const bendsTwice = (form: ToothForm): boolean =>
  form.curves.some((curve) => {
    const { x, y, nx, ny } = curvePoint(joinCurves([curve]), 0.5, [0, 0], [1, 0]);
    return bendAt(curve, 0.5) * (x * nx + y * ny) > 1.05;
  });

/** Curves that pass smoothly into each other, from one corner of the outline to the next. */
interface SmoothRun {
  readonly curves: readonly PlaneCurve[];
  /** Its own mirror image. */
  readonly symmetric: boolean;
}

interface Piece {
  readonly curve: PlaneCurve;
  readonly land?: 'tip' | 'root';
}

/** Directions that differ by more than this, rad, make a corner. */
const cornerAngle = 0.05;
/** Lands that the tooth uses up altogether (full rounding of tip or root) are shorter than this, mm. */
const leastLand = 1e-5;

/** One pitch of the outline from a corner on, counter-clockwise, parted at its corners; with none, at the tip land. */
function smoothRuns(form: ToothForm, parted: boolean): readonly SmoothRun[] {
  const pitch = (2 * Math.PI) / form.teeth;
  const down = form.curves.map((curve): Piece => ({ curve }));
  const up = [...down].reverse().map(({ curve }): Piece => ({ curve: mirrored(curve) }));
  const tipLand = arc(form.tipRadius, -form.tipHalfAngle, form.tipHalfAngle);
  const rootLand = arc(form.rootRadius, form.rootAngle, pitch - form.rootAngle);
  const round: readonly Piece[] = [
    ...up,
    ...(isLong(tipLand) ? [{ curve: tipLand, land: 'tip' } as const] : []),
    ...down,
    ...(isLong(rootLand) ? [{ curve: rootLand, land: 'root' } as const] : []),
  ];
  const count = round.length;
  const at = (i: number): Piece => {
    const piece = round[i % count] as Piece;
    return i < count ? piece : { ...piece, curve: turnedCurve(piece.curve, pitch) };
  };
  // Ends after which there is a corner.
  let breaks = round
    .map((_, i) => i)
    .filter((i) => isCorner(at(i).curve, at(i + 1).curve) || (parted && isBend(at(i), at(i + 1))));
  if (breaks.length === 0) {
    const land = round.findIndex((piece) => piece.land === 'tip');
    breaks = land < 0 ? [up.length - 1] : [land - 1, land];
  }
  return breaks.map((after, k) => {
    const until = breaks[k + 1] ?? (breaks[0] as number) + count;
    const pieces = Array.from({ length: until - after }, (_, i) => at(after + 1 + i));
    const middle = pieces.length % 2 === 1 ? pieces[(pieces.length - 1) / 2]?.land : undefined;
    return { curves: pieces.map((piece) => piece.curve), symmetric: middle !== undefined };
  });
}

function isLong({ from, to, at }: PlaneCurve): boolean {
  const [a, b] = [at(from), at(to)];
  return maths.hypot(b[0] - a[0], b[1] - a[1]) >= leastLand;
}

function isCorner(before: PlaneCurve, after: PlaneCurve): boolean {
  const direction = ({ from, to, at }: PlaneCurve, f: number): number => {
    const [a, b] = [at(from + f * (to - from)), at(from + (f + 1e-5) * (to - from))];
    return maths.atan2(b[1] - a[1], b[0] - a[0]);
  };
  const turn = direction(after, 0) - direction(before, 1 - 1e-5);
  return Math.abs(turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI))) > cornerAngle;
}

/** Whether one curves to the left and the other to the right; lands apart, which are never a flank. */
function isBend(before: Piece, after: Piece): boolean {
  const side = ({ curve: { from, to, at } }: Piece): number => {
    const [a, m, b] = [at(from), at((from + to) / 2), at(to)];
    return Math.sign((m[0] - a[0]) * (b[1] - a[1]) - (m[1] - a[1]) * (b[0] - a[0]));
  };
  return before.land === undefined && after.land === undefined && side(before) !== side(after);
}

const turnedCurve = ({ from, to, at }: PlaneCurve, angle: number): PlaneCurve => {
  const [c, s] = [maths.cos(angle), maths.sin(angle)];
  return {
    from,
    to,
    at: (t) => {
      const [x, y] = at(t);
      return [c * x - s * y, s * x + c * y];
    },
  };
};

/** Parts into which the curve over a chord is divided, each side of a joint. */
const parts = 8;

/** The curve over a chord of joined curves, whose joints stand at whole parameters. */
function chordBetween(curve: PlaneCurve, t0: number, t1: number): Chord {
  const joints = Array.from({ length: Math.ceil(t1) - Math.floor(t0) }, (_, i) => Math.floor(t0) + i);
  const inside = joints.filter((t) => t > t0 + 1e-6 && t < t1 - 1e-6);
  const knots = [t0, ...inside, t1];
  const rows = knots.slice(1).flatMap((end, i) => {
    const start = knots[i] as number;
    return Array.from({ length: parts }, (_, k) => start + ((end - start) * k) / parts);
  });
  const [from, to] = [curve.at(t0), curve.at(t1)];
  return { from, to, curve: [...rows, t1].map((t) => curvePoint(curve, t, from, to)) };
}

/** How far along the line from a to b a point stands, as a share of it. */
export function shareAlong(a: Vec2, b: Vec2, x: number, y: number): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  return ((x - a[0]) * dx + (y - a[1]) * dy) / (dx * dx + dy * dy);
}

function curvePoint(curve: PlaneCurve, t: number, from: Vec2, to: Vec2): CurvePoint {
  const step = 1e-5;
  const [x, y] = curve.at(t);
  const [ax, ay] = curve.at(Math.max(curve.from, t - step));
  const [bx, by] = curve.at(Math.min(curve.to, t + step));
  const length = maths.hypot(bx - ax, by - ay);
  return {
    x,
    y,
    nx: (by - ay) / length,
    ny: (ax - bx) / length,
    along: shareAlong(from, to, x, y),
  };
}

/** The whole outline, turned by `angle` (rad), counter-clockwise. */
export function wholeOutline(pitch: PitchOutline, angle = 0): Vec2[] {
  const outline: Vec2[] = [];
  for (let k = 0; k < pitch.teeth; k++) {
    const turn = angle + (2 * Math.PI * k) / pitch.teeth;
    const [c, s] = [maths.cos(turn), maths.sin(turn)];
    for (const [x, y] of pitch.points) outline.push([c * x - s * y, s * x + c * y]);
  }
  return outline;
}
