/**
 * A face of several corners cut into triangles: ears are cut off one by one (Meisters 1975), asked exactly
 * (robust-predicates). No corner is left out, those in the middle of a straight side neither, so that every edge
 * still meets that of the face beside it.
 */
import { Bays, type CutBudget } from './bays.js';
import { turnOf } from './turn.js';

/**
 * Writes the triangles of one face, `loop.length` − 2 of them, into `out` from `to`.
 *
 * The face is seen along the axis nearest to its normal. One that crosses itself, or has no area, is cut all the
 * same: its outer edges stay and its inner ones pair up.
 *
 * @returns where the next face's triangles go
 */
export function cutFace(
  positions: Float64Array,
  loop: Uint32Array,
  out: Uint32Array,
  to: number,
  budget: CutBudget,
): number {
  const count = loop.length;
  if (count === 3) {
    out.set(loop, to);
    return to + 3;
  }
  const flat = flatten(positions, loop);
  if (count === 4) {
    const diagonal = quadDiagonal(positions, loop, flat);
    if (diagonal !== null) {
      const [a, b, c, d] = [0, 1, 2, 3].map((i) => loop[(i + diagonal) % 4]!) as [
        number,
        number,
        number,
        number,
      ];
      out.set([a, b, c, a, c, d], to);
      return to + 6;
    }
  }
  return cutEars(flat, loop, out, to, budget);
}

/** The loop's corners as x, y each, counter-clockwise on the whole, coordinates unchanged. */
function flatten(p: Float64Array, loop: Uint32Array): Float64Array {
  // Newell's normal, about the first corner.
  const o = 3 * loop[0]!;
  const normal: [number, number, number] = [0, 0, 0];
  for (let i = 1; i + 1 < loop.length; i++) {
    const [a, b] = [3 * loop[i]!, 3 * loop[i + 1]!];
    for (let k = 0; k < 3; k++) {
      const [u, v] = [(k + 1) % 3, (k + 2) % 3];
      normal[k]! += (p[a + u]! - p[o + u]!) * (p[b + v]! - p[o + v]!);
      normal[k]! -= (p[a + v]! - p[o + v]!) * (p[b + u]! - p[o + u]!);
    }
  }
  const sizes = normal.map(Math.abs);
  const axis = sizes.indexOf(Math.max(...sizes));
  const turned = normal[axis]! < 0;
  const [u, v] = [(axis + (turned ? 2 : 1)) % 3, (axis + (turned ? 1 : 2)) % 3];
  const flat = new Float64Array(2 * loop.length);
  loop.forEach((vertex, i) => {
    flat[2 * i] = p[3 * vertex + u]!;
    flat[2 * i + 1] = p[3 * vertex + v]!;
  });
  return flat;
}

/** The corner a four-sided face is cut from: 0 or 1, the shorter cut where both are inside; null where neither is. */
function quadDiagonal(p: Float64Array, loop: Uint32Array, flat: Float64Array): 0 | 1 | null {
  const inside = (i: number): boolean =>
    turnOf(flat, i, i + 1, i + 2) > 0 && turnOf(flat, i, i + 2, (i + 3) % 4) > 0;
  const [first, second] = [inside(0), inside(1)];
  if (!first && !second) return null;
  if (first !== second) return first ? 0 : 1;
  const square = (i: number, j: number): number => {
    const [a, b] = [3 * loop[i]!, 3 * loop[j]!];
    return (p[a]! - p[b]!) ** 2 + (p[a + 1]! - p[b + 1]!) ** 2 + (p[a + 2]! - p[b + 2]!) ** 2;
  };
  return square(0, 2) <= square(1, 3) ? 0 : 1;
}

function cutEars(
  flat: Float64Array,
  loop: Uint32Array,
  out: Uint32Array,
  to: number,
  budget: CutBudget,
): number {
  const count = loop.length;
  const before = Int32Array.from(loop, (_, i) => (i + count - 1) % count);
  const after = Int32Array.from(loop, (_, i) => (i + 1) % count);
  /** Above 0 at corners that stick out, and at those that are cut off. */
  const turns = Float64Array.from(loop, (_, i) => turnOf(flat, before[i]!, i, after[i]!));
  const bays = new Bays(flat, turns, budget);

  let left = count;
  let at = 0;
  let refused = 0;
  while (left > 3 && budget.left >= 0) {
    budget.left--;
    let corner = at;
    if (!(turns[corner]! > 0) || bays.standIn(before[corner]!, corner, after[corner]!)) {
      at = after[at]!;
      refused++;
      if (refused <= left) continue;
      corner = leastHarm(turns, after, at);
      budget.left -= left;
    }
    const [a, c] = [before[corner]!, after[corner]!];
    out[to++] = loop[a]!;
    out[to++] = loop[corner]!;
    out[to++] = loop[c]!;
    left--;
    refused = 0;
    after[a] = c;
    before[c] = a;
    if (!(turns[corner]! > 0)) bays.leave();
    turns[corner] = 1;
    for (const i of [a, c]) {
      const was = turns[i]! > 0;
      turns[i] = turnOf(flat, before[i]!, i, after[i]!);
      if (was && !(turns[i] > 0)) bays.add(i);
      if (!was && turns[i] > 0) bays.leave();
    }
    // From every second corner, so that the triangles do not all meet in one.
    at = after[c]!;
  }
  const b = after[at]!;
  out.set([loop[at]!, loop[b]!, loop[after[b]!]!], to);
  return to + 3;
}

/** Where no ear is left: a corner without area before one that sticks out before any. */
function leastHarm(turns: Float64Array, after: Int32Array, start: number): number {
  let outward = -1;
  let i = start;
  do {
    if (turns[i] === 0) return i;
    if (outward < 0 && turns[i]! > 0) outward = i;
    i = after[i]!;
  } while (i !== start);
  return outward < 0 ? start : outward;
}
