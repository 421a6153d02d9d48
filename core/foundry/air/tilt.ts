import { maths } from '../../maths/maths.js';
import type { Mesh } from '../../solid/types.js';
import { type Cavity, readCavity, turnCavity } from './cavity.js';
import { offLevelAngle, upWhenLeaning } from './leaning.js';
import { searchPockets, totalVolume } from './pockets.js';

/** A turn that lets trapped air out, radians. */
export interface Tilt {
  /** The flask at the pour, gating and all; or the part before it is gated, at its then highest place. */
  readonly of: 'flask' | 'part';
  /** Which side comes up, from +x towards +y. */
  readonly azimuth: number;
  readonly angle: number;
  /** Trapped then at the worst of that turn and of four turns 2° from it, mm³. */
  readonly left: number;
}

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Angles tried of each, degrees. */
const flaskAngles = [4, 8, 12, 16, 20, 25, 30];
const partAngles = [15, 30, 45, 60, 75, 90, 135, 180];

/** The lowest lip of cup and vents stays this far over the part, mm: common practice, no source. */
const leastFall = 10;

/** Sides of each that are tried. */
const ways = 8;

/** Turns whose neighbours are looked at. */
const mostCompared = 4;

/**
 * The turn that leaves least air, the smallest among those as good: of the flask where that frees everything, of the
 * part otherwise. Undefined where nothing tried leaves less than half of `now`.
 */
export function findTilt(gated: Cavity, pattern: Mesh, openHeight: number, now: number): Tilt | undefined {
  const lean = leastAir('flask', flaskAngles, (angle, azimuth) =>
    holdsMetal(gated, pattern, openHeight, angle, azimuth)
      ? trappedAt(gated, angle, azimuth, openHeight)
      : Number.POSITIVE_INFINITY,
  );
  if (lean?.left === 0) return lean;
  const alone = readCavity(pattern);
  const turn = leastAir('part', partAngles, (angle, azimuth) => trappedAt(alone, angle, azimuth));
  const best = [lean, turn].flatMap((t) => t ?? []).sort((a, b) => a.left - b.left)[0];
  return best && best.left < now / 2 ? best : undefined;
}

function leastAir(
  of: Tilt['of'],
  angles: readonly number[],
  trapped: (angle: number, azimuth: number) => number,
): Tilt | undefined {
  const steady = (angle: number, azimuth: number): number => {
    const aside = maths.asin(Math.min(1, maths.sin(offLevelAngle) / maths.sin(Math.min(angle, Math.PI / 2))));
    const turns = [
      [angle, azimuth],
      [angle - offLevelAngle, azimuth],
      [angle + offLevelAngle, azimuth],
      [angle, azimuth - aside],
      [angle, azimuth + aside],
    ] as const;
    let worst = 0;
    for (const [a, z] of turns) worst = Math.max(worst, trapped(a, z));
    return worst;
  };
  const tried: Tilt[] = [];
  for (const degrees of angles)
    for (let i = 0; i < (degrees === 180 ? 1 : ways); i++) {
      const [angle, azimuth] = [radians(degrees), (2 * Math.PI * i) / ways];
      const left = trapped(angle, azimuth);
      if (left === 0 && steady(angle, azimuth) === 0) return { of, azimuth, angle, left };
      if (Number.isFinite(left)) tried.push({ of, azimuth, angle, left });
    }
  return tried
    .sort((a, b) => a.left - b.left || a.angle - b.angle)
    .slice(0, mostCompared)
    .map((t) => ({ ...t, left: steady(t.angle, t.azimuth) }))
    .sort((a, b) => a.left - b.left || a.angle - b.angle)[0];
}

/** Pockets from the threshold, mm³; without an open height the highest point is where it is gated. */
function trappedAt(cavity: Cavity, angle: number, azimuth: number, openHeight?: number): number {
  const turned = turnCavity(cavity, upWhenLeaning(angle, azimuth));
  return totalVolume(searchPockets(turned, openHeight === undefined ? {} : { openHeight }).pockets);
}

/** Whether the leaning mould fills before metal runs over its lowest lip. */
function holdsMetal(
  { mesh }: Cavity,
  pattern: Mesh,
  openHeight: number,
  angle: number,
  azimuth: number,
): boolean {
  const up = upWhenLeaning(angle, azimuth);
  const height = (p: Float32Array, i: number): number =>
    p[i]! * up[0] + p[i + 1]! * up[1] + p[i + 2]! * up[2];
  let lip = Number.POSITIVE_INFINITY;
  for (let i = 0; i < mesh.positions.length; i += 3)
    if (mesh.positions[i + 2]! >= openHeight) lip = Math.min(lip, height(mesh.positions, i));
  for (let i = 0; i < pattern.positions.length; i += 3)
    if (height(pattern.positions, i) > lip - leastFall) return false;
  return true;
}
