import { isCollapsed } from '../../solid/mesh-topology.js';
import { type Corners, isFlat, trianglesCross } from '../../solid/triangle-crossing.js';
import { forDoubtfulPairs } from '../../solid/triangle-pairs.js';
import type { Mesh, Vec3 } from '../../solid/types.js';

/** Which shells cross which, and where. */
export interface ShellCrossings {
  /** Pairs of triangles of one shell that cross; counting stops at 1000. */
  readonly within: number;
  /** The first of them, mm. */
  readonly withinAt: Vec3 | null;
  /** There are more than are looked for: no telling what crosses besides. */
  readonly tangled: boolean;
  /** Pairs of different shells that cross or touch, the lower number first. */
  readonly between: readonly { readonly shells: readonly [number, number]; readonly at: Vec3 }[];
}

const mostCrossings = 1000;
const mostShellPairs = 2000;
/** Pairs of triangles near each other; a sound mesh has some ten to a triangle. */
const mostLooks = 2e8;

/** Decided exactly, as `inspectMesh` does; pairs of shells already known to cross are not asked again. */
export function findShellCrossings(mesh: Mesh, shellOf: Int32Array): ShellCrossings {
  const t = mesh.triangles;
  const corners: Corners = { p: Float64Array.from(mesh.positions), t };
  const whole = new Uint32Array(t.length / 3);
  let size = 0;
  for (let i = 0; i < t.length / 3; i++) if (!isCollapsed(t, 3 * i) && !isFlat(corners, i)) whole[size++] = i;
  const between = new Map<string, { shells: [number, number]; at: Vec3 }>();
  let within = 0;
  let withinAt: Vec3 | null = null;
  let tangled = false;
  const visit = (i: number, j: number): boolean => {
    if (between.size >= mostShellPairs) {
      tangled = true;
      return true;
    }
    const a = shellOf[i]!;
    const b = shellOf[j]!;
    if (a !== b && between.has(pairKey(a, b))) return false;
    if (!trianglesCross(corners, i, j)) return false;
    const at = commonCentre(corners, i, j);
    if (a !== b) {
      between.set(pairKey(a, b), { shells: [Math.min(a, b), Math.max(a, b)], at });
      return false;
    }
    withinAt ??= at;
    return ++within >= mostCrossings;
  };
  if (!forDoubtfulPairs(corners, whole.subarray(0, size), visit, mostLooks)) tangled = true;
  return { within, withinAt, tangled, between: [...between.values()] };
}

const pairKey = (a: number, b: number): string => (a < b ? `${a} ${b}` : `${b} ${a}`);

/** Centre of the box common to two triangles' bounds. */
function commonCentre({ p, t }: Corners, i: number, j: number): Vec3 {
  const centre = (k: number): number => {
    const a = [0, 1, 2].map((corner) => p[3 * t[3 * i + corner]! + k]!);
    const b = [0, 1, 2].map((corner) => p[3 * t[3 * j + corner]! + k]!);
    return (Math.max(Math.min(...a), Math.min(...b)) + Math.min(Math.max(...a), Math.max(...b))) / 2;
  };
  return [centre(0), centre(1), centre(2)];
}
