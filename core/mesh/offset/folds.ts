import { type Flats, runsBack } from './flat-faces.js';
import type { MovedCorners, MoveInput } from './move-corners.js';

/** Triangles that turn over as they move, or have an edge that does; faces that were cut anew have none. */
export function findFolds(
  { p, halves, normals: n }: MoveInput,
  { points: q, to }: MovedCorners,
  flats?: Flats,
): Uint8Array {
  const { t } = halves;
  const folded = new Uint8Array(t.length / 3);
  for (let f = 0; f < folded.length; f++) {
    if (flats && flats.faceOf[f]! >= 0) continue;
    const [a, b, c] = [3 * to[3 * f]!, 3 * to[3 * f + 1]!, 3 * to[3 * f + 2]!];
    const [ux, uy, uz] = [q[b]! - q[a]!, q[b + 1]! - q[a + 1]!, q[b + 2]! - q[a + 2]!];
    const [vx, vy, vz] = [q[c]! - q[a]!, q[c + 1]! - q[a + 1]!, q[c + 2]! - q[a + 2]!];
    const lean =
      (uy * vz - uz * vy) * n[3 * f]! +
      (uz * vx - ux * vz) * n[3 * f + 1]! +
      (ux * vy - uy * vx) * n[3 * f + 2]!;
    // A face that has shrunk past nothing is turned half round in its plane: its edges run the other way.
    if (lean < 0 || [0, 1, 2].some((k) => runsBack(p, t, q, to, 3 * f + k))) folded[f] = 1;
  }
  return folded;
}

/** Triangles at vertices whose planes do not meet in a point. */
export function findHard({ halves }: MoveInput, { hard }: MovedCorners): Uint8Array {
  const { t } = halves;
  return Uint8Array.from({ length: t.length / 3 }, (_, f) =>
    hard[t[3 * f]!] === 1 || hard[t[3 * f + 1]!] === 1 || hard[t[3 * f + 2]!] === 1 ? 1 : 0,
  );
}

/** Triangles whose faces have to be cut anew: those that fold, and those at jogs. */
export function findMisfits(input: MoveInput, moved: MovedCorners): Uint8Array {
  const { t } = input.halves;
  const found = findFolds(input, moved);
  for (let h = 0; h < t.length; h++) if (moved.jog[t[h]!] === 1) found[Math.floor(h / 3)] = 1;
  return found;
}
