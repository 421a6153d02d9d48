import { forCrossings } from './crossings.js';
import type { Flats } from './flat-faces.js';
import { findFolds } from './folds.js';
import { fanOf, type Halves, nextHalf } from './halves.js';
import type { MovedCorners, MoveInput } from './move-corners.js';
import { makeSkin, type Skin } from './skin.js';

const mostRounds = 80;

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
        points[3 * i + k] = Math.fround(
          p[3 * v + k]! + share[v]! * (moved.points[3 * i + k]! - p[3 * v + k]!),
        );
    }
  };
  let round = 0;
  const lessen = (bad: Uint8Array): Uint8Array => {
    const factor = round > 20 ? 0 : round > 10 ? 0.4 : 0.7;
    const vertices = new Uint8Array(halves.vertices);
    for (let f = 0; f < bad.length; f++)
      if (bad[f] === 1) for (let h = 3 * f; h < 3 * f + 3; h++) vertices[t[h]!] = 1;
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
  const whole = makeSkin(halves, now, chosen, (v) => v, false, flats);
  unfold();
  let changed: Uint8Array | undefined;
  let touched: Uint8Array = new Uint8Array(0);
  const isTouched = (list: Uint32Array, i: number): number =>
    touched[baseOf[list[3 * i]!]!] === 1 ||
    touched[baseOf[list[3 * i + 1]!]!] === 1 ||
    touched[baseOf[list[3 * i + 2]!]!] === 1
      ? 1
      : 0;
  for (; round < mostRounds; ) {
    const skin = withoutWalls(whole, (i) => (share[baseOf[i]!] === 0 ? baseOf[i]! : i));
    if (changed) changed = Uint8Array.from({ length: skin.t.length / 3 }, (_, i) => isTouched(skin.t, i));
    const bad = new Uint8Array(t.length / 3);
    let any = false;
    const from = (i: number, k: number): number => skin.from[2 * i + k]!;
    forCrossings(
      points,
      skin.t,
      (i, j) => {
        if (
          !everywhere &&
          !areClose(halves, from(i, 0), from(j, 0)) &&
          !areClose(halves, from(i, 1), from(j, 1))
        )
          return;
        any = true;
        for (const f of [from(i, 0), from(i, 1), from(j, 0), from(j, 1)]) bad[f] = 1;
      },
      changed ? { changed } : {},
    );
    if (!any) return { moved: now, sound: true };
    touched = lessen(bad);
    unfold().forEach((v, i) => {
      if (v === 1) touched[i] = 1;
    });
    changed = touched;
  }
  return { moved: now, sound: false };
}

/** The surface with points that have fallen back on their vertices made one with them. */
function withoutWalls({ t, from }: Skin, nameOf: (point: number) => number): Skin {
  const list = new Uint32Array(t.length);
  const kept = new Uint32Array(from.length);
  let size = 0;
  for (let i = 0; i < t.length / 3; i++) {
    const [a, b, c] = [nameOf(t[3 * i]!), nameOf(t[3 * i + 1]!), nameOf(t[3 * i + 2]!)];
    if (a === b || b === c || c === a) continue;
    list.set([a, b, c], 3 * size);
    kept.set([from[2 * i]!, from[2 * i + 1]!], 2 * size);
    size++;
  }
  return { t: list.slice(0, 3 * size), from: kept.slice(0, 2 * size) };
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
