import { maths } from '../../maths/maths.js';
import type { VentPlace } from '../../part/contract.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { type Cavity, volumeUnder } from './cavity.js';
import { seatOnTop } from './domed-top.js';
import { flatAt, type Point, type TopFlat } from './flat-room.js';
import { type Leaning, leastVented } from './leaning.js';
import type { FoundPocket } from './pockets.js';
import { pointOf } from './tops.js';

/** Distances from a pocket's highest point and the step between places tried, mm. */
const searched = [
  { reach: 7, step: 1 },
  { reach: 24, step: 2 },
] as const;

/** Places that are looked at for mould above them, the best by height first. */
const mostChecked = 12;

interface Trap {
  readonly leaning: Leaning;
  readonly pocket: FoundPocket;
}

interface Candidate extends VentPlace {
  /** Of the mesh, under its middle. */
  readonly triangle: number;
}

/**
 * Vents for what is trapped off level: each as near to a pocket's highest point as a foot fits on the flat there, and of
 * those as few as let the pockets of all ways out (greedy cover). Names follow `first`.
 */
export function placeOffLevelVents(
  leanings: readonly Leaning[],
  level: Cavity,
  pattern: Mesh,
  range: { readonly least: number; readonly largest: number },
  first: number,
): readonly VentPlace[] {
  const traps: readonly Trap[] = leanings.flatMap((leaning) =>
    leaning.pockets.map((pocket) => ({ leaning, pocket })),
  );
  const flats: TopFlat[] = [];
  const flatOf = (peak: number): TopFlat => {
    const touching = level.corners.subarray(level.starts[peak]!, level.starts[peak + 1]!);
    const known = flats.find(
      ({ height, numbers }) =>
        height === level.heights[peak] && numbers.some((f) => touching.some((c) => Math.floor(c / 3) === f)),
    );
    if (known) return known;
    flats.push(flatAt(level, peak, pattern));
    return flats.at(-1)!;
  };
  const candidates = traps.flatMap(
    (trap) =>
      placeHigh(trap, level, flatOf(trap.pocket.peak), range) ?? placeOver(trap, level, pattern, range) ?? [],
  );
  const still = candidates.map((c) => traps.map((trap) => stillIn(trap, c, range.least / 2)));
  const chosen: VentPlace[] = [];
  let left = traps.map((trap) => trap.pocket.volume);
  const gainOf = (withVent: readonly number[]): number =>
    left.reduce((sum, volume, i) => sum + Math.max(0, volume - (withVent[i] as number)), 0);
  while (left.some((volume) => volume >= 0.9 * leastVented)) {
    const gains = still.map(gainOf);
    const best = gains.indexOf(Math.max(...gains, 0));
    const place = candidates[best];
    // What has been chosen gains nothing more, so that this comes to an end.
    if (place === undefined || (gains[best] as number) < leastVented / 4) break;
    const { triangle: _, ...foot } = place;
    chosen.push({ ...foot, name: `air vent ${first + chosen.length}` });
    left = left
      .map((volume, i) => Math.min(volume, still[best]![i] as number))
      .map((volume) => (volume >= 0.9 * leastVented ? volume : 0));
  }
  return chosen;
}

/** The place whose foot reaches highest in the leaning mould. */
function placeHigh(
  { leaning, pocket }: Trap,
  level: Cavity,
  flat: TopFlat,
  range: { readonly least: number; readonly largest: number },
): Candidate | null {
  const [px, py] = [level.plan[2 * pocket.peak]!, level.plan[2 * pocket.peak + 1]!];
  const [dx, dy] = [maths.cos(leaning.azimuth), maths.sin(leaning.azimuth)];
  const reach = Math.min(range.largest, 2 * range.least) / 2;
  for (const { reach: far, step } of searched) {
    const part = flat.within([px, py], far + reach);
    const places: { readonly at: Point; readonly score: number }[] = [];
    for (let x = -far; x <= far; x += step)
      for (let y = -far; y <= far; y += step) {
        const at: Point = [px + x, py + y];
        if (part.holding(at) < 0) continue;
        const room = part.roomAt(at, reach);
        // Of feet that reach as high, the wider and the nearer.
        if (2 * room >= range.least)
          places.push({ at, score: x * dx + y * dy + 0.3 * room - 0.02 * maths.hypot(x, y) });
      }
    places.sort((a, b) => b.score - a.score);
    for (const { at } of places.slice(0, mostChecked)) {
      const clear = flat.clearAt(at, reach);
      if (2 * clear < range.least) continue;
      const triangle = flat.numbers[flat.holding(at)]!;
      const place: Vec3 = [at[0], at[1], flat.height];
      return { name: '', at: place, footDiameter: 2 * clear, triangle };
    }
  }
  return null;
}

/** Over the pocket's highest point, where there is no flat. */
function placeOver(
  { pocket }: Trap,
  level: Cavity,
  pattern: Mesh,
  range: { readonly least: number; readonly largest: number },
): Candidate | null {
  const seated = seatOnTop(pattern, pointOf(level.mesh, pocket.peak), range);
  return (
    seated && { name: '', ...seated, triangle: Math.floor(level.corners[level.starts[pocket.peak]!]! / 3) }
  );
}

/** What of a pocket stays in with a vent of that radius at the place; all of it where the place is no part of it. */
function stillIn({ leaning, pocket }: Trap, { at, triangle }: Candidate, radius: number): number {
  const { cavity, up } = leaning;
  const { mesh, heights, starts, corners } = cavity;
  const t = mesh.triangles;
  const height = (p: Vec3): number => p[0] * up[0] + p[1] * up[1] + p[2] * up[2];
  const level = height(at) + radius * maths.hypot(up[0], up[1]);
  if (level <= height(pocket.saddle)) return pocket.volume;
  const own = new Set(pocket.vertices);
  const under = [0, 1, 2]
    .map((k) => t[3 * triangle + k]!)
    .reduce((a, b) => (heights[b]! > heights[a]! ? b : a));
  if (!own.has(under)) return pocket.volume;
  const above = new Set<number>();
  for (const v of own)
    for (let i = starts[v]!; i < starts[v + 1]!; i++) above.add(Math.floor(corners[i]! / 3));
  let volume = 0;
  for (const f of above) volume += volumeUnder(cavity, f, level);
  return Math.min(pocket.volume, volume);
}
