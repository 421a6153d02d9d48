import { maths } from '../maths/maths.js';
import { ToleranceError } from '../solid/errors.js';
import type { HelixStretch } from './helix.js';
import type { ToothForm } from './tooth-form.js';
import {
  bendsTwice,
  type Chord,
  type CurvePoint,
  type PitchOutline,
  planPitch,
  shareAlong,
} from './transverse-profile.js';

/** A cross-section of the toothed body: height mm and turn rad. */
export interface Layer {
  readonly z: number;
  readonly turn: number;
}

/** The sections to loft, and for each gap between them, by chord of the pitch, which diagonal splits the quad. */
export interface LayerPlan {
  readonly pitch: PitchOutline;
  readonly layers: readonly Layer[];
  /** `diagonals[layer][chord]`: true joins (layer, i) with (layer + 1, i + 1). */
  readonly diagonals: readonly (readonly boolean[])[];
  /** Side triangles of the loft. */
  readonly triangles: number;
}

/** Kept back for what lies between the places looked at. */
const slack = 0.99;

/**
 * Shares of the tolerance tried for the outline; the rest is the helix's. The cheapest mesh wins, and the likeliest is
 * tried first, so that the others are soon seen to be dearer.
 */
const shares = [0.7, 1, 0.9, 0.8, 0.6, 0.5];

/** Shares of the tolerance tried for the strips where an outline is bent so that chord and strip add up. */
const strips = [0.7, 0.9, 0.8, 0.55, 0.4];

/**
 * Chooses outline points and sections so that the triangles between them stay within `tolerance` (mm) of the
 * exact helicoid, with close to the fewest triangles.
 */
export function planLayers(
  form: ToothForm,
  stretches: readonly HelixStretch[],
  tolerance: number,
): LayerPlan {
  const straight = stretches.every((s) => s.turn(s.z0) === s.turn(s.z1));
  const rate = leastRate(stretches);
  const limit = tolerance * slack;
  let best: LayerPlan | undefined;
  for (const pitch of outlines(form, straight ? tolerance : limit, straight, rate)) {
    // The outline alone may use up the tolerance as it is looked at here; the next one is finer.
    if (!straight && !outlineHolds(pitch, rate, limit)) continue;
    const strip = 2 * pitch.points.length * pitch.teeth;
    // What would make no cheaper mesh than the best so far is not looked at further.
    const most = best ? Math.ceil(best.triangles / strip) - 1 : Number.POSITIVE_INFINITY;
    const layers = straight
      ? stretches.flatMap((s, i) => ends(s).slice(i === 0 ? 0 : 1))
      : divideAll(pitch, stretches, limit, most);
    if (layers) best = { pitch, layers, diagonals: [], triangles: strip * (layers.length - 1) };
  }
  if (!best) throw new ToleranceError(`no outline holds ${tolerance} mm`);
  const { pitch, layers, triangles } = best;
  const diagonals = layers
    .slice(0, -1)
    .map((lower, k) => chooseDiagonals(pitch, lower, layers[k + 1] as Layer, stretches));
  return { pitch, layers, diagonals, triangles };
}

/** Outlines worth trying; of those of as many chords only the first. */
function* outlines(
  form: ToothForm,
  tolerance: number,
  straight: boolean,
  rate: number,
): Iterable<PitchOutline> {
  if (straight) {
    yield planPitch(form, tolerance).sample();
    return;
  }
  const trials = shares.map((share) => ({ share, strip: 0 }));
  if (rate > 0 && bendsTwice(form)) {
    trials.unshift(...strips.flatMap((strip) => [0.97, 0.9].map((share) => ({ share, strip }))));
  }
  for (const parted of [false, true]) {
    const tried = new Set<number>();
    for (const { share, strip } of trials) {
      const { size, sample } = planPitch(form, tolerance * share, { rate, parted, strip });
      if (tried.has(size)) continue;
      tried.add(size);
      yield sample();
    }
  }
}

/** Sections over all stretches, up to `most` gaps between them; undefined when more are needed. */
function divideAll(
  pitch: PitchOutline,
  stretches: readonly HelixStretch[],
  tolerance: number,
  most: number,
): readonly Layer[] | undefined {
  const layers: Layer[] = [];
  for (const [i, stretch] of stretches.entries()) {
    // The stretches still to come need a gap each.
    const left = most - Math.max(0, layers.length - 1) - (stretches.length - 1 - i);
    const divided = divide(pitch, stretch, tolerance, left);
    if (!divided) return undefined;
    layers.push(...(i === 0 ? divided : divided.slice(1)));
  }
  return layers;
}

