import { maths } from '../../maths/maths.js';
import { cross, dot, unit } from '../../shape/vector.js';
import { inspectMesh } from '../../solid/inspect.js';
import type { Mesh, Vec2, Vec3 } from '../../solid/types.js';
import { convexHull } from './hull.js';
import { planAxes } from './measure.js';
import { leastRectangle, planHull } from './plan-hull.js';
import { axes } from './reasons.js';

/** A mesh turned to stand. */
export interface TurnedMesh {
  readonly mesh: Mesh;
  /** Where a point of the mesh before goes: rows of the turn times the point, plus `shift`, mm. */
  readonly rotation: readonly [Vec3, Vec3, Vec3];
  readonly shift: Vec3;
  /** What the turn's rounding spoilt and no other turn about z could avoid; empty for a sound mesh. */
  readonly problems: readonly string[];
}

type Rows = readonly [Vec3, Vec3, Vec3];

/** Turns about z that are tried where rounding to single precision makes triangles cross, radians. */
const otherTurns = [0, 0.002, -0.002, 0.007, -0.007, 0.02];

/** A foot is made level where rounding alone has it otherwise: to the part's size. */
const rounding = 1e-6;

/**
 * Turns a sound mesh so that a direction is up: lowest point at z = 0, middle of its box in plan at the origin, longer
 * side of the least rectangle about it along x. A direction that is one of the six axes is a quarter turn, which changes
 * no number but its sign and place, so that flats stay flat; +z is not turned at all. The result is checked: slivers that
 * rounding makes cross are got rid of by turning a little further about z.
 */
export function turnToStand(mesh: Mesh, direction: Vec3): TurnedMesh {
  const up = unit(direction);
  const axis = axes.find((a) => dot(a, up) > 1 - 1e-12);
  let best: TurnedMesh | undefined;
  const tries = axis
    ? [true, false].map((centred) => () => place(mesh, quarterTurn(mesh, axis), { centred, level: false }))
    : [...otherTurns.map((turn) => ({ turn, level: true })), { turn: 0, level: false }].map(
        ({ turn, level }) =>
          () =>
            place(mesh, freeTurn(mesh, up, turn), { centred: true, level }),
      );
  for (const attempt of tries) {
    const placed = attempt();
    const problems = inspectMesh(placed.mesh).problems;
    if (problems.length === 0) return { ...placed, problems };
    best ??= { ...placed, problems };
  }
  return best!;
}

/** Rows of ones and noughts: the axis to z, the longer of the others to x. */
function quarterTurn({ positions: p }: Mesh, up: Vec3): Rows {
  if (up[2] === 1) return [[1, 0, 0], [0, 1, 0], up];
  const upright = up.findIndex((c) => c !== 0);
  const span = (k: number): number => {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let i = k; i < p.length; i += 3) {
      low = Math.min(low, p[i]!);
      high = Math.max(high, p[i]!);
    }
    return high - low;
  };
  const [a, b] = [0, 1, 2].filter((k) => k !== upright) as [number, number];
  const long = span(a) >= span(b) ? a : b;
  const u = [0, 1, 2].map((k) => (k === long ? 1 : 0)) as unknown as Vec3;
  return [u, cross(up, u).map((c) => c + 0) as unknown as Vec3, up];
}

function freeTurn({ positions }: Mesh, up: Vec3, further: number): Rows {
  const [u, v] = planAxes(up);
  const corners = convexHull(positions).corners.map((c): Vec2 => [dot(u, c), dot(v, c)]);
  const turn = leastRectangle(planHull(corners)).angle + further;
  const [c, s] = [maths.cos(turn), maths.sin(turn)];
  const row = unit([c * u[0] + s * v[0], c * u[1] + s * v[1], c * u[2] + s * v[2]]);
  // Of the two ways to lie along x, the one that turns less.
  const x: Vec3 = row[0] < 0 ? [-row[0], -row[1], -row[2]] : row;
  return [x, cross(up, x), up];
}

function place(
  { positions: p, triangles }: Mesh,
  rotation: Rows,
  how: { readonly centred: boolean; readonly level: boolean },
): Omit<TurnedMesh, 'problems'> {
  const turned = new Float64Array(p.length);
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < p.length; i += 3)
    for (let k = 0; k < 3; k++) {
      const r = rotation[k]!;
      const at = r[0] * p[i]! + r[1] * p[i + 1]! + r[2] * p[i + 2]!;
      turned[i + k] = at;
      low[k] = Math.min(low[k]!, at);
      high[k] = Math.max(high[k]!, at);
    }
  const shift: Vec3 = [
    how.centred ? -(low[0]! + high[0]!) / 2 : 0,
    how.centred ? -(low[1]! + high[1]!) / 2 : 0,
    -low[2]!,
  ];
  const size = Math.max(...[0, 1, 2].flatMap((k) => [Math.abs(low[k]!), Math.abs(high[k]!)]));
  const positions = Float32Array.from(turned, (value, i) => value + shift[i % 3]!);
  if (how.level)
    for (let i = 2; i < positions.length; i += 3) if (positions[i]! < rounding * size) positions[i] = 0;
  return { mesh: { positions, triangles }, rotation, shift };
}
