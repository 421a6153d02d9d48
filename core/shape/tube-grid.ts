import { ToleranceError } from '../solid/errors.js';
import type { Vec3 } from '../solid/types.js';
import type { Tube } from './tube.js';
import { endCrossing, type TubeSurface } from './tube-surface.js';
import { dot, minus, plus, times } from './vector.js';

/** The tube's surface over w and v from 0 to 1, with flat ends trimmed to their planes. */
export interface TrimmedTube {
  readonly at: (w: number, v: number) => Vec3;
  readonly normal: (w: number, v: number) => Vec3;
}

/** @param beyond how far past its own ends the surface is to reach, mm, for stock on flat ends. */
export function trimTube(
  tube: Tube,
  surface: TubeSurface,
  beyond: { readonly start: number; readonly end: number },
): TrimmedTube {
  if (tube.closed) return surface;
  const crossings = new Map<number, readonly [number, number]>();
  const range = (v: number): readonly [number, number] => {
    let found = crossings.get(v);
    if (!found) {
      found = [
        tube.start === 'tip' ? 0 : endCrossing(tube, surface, 0, v, beyond.start),
        tube.end === 'tip' ? 1 : endCrossing(tube, surface, 1, v, beyond.end),
      ];
      crossings.set(v, found);
    }
    return found;
  };
  const place = (w: number, v: number): number => {
    const [u0, u1] = range(v);
    return u0 + w * (u1 - u0);
  };
  return {
    at: (w, v) => surface.at(place(w, v), v),
    normal: (w, v) => surface.normal(place(w, v), v),
  };
}

/** Where along and round a tube its points lie; both from 0 to 1, with both ends. */
export interface TubeGrid {
  readonly along: readonly number[];
  readonly round: readonly number[];
}

const probesAlong = 48;
const probesRound = 48;

/**
 * The coarsest grid, of the kind with equal errors everywhere at its worst, whose triangles stay within `tolerance`
 * mm of the surface. Equal chord errors need equal ∫√κ ds a chord, κ being the normal curvature, most along all
 * lines of that direction; the errors of the triangles are then measured and the grid made finer, or coarser, by them.
 */
export function fitGrid(tube: TrimmedTube, closed: boolean, tolerance: number): TubeGrid {
  const { along, round } = curvatureMeasures(tube);
  const chords = (running: readonly number[], scale: number, least: number): number =>
    Math.max(least, Math.ceil((scale * running[running.length - 1]!) / Math.sqrt(4 * tolerance) - 1e-9));
  const gridAt = (scale: number): TubeGrid => ({
    along: spread(along, chords(along, scale, closed ? 8 : 1)),
    round: spread(round, 2 * Math.ceil(chords(round, scale, 8) / 2)),
  });
  let scale = 1;
  let [fails, holds] = [0, Number.POSITIVE_INFINITY];
  let best = gridAt(1);
  for (let i = 0; i < 8; i++) {
    const grid = gridAt(scale);
    const error = gridError(tube, grid);
    if (error <= tolerance) {
      if (scale < holds) [holds, best] = [scale, grid];
      if (error > 0.9 * tolerance) break;
    } else {
      fails = Math.max(fails, scale);
    }
    const wanted = scale * Math.sqrt(error / tolerance) * 1.01;
    if (!Number.isFinite(error) || wanted > 1e3)
      throw new ToleranceError(
        `a tube cannot be sampled to ${tolerance} mm: its surface breaks off or folds`,
      );
    const between = Number.isFinite(holds) ? (fails + holds) / 2 : Math.max(wanted, fails * 1.1);
    scale = wanted > fails && wanted < holds ? Math.max(wanted, 0.02) : between;
    if (holds - fails < 0.03 * holds) break;
  }
  // Not found in so many steps: surely fine enough.
  while (gridError(tube, best) > tolerance) {
    scale = Math.max(scale, fails, 1) * 1.2;
    best = gridAt(scale);
    if (scale > 1e3) throw new ToleranceError(`a tube cannot be sampled to ${tolerance} mm`);
  }
  return best;
}