const ends = ({ z0, z1, turn }: HelixStretch): readonly Layer[] =>
  [z0, z1].map((z) => ({ z, turn: turn(z) }));

/** Far more sections than any sound tooth needs. */
const mostLayers = 100_000;

/** The fewest evenly spaced sections over a stretch that hold the tolerance; undefined for more than `most` gaps. */
function divide(
  pitch: PitchOutline,
  stretch: HelixStretch,
  tolerance: number,
  most: number,
): readonly Layer[] | undefined {
  const at = (k: number, n: number): Layer => {
    const z = k === n ? stretch.z1 : stretch.z0 + ((stretch.z1 - stretch.z0) * k) / n;
    return { z, turn: stretch.turn(z) };
  };
  const holds = (n: number): boolean => {
    for (let k = 0; k < n; k++) {
      if (!holdsBetween(pitch, at(k, n), at(k + 1, n), stretch, tolerance)) return false;
      // A plain helix is the same in every section.
      if (k === 0 && isUniform(stretch)) return true;
    }
    return true;
  };
  if (most < 1 || (most < mostLayers && !holds(most))) return undefined;
  let fails = 0;
  let works = 1;
  while (works < most && !holds(works)) {
    if (works > mostLayers) return undefined;
    fails = works;
    works = Math.min(2 * works, most);
  }
  while (works - fails > 1) {
    const middle = (works + fails) >> 1;
    if (holds(middle)) works = middle;
    else fails = middle;
  }
  return Array.from({ length: works + 1 }, (_, k) => at(k, works));
}

/** Turn a mm of rise that all sections have at least, rad/mm; 0 where the helix is rounded off. */
const leastRate = (stretches: readonly HelixStretch[]): number =>
  Math.min(
    ...stretches.map((s) => (isUniform(s) ? Math.abs(s.turn(s.z1) - s.turn(s.z0)) / (s.z1 - s.z0) : 0)),
  );

const isUniform = ({ z0, z1, turn }: HelixStretch): boolean =>
  Math.abs(turn(z0 + (z1 - z0) / 4) - (0.75 * turn(z0) + 0.25 * turn(z1))) < 1e-12;

/** Whether the chords alone hold. */
function outlineHolds(pitch: PitchOutline, rate: number, tolerance: number): boolean {
  const here = { z: 0, turn: 0 };
  const level = { z0: 0, z1: 0, turn: () => 0 };
  let holds = true;
  forEachChord(
    pitch,
    here,
    here,
    level,
    (at) => {
      holds = at <= tolerance;
      return holds;
    },
    rate,
  );
  return holds;
}

/** Whether the quads between two sections hold, each by its better diagonal. */
function holdsBetween(
  pitch: PitchOutline,
  lower: Layer,
  upper: Layer,
  stretch: HelixStretch,
  tolerance: number,
): boolean {
  let holds = true;
  forEachChord(pitch, lower, upper, stretch, (rising, falling) => {
    holds = Math.min(rising, falling) <= tolerance;
    return holds;
  });
  return holds;
}

function chooseDiagonals(
  pitch: PitchOutline,
  lower: Layer,
  upper: Layer,
  stretches: readonly HelixStretch[],
): readonly boolean[] {
  const stretch = stretches.find((s) => s.z0 <= lower.z && upper.z <= s.z1 + 1e-9) as HelixStretch;
  const choice: boolean[] = [];
  forEachChord(pitch, lower, upper, stretch, (rising, falling) => choice.push(rising <= falling) > 0);
  return choice;
}

const quarters = [0.25, 0.5, 0.75] as const;

/**
 * Deviation of the quad over each chord from the helicoid, mm, for either diagonal; ends when `visit` gives false.
 * Looked at on the sides, inside both triangles, and along chord and diagonals where the curve bends: a chord may end in
 * the beginning of a fillet.
 */
