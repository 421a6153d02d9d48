import { runsBack } from './flat-faces.js';
import { fanOf, linkHalves, nextHalf, previousHalf } from './halves.js';
import { type MovedCorners, type MoveInput, moveCorners } from './move-corners.js';

const mostRounds = 120;
/** Neighbours that lie in one plane: the edge between them is no edge of the body. */
const flat = 1 - 1.5e-6;

/**
 * Takes out the edges that shrink past nothing as the planes move, the first to vanish first: their ends become one
 * vertex, which goes where the planes of the triangles that are left about it meet. Facets of a fillet tighter than
 * the offset vanish so, and the short edges where two curved surfaces cut each other.
 */
export function collapseVanishing(start: MoveInput): { input: MoveInput; moved: MovedCorners } {
  let input = start;
  let moved = moveCorners(input);
  for (let round = 0; round < mostRounds; round++) {
    const next = collapseOnce(input, moved);
    if (!next) break;
    moved = moveCorners(next.input, { moved, kept: next.kept, changed: next.changed });
    input = next.input;
  }
  return { input, moved };
}

function collapseOnce(
  input: MoveInput,
  moved: MovedCorners,
): { input: MoveInput; kept: number[]; changed: Uint8Array } | null {
  const { halves, normals: n, amounts, planes } = input;
  const { t, opposite } = halves;
  const p = input.p;
  const edges: { h: number; time: number }[] = [];
  for (let h = 0; h < t.length; h++) {
    const g = opposite[h]!;
    if (h > g || !runsBack(p, t, moved.points, moved.to, h)) continue;
    const [f, e] = [3 * Math.floor(h / 3), 3 * Math.floor(g / 3)];
    const isFlat = n[f]! * n[e]! + n[f + 1]! * n[e + 1]! + n[f + 2]! * n[e + 2]! > flat;
    if (isFlat && amounts[f / 3] === amounts[e / 3]) continue;
    const before = lengthOf(p, t[h]!, t[nextHalf(h)]!);
    const after = lengthOf(moved.points, moved.to[h]!, moved.to[nextHalf(h)]!);
    edges.push({ h, time: before / (before + after) });
  }
  if (edges.length === 0) return null;
  edges.sort((a, b) => a.time - b.time || a.h - b.h);
  const locked = new Uint8Array(halves.vertices);
  const into = new Int32Array(halves.vertices).fill(-1);
  const base = p.slice();
  const [fanU, fanW]: [number[], number[]] = [[], []];
  const turns: number[] = [];
  let any = false;
  for (const { h } of edges) {
    const [u, w] = [t[h]!, t[nextHalf(h)]!];
    const [countU, countW] = [fanOf(halves, u, fanU), fanOf(halves, w, fanW)];
    const ringU = fanU.slice(0, countU).map((k) => t[nextHalf(k)]!);
    const ringW = fanW.slice(0, countW).map((k) => t[nextHalf(k)]!);
    if (locked[u] === 1 || locked[w] === 1 || [...ringU, ...ringW].some((v) => locked[v] === 1)) continue;
    const around = new Set(ringU);
    const common = ringW.filter((v) => around.has(v));
    if (common.length !== 2) {
      // A third neighbour of both stands in the way: an edge to it may be turned where it lies in a flat face.
      const apart = common.filter((v) => v !== t[previousHalf(h)] && v !== t[previousHalf(opposite[h]!)]);
      const turned =
        apart.length > 0 &&
        [...fanU.slice(0, countU), ...fanW.slice(0, countW)].find(
          (k) => apart.includes(t[nextHalf(k)]!) && canTurn(input, k),
        );
      if (turned !== false && turned !== undefined) {
        for (const v of [u, w, ...ringU, ...ringW]) locked[v] = 1;
        turns.push(turned);
        any = true;
      }
      continue;
    }
    // The two across lose an edge each; with three they would be left with a fold.
    const sides = [t[previousHalf(h)]!, t[previousHalf(opposite[h]!)]!];
    if (sides.some((v) => fanOf(halves, v, fanU) <= 3)) continue;
    for (const v of [u, w, ...ringU, ...ringW]) locked[v] = 1;
    into[w] = u;
    for (let k = 0; k < 3; k++) base[3 * u + k] = Math.fround((p[3 * u + k]! + p[3 * w + k]!) / 2);
    any = true;
  }
  if (!any) return null;
  const turnedT = t.slice();
  for (const h of turns) turn(halves, turnedT, h);
  const kept: number[] = [];
  const corners: number[] = [];
  for (let f = 0; f < t.length / 3; f++) {
    const [a, b, c] = [0, 1, 2].map((k) => {
      const v = turnedT[3 * f + k]!;
      return into[v]! >= 0 ? into[v]! : v;
    }) as [number, number, number];
    if (a === b || b === c || c === a) continue;
    kept.push(f);
    corners.push(a, b, c);
  }
  const next: MoveInput = {
    ...input,
    p: base,
    halves: linkHalves(Uint32Array.from(corners), halves.vertices),
    normals: Float64Array.from(kept.flatMap((f) => [n[3 * f]!, n[3 * f + 1]!, n[3 * f + 2]!])),
    amounts: Float64Array.from(kept, (f) => amounts[f]!),
    planes: Float64Array.from(kept, (f) => planes[f]!),
  };
  return { input: next, kept, changed: locked };
}