function curvatureMeasures(tube: TrimmedTube): { along: readonly number[]; round: readonly number[] } {
  const at: Vec3[][] = [];
  const normals: Vec3[][] = [];
  for (let i = 0; i <= probesAlong; i++) {
    at.push([]);
    normals.push([]);
    for (let j = 0; j <= probesRound; j++) {
      at[i]!.push(tube.at(i / probesAlong, j / probesRound));
      normals[i]!.push(tube.normal(i / probesAlong, j / probesRound));
    }
  }
  const measure = (i: number, j: number, k: number, l: number): number =>
    Math.sqrt(Math.abs(dot(minus(normals[k]![l]!, normals[i]![j]!), minus(at[k]![l]!, at[i]![j]!))));
  const running = (cells: number, lines: number, cell: (n: number, line: number) => number): number[] => {
    const sums = [0];
    for (let n = 0; n < cells; n++) {
      let most = 0;
      for (let line = 0; line <= lines; line++) most = Math.max(most, cell(n, line));
      sums.push(sums[n]! + most);
    }
    return sums;
  };
  return {
    along: running(probesAlong, probesRound, (n, line) => measure(n, line, n + 1, line)),
    round: running(probesRound, probesAlong, (n, line) => measure(line, n, line, n + 1)),
  };
}

/** Parameters from 0 to 1 that share a running measure evenly. */
function spread(running: readonly number[], chords: number): readonly number[] {
  const cells = running.length - 1;
  const total = running[cells]!;
  const places = [0];
  let cell = 0;
  for (let k = 1; k < chords; k++) {
    if (!(total > 1e-9)) {
      places.push(k / chords);
      continue;
    }
    const goal = (total * k) / chords;
    while (cell < cells - 1 && running[cell + 1]! < goal) cell++;
    const width = running[cell + 1]! - running[cell]!;
    places.push((cell + (width > 0 ? (goal - running[cell]!) / width : 0)) / cells);
  }
  places.push(1);
  return places;
}

/** Greatest distance, along the normal, of the surface from the grid's quads at their centres and edges' middles, mm. */
export function gridError(tube: TrimmedTube, { along, round }: TubeGrid): number {
  let worst = 0;
  const points = along.map((w) => round.map((v) => tube.at(w, v)));
  for (let i = 0; i + 1 < along.length; i++) {
    for (let j = 0; j + 1 < round.length; j++) {
      const [w, v] = [(along[i]! + along[i + 1]!) / 2, (round[j]! + round[j + 1]!) / 2];
      const [a, b, c, d] = [points[i]![j]!, points[i]![j + 1]!, points[i + 1]![j + 1]!, points[i + 1]![j]!];
      const centre = tube.at(w, v);
      const normal = tube.normal(w, v);
      const off = (p: Vec3, q: Vec3): number => Math.abs(dot(minus(centre, times(plus(p, q), 0.5)), normal));
      const across = Math.min(off(a, c), off(b, d));
      const edge = (p: Vec3, q: Vec3, x: number, y: number): number =>
        Math.abs(dot(minus(tube.at(x, y), times(plus(p, q), 0.5)), tube.normal(x, y)));
      worst = Math.max(
        worst,
        across,
        edge(a, b, along[i]!, v),
        edge(a, d, w, round[j]!),
        i + 2 === along.length ? edge(d, c, along[i + 1]!, v) : 0,
      );
      if (!(worst < Number.POSITIVE_INFINITY)) return Number.NaN;
    }
  }
  return worst;
}

/** Whether the quad's diagonal from its first corner to the one opposite lies nearer the surface than the other. */
export function straightIsNearer(
  tube: TrimmedTube,
  { along, round }: TubeGrid,
  corners: readonly (readonly Vec3[])[],
  i: number,
  j: number,
): boolean {
  const [w, v] = [(along[i]! + along[i + 1]!) / 2, (round[j]! + round[j + 1]!) / 2];
  const [centre, normal] = [tube.at(w, v), tube.normal(w, v)];
  const off = (p: Vec3, q: Vec3): number => Math.abs(dot(minus(centre, times(plus(p, q), 0.5)), normal));
  return (
    off(corners[i]![j]!, corners[i + 1]![j + 1]!) <= off(corners[i]![j + 1]!, corners[i + 1]![j]!) + 1e-9
  );
}
