import type { Kernel, Mesh, Solid } from '../../solid/types.js';
import { findCrossings } from './crossings.js';
import { fanOf, type Halves } from './halves.js';
import type { MovedCorners, MoveInput } from './move-corners.js';
import { convexPieces } from './pieces.js';
import { makeSkin, meshOfSkin } from './skin.js';

export interface Settled {
  readonly mesh: Mesh;
  /** Triangles whose stock was joined on in pieces, since moving them alone would fold or cross the surface. */
  readonly joined: number;
}

/** How far slabs reach into the body, mm. */
const sunk = 0.02;
const mostRounds = 12;

/** Makes one sound surface of the moved triangles. */
export function settleMoved(kernel: Kernel, input: MoveInput, moved: MovedCorners, inward: boolean): Settled {
  const { halves } = input;
  const { t } = halves;
  const broken = findBroken(input, moved);
  const chosen = broken.map((b) => 1 - b);
  keepWhole(halves, chosen);
  let skin = makeSkin(halves, moved, chosen, (v) => v, false);
  let found = findCrossings(moved.points, skin.t);
  const clean = !found.any && found.flat === 0 && chosen.every((c) => c === 1);
  if (clean) return { mesh: meshOfSkin(moved.points, skin.t, inward), joined: 0 };
  for (let round = 0; found.any && round < mostRounds; round++) {
    let less = false;
    for (let i = 0; i < skin.t.length / 3; i++) {
      if (found.crossing[i] === 0) continue;
      for (const f of [skin.from[2 * i]!, skin.from[2 * i + 1]!]) {
        if (chosen[f] === 1) less = true;
        chosen[f] = 0;
      }
    }
    if (!less) break;
    keepWhole(halves, chosen);
    skin = makeSkin(halves, moved, chosen, (v) => v, false);
    found = findCrossings(moved.points, skin.t);
  }
  if (found.any) {
    chosen.fill(0);
    skin = makeSkin(halves, moved, chosen, (v) => v, false);
  }
  const rest = chosen.map((c, f) => (c === 0 && input.amounts[f]! + reach(moved, t, f) > 0 ? 1 : 0));
  const { points, slabs, pieces } = fillRest(input, moved, chosen, rest, broken);
  const joined = rest.reduce((sum, r) => sum + r, 0);
  return kernel.scope(() => {
    const body = kernel.fromMesh(meshOfSkin(moved.points, skin.t, inward));
    const added: Solid[] = [...slabs.map((s) => meshOfSkin(points, s)), ...pieces].map((m) => kernel.fromMesh(m));
    if (added.length === 0) return { mesh: body.mesh(), joined };
    return { mesh: (inward ? body.subtract(...added) : body.add(...added)).mesh(), joined };
  });
}

/** 1 where a corner of the triangle moves. */
function reach({ to }: MovedCorners, t: Uint32Array, f: number): number {
  return to[3 * f] !== t[3 * f] || to[3 * f + 1] !== t[3 * f + 1] || to[3 * f + 2] !== t[3 * f + 2] ? 1 : 0;
}

/** Triangles that turn over as they move, and those at vertices whose planes do not meet. */
function findBroken({ halves, normals: n }: MoveInput, { points: q, to, hard }: MovedCorners): Uint8Array {
  const { t } = halves;
  const broken = new Uint8Array(t.length / 3);
  for (let f = 0; f < broken.length; f++) {
    const [a, b, c] = [3 * to[3 * f]!, 3 * to[3 * f + 1]!, 3 * to[3 * f + 2]!];
    const [ux, uy, uz] = [q[b]! - q[a]!, q[b + 1]! - q[a + 1]!, q[b + 2]! - q[a + 2]!];
    const [vx, vy, vz] = [q[c]! - q[a]!, q[c + 1]! - q[a + 1]!, q[c + 2]! - q[a + 2]!];
    const lean =
      (uy * vz - uz * vy) * n[3 * f]! + (uz * vx - ux * vz) * n[3 * f + 1]! + (ux * vy - uy * vx) * n[3 * f + 2]!;
    const bad = hard[t[3 * f]!] === 1 || hard[t[3 * f + 1]!] === 1 || hard[t[3 * f + 2]!] === 1;
    if (bad || lean < 0) broken[f] = 1;
  }
  return broken;
}

