import { ToleranceError } from '../solid/errors.js';
import { chooseDiagonals, holdsBetween, type Layer, outlineHolds } from './chord-deviation.js';
import type { HelixStretch } from './helix.js';
import type { ToothForm } from './tooth-form.js';
import { bendsTwice, type PitchOutline, planPitch } from './transverse-profile.js';

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
