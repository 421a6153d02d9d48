import { heightOver } from './join-pieces.js';
import type { Sheet } from './sheet.js';
import type { Candidate } from './surface.js';

/** A corner may stray so many times as far as those of its surface, which were chosen for straying little. */
const further = 2;

/**
 * The surfaces with the specks in them: triangles of none that only one surface surrounds and whose corners lie near it,
 * as a scan's worst corners leave behind.
 */
export function fillSpecks(sheet: Sheet, found: readonly Candidate[]): readonly Candidate[] {
  const surfaceOf = new Int32Array(sheet.triangles).fill(-1);
  for (const [i, { triangles }] of found.entries()) for (const f of triangles) surfaceOf[f] = i;
  const isSeen = new Uint8Array(sheet.triangles);
  const added: number[][] = found.map(() => []);
  const reaches: (Reach | undefined)[] = found.map(() => undefined);
  for (let seed = 0; seed < sheet.triangles; seed++) {
    if (surfaceOf[seed] !== -1 || isSeen[seed] === 1) continue;
    const speck = [seed];
    isSeen[seed] = 1;
    let about = -1;
    let isOne = true;
    for (let at = 0; at < speck.length; at++)
      for (let h = 3 * speck[at]!; h < 3 * speck[at]! + 3; h++) {
        const f = sheet.beyond[h]!;
        if (f < 0) isOne = false;
        else if (surfaceOf[f] !== -1) {
          if (about !== -1 && about !== surfaceOf[f]) isOne = false;
          about = surfaceOf[f]!;
        } else if (isSeen[f] === 0) {
          isSeen[f] = 1;
          speck.push(f);
        }
      }
    if (!isOne || about === -1) continue;
    const reach = reaches[about] ?? reachOf(found[about]!, sheet.exact);
    reaches[about] = reach;
    if (liesNear(sheet, speck, reach)) for (const f of speck) added[about]!.push(f);
  }
  return found.map((surface, i) =>
    added[i]!.length === 0 ? surface : { ...surface, triangles: [...surface.triangles, ...added[i]!] },
  );
}

/** How near a corner must lie to a surface, mm, and how far it does: worked out once for each surface that is asked. */
interface Reach {
  readonly most: number;
  readonly measure: (x: number, y: number, z: number) => number;
}

function reachOf(surface: Candidate, exact: number): Reach {
  const measure = heightOver(surface);
  let most = exact;
  for (let i = 0; i < surface.points.length; i += 3)
    most = Math.max(
      most,
      Math.abs(measure(surface.points[i]!, surface.points[i + 1]!, surface.points[i + 2]!)),
    );
  return { most: further * most, measure };
}

const liesNear = (
  { corners, positions: p }: Sheet,
  speck: readonly number[],
  { most, measure }: Reach,
): boolean =>
  speck.every((f) => {
    for (let h = 3 * f; h < 3 * f + 3; h++) {
      const v = 3 * corners[h]!;
      if (Math.abs(measure(p[v]!, p[v + 1]!, p[v + 2]!)) > most) return false;
    }
    return true;
  });