/** Leaves out all triangles round vertices where the chosen would touch in a point only. */
function keepWhole(halves: Halves, chosen: Uint8Array): void {
  const fan: number[] = [];
  for (let again = true; again; ) {
    again = false;
    for (let v = 0; v < halves.vertices; v++) {
      const count = fanOf(halves, v, fan);
      let changes = 0;
      for (let i = 0; i < count; i++) {
        const here = chosen[Math.floor(fan[i]! / 3)];
        if (here !== chosen[Math.floor(fan[(i + 1) % count]! / 3)]) changes++;
      }
      if (changes <= 2) continue;
      for (let i = 0; i < count; i++) chosen[Math.floor(fan[i]! / 3)] = 0;
      again = true;
    }
  }
}

/** What fills the stock of the triangles that were not moved: slabs of connected ones, pieces of those that fold. */
function fillRest(
  input: MoveInput,
  moved: MovedCorners,
  chosen: Uint8Array,
  rest: Uint8Array,
  broken: Uint8Array,
): { points: Float64Array; slabs: Uint32Array[]; pieces: Mesh[] } {
  const { halves, p } = input;
  const count = moved.points.length / 3;
  const points = new Float64Array(3 * (count + halves.vertices));
  points.set(moved.points);
  for (let i = 0; i < p.length; i++) points[3 * count + i] = Math.fround(p[i]! - sunk * moved.way[i]!);
  const inner = (v: number): number => count + v;
  const loose = new Uint8Array(broken.length);
  for (let f = 0; f < loose.length; f++) if (rest[f] === 1 && broken[f] === 1) loose[f] = 1;
  const slabs: Uint32Array[] = [];
  for (const part of partsOf(halves, rest, loose)) {
    const mask = new Uint8Array(rest.length);
    for (const f of part) mask[f] = 1;
    // A ring of what was moved overlaps the slab with the body.
    for (const f of part)
      for (let h = 3 * f; h < 3 * f + 3; h++) {
        const g = Math.floor(halves.opposite[h]! / 3);
        if (chosen[g] === 1) mask[g] = 1;
      }
    for (let round = 0; round < mostRounds; round++) {
      keepWhole(halves, mask);
      const slab = makeSkin(halves, moved, mask, inner, true);
      const found = findCrossings(points, slab.t);
      if (!found.any) {
        if (slab.t.length > 0) slabs.push(slab.t);
        break;
      }
      for (let i = 0; i < slab.t.length / 3; i++)
        if (found.crossing[i] === 1) {
          mask[slab.from[2 * i]!] = 0;
          mask[slab.from[2 * i + 1]!] = 0;
        }
      if (round === mostRounds - 1) mask.fill(0);
    }
    for (const f of part) if (mask[f] === 0) loose[f] = 1;
  }
  const whole = broken.map((b) => 1 - b);
  return { points, slabs, pieces: convexPieces(input, moved, loose, whole) };
}

/** The triangles of `rest` that are not `but`, in sets joined by edges. */
function partsOf({ opposite }: Halves, rest: Uint8Array, but: Uint8Array): number[][] {
  const seen = Uint8Array.from(rest, (r, f) => (r === 1 && but[f] === 0 ? 0 : 1));
  const parts: number[][] = [];
  for (let f = 0; f < seen.length; f++) {
    if (seen[f] === 1) continue;
    seen[f] = 1;
    const part = [f];
    for (const e of part)
      for (let h = 3 * e; h < 3 * e + 3; h++) {
        const g = Math.floor(opposite[h]! / 3);
        if (seen[g] === 1) continue;
        seen[g] = 1;
        part.push(g);
      }
    parts.push(part);
  }
  return parts;
}