/** Whether an edge lies within a flat face, in a quadrangle that it may cut the other way. */
function canTurn({ p, halves, normals: n, amounts }: MoveInput, h: number): boolean {
  const { t, opposite } = halves;
  const g = opposite[h]!;
  const [f, e] = [Math.floor(h / 3), Math.floor(g / 3)];
  if (amounts[f] !== amounts[e]) return false;
  if (n[3 * f]! * n[3 * e]! + n[3 * f + 1]! * n[3 * e + 1]! + n[3 * f + 2]! * n[3 * e + 2]! <= flat)
    return false;
  const [a, b, c, d] = [t[h]!, t[nextHalf(h)]!, t[previousHalf(h)]!, t[previousHalf(g)]!];
  const fan: number[] = [];
  const count = fanOf(halves, c, fan);
  if (c === d || fan.slice(0, count).some((k) => t[nextHalf(k)] === d)) return false;
  if (fanOf(halves, a, fan) <= 3 || fanOf(halves, b, fan) <= 3) return false;
  return over(p, n, f, c, d, b) > 0 && over(p, n, f, d, c, a) > 0;
}

/** Twice the area of a triangle, mm², positive where it faces as triangle `f` does. */
function over(p: Float64Array, n: Float64Array, f: number, a: number, b: number, c: number): number {
  const [ux, uy, uz] = [0, 1, 2].map((k) => p[3 * b + k]! - p[3 * a + k]!) as [number, number, number];
  const [vx, vy, vz] = [0, 1, 2].map((k) => p[3 * c + k]! - p[3 * a + k]!) as [number, number, number];
  return (
    (uy * vz - uz * vy) * n[3 * f]! +
    (uz * vx - ux * vz) * n[3 * f + 1]! +
    (ux * vy - uy * vx) * n[3 * f + 2]!
  );
}

/** Cuts the quadrangle round an edge a b the other way, from c to d. */
function turn({ t, opposite }: MoveInput['halves'], into: Uint32Array, h: number): void {
  const g = opposite[h]!;
  const [a, b, c, d] = [t[h]!, t[nextHalf(h)]!, t[previousHalf(h)]!, t[previousHalf(g)]!];
  into.set([a, d, c], 3 * Math.floor(h / 3));
  into.set([d, b, c], 3 * Math.floor(g / 3));
}

function lengthOf(p: Float64Array, v: number, w: number): number {
  const [x, y, z] = [p[3 * w]! - p[3 * v]!, p[3 * w + 1]! - p[3 * v + 1]!, p[3 * w + 2]! - p[3 * v + 2]!];
  return Math.sqrt(x * x + y * y + z * z);
}
