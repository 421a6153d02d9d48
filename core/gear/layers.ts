import type { Vec2 } from '../solid/types.js';
import type { HelixStretch } from './helix.js';
import type { ToothForm } from './tooth-form.js';
import { type PitchOutline, samplePitch } from './transverse-profile.js';

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

/** Shares of the tolerance tried for the outline; the rest is the helix's. The cheapest mesh wins. */
const shares = [0.25, 0.35, 0.45, 0.55, 0.65];

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
  let best: LayerPlan | undefined;
  for (const share of straight ? [1] : shares) {
    const pitch = samplePitch(form, tolerance * share);
    const layers: Layer[] = [];
    for (const stretch of stretches) {
      const divided = divide(pitch, stretch, straight ? Number.POSITIVE_INFINITY : tolerance);
      layers.push(...(layers.length > 0 ? divided.slice(1) : divided));
    }
    const triangles = 2 * pitch.points.length * pitch.teeth * (layers.length - 1);
    if (!best || triangles < best.triangles) best = { pitch, layers, diagonals: [], triangles };
  }
  const { pitch, layers, triangles } = best as LayerPlan;
  const diagonals = layers
    .slice(0, -1)
    .map((lower, k) => chooseDiagonals(pitch, lower, layers[k + 1] as Layer, stretches));
  return { pitch, layers, diagonals, triangles };
}

/** Far more sections than any sound tooth needs. */
const mostLayers = 100_000;

/** The fewest evenly spaced sections over a stretch that hold the tolerance. */
function divide(pitch: PitchOutline, stretch: HelixStretch, tolerance: number): Layer[] {
  const at = (k: number, n: number): Layer => {
    const z = k === n ? stretch.z1 : stretch.z0 + ((stretch.z1 - stretch.z0) * k) / n;
    return { z, turn: stretch.turn(z) };
  };
  const holds = (n: number): boolean => {
    for (let k = 0; k < n; k++) {
      if (worstDeviation(pitch, at(k, n), at(k + 1, n), stretch) > tolerance) return false;
      // A plain helix is the same in every section.
      if (k === 0 && isUniform(stretch)) return true;
    }
    return true;
  };
  let fails = 0;
  let works = 1;
  while (!holds(works)) {
    if (works > mostLayers) throw new RangeError(`no division of the helix holds ${tolerance} mm`);
    fails = works;
    works *= 2;
  }
  while (works - fails > 1) {
    const middle = (works + fails) >> 1;
    if (holds(middle)) works = middle;
    else fails = middle;
  }
  return Array.from({ length: works + 1 }, (_, k) => at(k, works));
}

const isUniform = ({ z0, z1, turn }: HelixStretch): boolean =>
  Math.abs(turn(z0 + (z1 - z0) / 4) - (0.75 * turn(z0) + 0.25 * turn(z1))) < 1e-12;

function worstDeviation(pitch: PitchOutline, lower: Layer, upper: Layer, stretch: HelixStretch): number {
  let worst = 0;
  forEachChord(pitch, lower, upper, stretch, (rising, falling) => {
    worst = Math.max(worst, Math.min(rising, falling));
  });
  return worst;
}

function chooseDiagonals(
  pitch: PitchOutline,
  lower: Layer,
  upper: Layer,
  stretches: readonly HelixStretch[],
): readonly boolean[] {
  const stretch = stretches.find((s) => s.z0 <= lower.z && upper.z <= s.z1 + 1e-9) as HelixStretch;
  const choice: boolean[] = [];
  forEachChord(pitch, lower, upper, stretch, (rising, falling) => choice.push(rising <= falling));
  return choice;
}

/** Deviation of the quad over each chord from the helicoid, mm, for either diagonal. */
function forEachChord(
  pitch: PitchOutline,
  lower: Layer,
  upper: Layer,
  stretch: HelixStretch,
  visit: (rising: number, falling: number) => void,
): void {
  const z = (lower.z + upper.z) / 2;
  const middle = stretch.turn(z);
  const [down, up] = [lower.turn - middle, upper.turn - middle];
  const rate = upper.z > lower.z ? (upper.turn - lower.turn) / (upper.z - lower.z) : 0;
  const count = pitch.points.length;
  const pitchTurn = (2 * Math.PI) / pitch.teeth;
  for (let i = 0; i < count; i++) {
    const chord = pitch.chords[i] as (typeof pitch.chords)[number];
    const a = pitch.points[i] as Vec2;
    const b = i + 1 < count ? (pitch.points[i + 1] as Vec2) : turned(pitch.points[0] as Vec2, pitchTurn);
    const { middle: c, normal: n } = chord;
    // The helicoid's own normal leans out of the transverse plane, which shortens the distance.
    const lean = 1 / Math.hypot(1, rate * (c[0] * n[1] - c[1] * n[0]));
    const off = (p: Vec2, q: Vec2): number =>
      ((p[0] + q[0]) / 2 - c[0]) * n[0] * lean + ((p[1] + q[1]) / 2 - c[1]) * n[1] * lean;
    const [al, au, bl, bu] = [turned(a, down), turned(a, up), turned(b, down), turned(b, up)];
    const outline = off(a, b);
    // An end's own run along the helix, measured from the end itself.
    const run = (p: Vec2, pl: Vec2, pu: Vec2): number =>
      (((pl[0] + pu[0]) / 2 - p[0]) * n[0] + ((pl[1] + pu[1]) / 2 - p[1]) * n[1]) * lean;
    const [runA, runB] = [run(a, al, au), run(b, bl, bu)];
    const [rise, fall] = [off(al, bu), off(au, bl)];
    visit(
      Math.max(triangleDeviation(outline, runB, rise), triangleDeviation(outline, runA, rise)),
      Math.max(triangleDeviation(outline, runA, fall), triangleDeviation(outline, runB, fall)),
    );
  }
}

const turned = ([x, y]: Vec2, angle: number): Vec2 => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [c * x - s * y, s * x + c * y];
};

/**
 * Greatest |deviation| in a triangle whose corners lie on the surface, from those at its three edge middles:
 * to second order it is 4 (λ₁λ₂ d₁₂ + λ₂λ₃ d₂₃ + λ₃λ₁ d₃₁) in barycentric coordinates λ.
 */
function triangleDeviation(d12: number, d23: number, d31: number): number {
  let worst = Math.max(Math.abs(d12), Math.abs(d23), Math.abs(d31));
  for (const [l1, l2, l3] of inside) {
    worst = Math.max(worst, Math.abs(4 * (l1 * l2 * d12 + l2 * l3 * d23 + l3 * l1 * d31)));
  }
  return worst;
}

const inside: readonly (readonly [number, number, number])[] = [
  [1 / 3, 1 / 3, 1 / 3],
  [0.4, 0.4, 0.2],
  [0.4, 0.2, 0.4],
  [0.2, 0.4, 0.4],
  [0.5, 0.3, 0.2],
  [0.5, 0.2, 0.3],
  [0.3, 0.5, 0.2],
  [0.2, 0.5, 0.3],
  [0.3, 0.2, 0.5],
  [0.2, 0.3, 0.5],
];
