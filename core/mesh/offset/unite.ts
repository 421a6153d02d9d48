import type { Kernel, Mesh, Solid } from '../../solid/types.js';
import { forCrossings } from './crossings.js';
import type { Flats } from './flat-faces.js';
import { fanOf, type Halves } from './halves.js';
import type { MovedCorners, MoveInput } from './move-corners.js';
import { convexPieces } from './pieces.js';
import { makeSkin, meshOfSkin } from './skin.js';

/** How far slabs reach into the body, mm. */
const sunk = 0.02;
const mostRounds = 12;

/** What a moved surface that crosses itself is united from. */
export interface Parts {
  /** The body with the stock that can simply be moved. */
  readonly body: Mesh;
  /** Stock of the rest: slabs of connected triangles, convex pieces of those that fold. */
  readonly added: readonly Mesh[];
  /** Triangles whose stock is in `added`; those of them in convex pieces. */
  readonly joined: number;
  readonly loose: Uint8Array;
}

/** Parts that are each free of crossings. `broken`: triangles that cannot be moved. */
export function partSkin(
  input: MoveInput,
  moved: MovedCorners,
  flats: Flats,
  broken: Uint8Array,
  inward: boolean,
): Parts {
  const { halves, p } = input;
  const { t } = halves;
  const chosen = broken.map((b) => 1 - b);
  const stay = (v: number): number => v;
  const body = settle(halves, flats, chosen, moved.points, () =>
    makeSkin(halves, moved, chosen, stay, false, flats),
  );
  const rest = chosen.map((c, f) => (c === 0 && moves(moved, t, f) ? 1 : 0));
  const count = moved.points.length / 3;
  const points = new Float64Array(3 * (count + halves.vertices));
  points.set(moved.points);
  for (let i = 0; i < p.length; i++) points[3 * count + i] = Math.fround(p[i]! - sunk * moved.way[i]!);
  const loose = Uint8Array.from(rest, (r, f) => (r === 1 && broken[f] === 1 ? 1 : 0));
  const added: Mesh[] = [];
  for (const part of partsOf(halves, rest, loose)) {
    const mask = new Uint8Array(rest.length);
    for (const f of part) mask[f] = 1;
    // A ring of what was moved overlaps the slab with the body.
    for (const f of part)
      for (let h = 3 * f; h < 3 * f + 3; h++) {
        const g = Math.floor(halves.opposite[h]! / 3);
        if (chosen[g] === 1) mask[g] = 1;
      }
    const slab = settle(halves, flats, mask, points, () =>
      makeSkin(halves, moved, mask, (v) => count + v, true, flats),
    );
    if (slab.length > 0) added.push(meshOfSkin(points, slab));
    for (const f of part) if (mask[f] === 0) loose[f] = 1;
  }
  // Moved triangles lean away from those beside them that did not move: theirs are made as well.
  const whole = broken.map((b) => 1 - b);
  const ring = withNeighbours(halves, loose);
  added.push(...convexPieces(input, moved, ring, whole));
  const joined = rest.reduce((sum, r) => sum + r, 0);
  return { body: meshOfSkin(moved.points, body, inward), added, joined, loose };
}

/** One solid of the parts; its mesh. */
export function uniteParts(kernel: Kernel, { body, added }: Parts, inward: boolean): Mesh {
  return kernel.scope(() => {
    const start = kernel.fromMesh(body);
    const more: Solid[] = added.map((mesh) => kernel.fromMesh(mesh));
    if (more.length === 0) return start.mesh();
    return (inward ? start.subtract(...more) : start.add(...more)).mesh();
  });
}

/** Takes triangles that cross out of the chosen until none do; the surface of the rest. */
function settle(
  halves: Halves,
  flats: Flats,
  chosen: Uint8Array,
  points: Float64Array,
  make: () => { t: Uint32Array; from: Uint32Array },
): Uint32Array {
  for (let round = 0; ; round++) {
    if (round === mostRounds) chosen.fill(0);
    keepWhole(halves, chosen, flats);
    const skin = make();
    const crossing = new Uint8Array(skin.t.length / 3);
    forCrossings(
      points,
      skin.t,
      (i, j) => {
        crossing[i] = 1;
        crossing[j] = 1;
      },
      { known: crossing },
    );
    let less = false;
    for (let i = 0; i < crossing.length; i++)
      if (crossing[i] === 1)
        for (const f of [skin.from[2 * i]!, skin.from[2 * i + 1]!]) {
          if (chosen[f] === 1) less = true;
          chosen[f] = 0;
        }
    if (!less || round === mostRounds) return skin.t;
  }
}

/** The triangles, and all that share a vertex with one of them. */
function withNeighbours({ t, vertices }: Halves, chosen: Uint8Array): Uint8Array {
  const touched = new Uint8Array(vertices);
  for (let h = 0; h < t.length; h++) if (chosen[Math.floor(h / 3)] === 1) touched[t[h]!] = 1;
  return chosen.map((_, f) =>
    touched[t[3 * f]!] === 1 || touched[t[3 * f + 1]!] === 1 || touched[t[3 * f + 2]!] === 1 ? 1 : 0,
  );
}

/** Whether a corner of the triangle moves. */
const moves = ({ to }: MovedCorners, t: Uint32Array, f: number): boolean =>
  to[3 * f] !== t[3 * f] || to[3 * f + 1] !== t[3 * f + 1] || to[3 * f + 2] !== t[3 * f + 2];

/** Leaves out all triangles round vertices where the chosen would touch in a point only; faces cut anew stay whole. */
function keepWhole(halves: Halves, chosen: Uint8Array, { faces }: Flats): void {
  const fan: number[] = [];
  for (let again = true; again; ) {
    again = false;
    for (const { members, t } of faces) {
      if (t.length === 0 || members.every((f) => chosen[f] === chosen[members[0]!])) continue;
      for (const f of members) chosen[f] = 0;
    }
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
