import type { VentPlace } from '../../part/contract.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import type { Cavity } from './cavity.js';
import { seatOnTop } from './domed-top.js';
import { flatAt, type Point } from './flat-room.js';
import type { FoundPocket } from './pockets.js';
import { pointOf } from './tops.js';

/**
 * The best place for a vent on the top of a pocket: on its flat, as wide as fits up to `largest`, under open mould, and
 * among the widest the nearest to the middle; on a top that has none, seated over its highest point. Null where not
 * even `least` fits. Upright cavities only.
 */
export function placeVent(
  name: string,
  pocket: FoundPocket,
  cavity: Cavity,
  pattern: Mesh,
  range: { readonly least: number; readonly largest: number },
): VentPlace | null {
  const flat = flatAt(cavity, pocket.peak, pattern);
  const middle: Point = [pocket.at[0], pocket.at[1]];
  const step = Math.max(1, Math.floor(flat.triangles.length / 300));
  const tried: Point[] = flat.triangles
    .filter((_, i) => i % step === 0)
    .map(([a, b, c]) => [(a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3]);
  if (flat.holding(middle) >= 0) tried.unshift(middle);
  let best: { readonly at: Point; readonly room: number } | null = null;
  for (const at of tried) {
    const room = flat.roomAt(at, range.largest / 2);
    if (2 * room < range.least || (best && room < best.room + 1e-3)) continue;
    const clear = flat.clearAt(at, room);
    if (2 * clear >= range.least && (!best || clear > best.room + 1e-3)) best = { at, room: clear };
  }
  if (!best) {
    const seated = seatOnTop(pattern, pointOf(cavity.mesh, pocket.peak), range);
    return seated && { name, ...seated };
  }
  const at: Vec3 = [best.at[0], best.at[1], flat.height];
  return { name, at, footDiameter: 2 * best.room };
}
