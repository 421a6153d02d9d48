/** How far the triangles between two sections of a toothed body stand off the exact helicoid, chord by chord. */
import { maths } from '../maths/maths.js';
import type { HelixStretch } from './helix.js';
import { type Chord, type CurvePoint, type PitchOutline, shareAlong } from './transverse-profile.js';

/** A cross-section of the toothed body: height mm and turn rad. */
export interface Layer {
  readonly z: number;
  readonly turn: number;
}

/** Whether the chords alone hold. */
export function outlineHolds(pitch: PitchOutline, rate: number, tolerance: number): boolean {
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
export function holdsBetween(
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

/** For each chord whether the diagonal that rises along it is the better one. */
export function chooseDiagonals(
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
  const turnsAt = (t: number): Turns => {
    // Turned back to where the chord stands: the surface is the same curve at every height.
    const turn = stretch.turn(lower.z + t * (upper.z - lower.z));
    return turnsBy(lower.turn - turn, upper.turn - turn);
  };
  // The same few heights are looked at on every chord.
  const known = new Map<number, Turns>();
  for (const chord of pitch.chords) {
    const at = (s: number, t: number, rises: boolean): number => {
      let turns = known.get(t);
      if (!turns) {
        turns = turnsAt(t);
        if ((8 * t) % 1 === 0) known.set(t, turns);
      }
      return offSurface(chord, rate, s, t, rises, turns);
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

/** Cosines and sines of the turns, rad, of a quad's lower and upper side. */
interface Turns {
  readonly cl: number;
  readonly sl: number;
  readonly ch: number;
  readonly sh: number;
}

const turnsBy = (low: number, high: number): Turns => ({
  cl: maths.cos(low),
  sl: maths.sin(low),
  ch: maths.cos(high),
  sh: maths.sin(high),
});

/**
 * Distance of a point of the quad over a chord from the helicoid through the exact curve there, mm, to first order in it.
 * The point is at s along the chord and t along the axis, both from 0 to 1; the quad is split by the diagonal that rises
 * along the chord or by the other, and its lower and upper side are turned to the height of t.
 * Numbers alone: this is the inner loop.
 */
function offSurface(
  { from: a, to: b, curve }: Chord,
  rate: number,
  s: number,
  t: number,
  rises: boolean,
  { cl, sl, ch, sh }: Turns,
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
