import { forCrossings } from './crossings.js';
import type { Flats } from './flat-faces.js';
import { findFolds } from './folds.js';
import { fanOf, type Halves, nextHalf } from './halves.js';
import type { MovedCorners, MoveInput } from './move-corners.js';
import { makeSkin } from './skin.js';

const mostRounds = 30;

/**
 * Moves vertices less far where the moved surface folds over, or crosses itself close by (with `everywhere`: or
 * anywhere), until it does not. What it is short by there is in the measured error.
 */
export function softenFolds(
  input: MoveInput,
  moved: MovedCorners,
  flats: Flats,
  everywhere: boolean,
  share: Float64Array,
): { moved: MovedCorners; sound: boolean } {
  const { halves, p } = input;
  const { t } = halves;
  const baseOf = new Uint32Array(moved.points.length / 3);
  for (let v = 0; v < halves.vertices; v++) baseOf[v] = v;
  for (let h = 0; h < t.length; h++) baseOf[moved.to[h]!] = t[h]!;
  const points = moved.points.slice();
  const now: MovedCorners = { ...moved, points };
  const place = (): void => {
    for (let i = halves.vertices; i < baseOf.length; i++) {
      const v = baseOf[i]!;
      if (share[v] === 1) continue;
      for (let k = 0; k < 3; k++)
        points[3 * i + k] = Math.fround(p[3 * v + k]! + share[v]! * (moved.points[3 * i + k]! - p[3 * v + k]!));
    }
  };
  let round = 0;
  const lessen = (bad: Uint8Array): Uint8Array => {
    const factor = round > 20 ? 0 : round > 10 ? 0.4 : 0.7;
    const vertices = new Uint8Array(halves.vertices);
    for (let f = 0; f < bad.length; f++) if (bad[f] === 1) for (let h = 3 * f; h < 3 * f + 3; h++) vertices[t[h]!] = 1;
    for (let v = 0; v < vertices.length; v++) if (vertices[v] === 1) share[v]! *= factor;
    place();
    round++;
    return vertices;
  };
  const unfold = (): Uint8Array => {
    const touched = new Uint8Array(halves.vertices);
    for (; round < mostRounds; ) {
      const folded = findFolds(input, now, flats);
      if (!folded.includes(1)) break;
      lessen(folded).forEach((v, i) => {
        if (v === 1) touched[i] = 1;
      });
    }
    return touched;
  };
  place();
  const chosen = new Uint8Array(t.length / 3).fill(1);
  const skin = makeSkin(halves, now, chosen, (v) => v, false, flats);
  unfold();
  let changed: Uint8Array | undefined;
  for (; round < mostRounds; ) {
    const bad = new Uint8Array(t.length / 3);
    let any = false;
    const from = (i: number, k: number): number => skin.from[2 * i + k]!;
    forCrossings(
      points,
      skin.t,
      (i, j) => {
        if (!everywhere && !areClose(halves, from(i, 0), from(j, 0)) && !areClose(halves, from(i, 1), from(j, 1))) return;
        any = true;
        for (const f of [from(i, 0), from(i, 1), from(j, 0), from(j, 1)]) bad[f] = 1;
      },
      changed ? { changed } : {},
    );
    if (!any) return { moved: now, sound: true };
    const touched = lessen(bad);
    unfold().forEach((v, i) => {
      if (v === 1) touched[i] = 1;
    });
    changed = new Uint8Array(skin.t.length / 3);
    for (let i = 0; i < skin.t.length; i++) if (touched[baseOf[skin.t[i]!]!] === 1) changed[Math.floor(i / 3)] = 1;
  }
  return { moved: now, sound: false };
}

/** Whether two triangles share a vertex or have vertices that an edge joins. */
function areClose(halves: Halves, f: number, g: number): boolean {
  const { t } = halves;
  const fan: number[] = [];
  for (let h = 3 * f; h < 3 * f + 3; h++) {
    const count = fanOf(halves, t[h]!, fan);
    for (let k = 3 * g; k < 3 * g + 3; k++) {
      if (t[k] === t[h]) return true;
      for (let i = 0; i < count; i++) if (t[nextHalf(fan[i]!)] === t[k]) return true;
    }
  }
  return false;
}