function forEachChord(
  pitch: PitchOutline,
  lower: Layer,
  upper: Layer,
  stretch: HelixStretch,
  visit: (rising: number, falling: number) => boolean,
  rate = (upper.turn - lower.turn) / (upper.z - lower.z),
): void {
  const height = upper.z - lower.z;
  for (const chord of pitch.chords) {
    const at = (s: number, t: number, rises: boolean): number => {
      // Turned back to where the chord stands: the surface is the same curve at every height.
      const turn = stretch.turn(lower.z + t * height);
      return offSurface(chord, rate, s, t, rises, lower.turn - turn, upper.turn - turn);
    };
    let sides = 0;
    let rising = 0;
    let falling = 0;
    for (const f of quarters) {
      sides = Math.max(sides, at(0, f, true), at(1, f, true));
      const low = f / 2;
      const high = (1 + f) / 2;
      rising = Math.max(rising, at(f, low, true), at(high, f, true), at(low, f, true), at(f, high, true));
      falling = Math.max(
        falling,
        Math.max(at(f, 1 - low, false), at(high, 1 - f, false)),
        Math.max(at(low, 1 - f, false), at(f, 1 - high, false)),
      );
    }
    for (let k = 1; k + 1 < chord.curve.length; k++) {
      const { along } = chord.curve[k] as CurvePoint;
      sides = Math.max(sides, at(along, 0, true));
      rising = Math.max(rising, at(along, along, true));
      falling = Math.max(falling, at(along, 1 - along, false));
    }
    if (!visit(Math.max(sides, rising), Math.max(sides, falling))) return;
  }
}

/**
 * Distance of a point of the quad over a chord from the helicoid through the exact curve there, mm, to first order in it.
 * The point is at s along the chord and t along the axis, both from 0 to 1; the quad is split by the diagonal that rises
 * along the chord or by the other, and its lower and upper side are turned by `low` and `high`, rad, to the height of t.
 * Numbers alone: this is the inner loop.
 */
function offSurface(
  { from: a, to: b, curve }: Chord,
  rate: number,
  s: number,
  t: number,
  rises: boolean,
  low: number,
  high: number,
): number {
  // Shares of the four corners: those of the triangle the point is in.
  const before = rises ? s < t : s + t <= 1;
  const aLow = rises ? 1 - (before ? t : s) : before ? 1 - s - t : 0;
  const bLow = rises ? (before ? 0 : s - t) : before ? s : 1 - t;
  const bHigh = rises ? (before ? s : t) : before ? 0 : s + t - 1;
  const aHigh = 1 - aLow - bLow - bHigh;
  const lowX = aLow * a[0] + bLow * b[0];
  const lowY = aLow * a[1] + bLow * b[1];
  const highX = aHigh * a[0] + bHigh * b[0];
  const highY = aHigh * a[1] + bHigh * b[1];
  const cl = maths.cos(low);
  const sl = maths.sin(low);
  const ch = maths.cos(high);
  const sh = maths.sin(high);
  const x = cl * lowX - sl * lowY + ch * highX - sh * highY;
  const y = sl * lowX + cl * lowY + sh * highX + ch * highY;

  const here = shareAlong(a, b, x, y);
  let k = 0;
  while (k + 2 < curve.length && (curve[k + 1] as CurvePoint).along < here) k++;
  const p = curve[k] as CurvePoint;
  const q = curve[k + 1] as CurvePoint;
  const f = q.along > p.along ? Math.min(1, Math.max(0, (here - p.along) / (q.along - p.along))) : 0.5;
  const mx = p.nx + f * (q.nx - p.nx);
  const my = p.ny + f * (q.ny - p.ny);
  const length = Math.sqrt(mx * mx + my * my);
  const nx = mx / length;
  const ny = my / length;
  // Between two of its points the curve stands off their chord by h² κ f (1 − f) / 2, and h κ is the normal's turn.
  const gap = Math.sqrt((q.x - p.x) ** 2 + (q.y - p.y) ** 2);
  const bulge = (gap * (p.nx * q.ny - p.ny * q.nx) * f * (1 - f)) / 2;
  const off = (x - p.x - f * (q.x - p.x)) * nx + (y - p.y - f * (q.y - p.y)) * ny - bulge;
  // The helicoid's own normal leans out of the transverse plane, which shortens the distance.
  const lean = rate * (x * ny - y * nx);
  return Math.abs(off) / Math.sqrt(1 + lean * lean);
}
