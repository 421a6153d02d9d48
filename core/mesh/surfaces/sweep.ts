import { maths } from '../../maths/maths.js';
import { dot } from '../../shape/vector.js';
import { across } from './cylinder-fit.js';
import type { Sheet } from './sheet.js';
import type { Cylinder } from './surface.js';

const sectors = 720;
const sector = (2 * Math.PI) / sectors;

/** Less of a circle is no surface of its own, radians: 40°. */
const leastSweep = 0.7;

export const isLongArc = (sheet: Sheet, triangles: Iterable<number>, cylinder: Cylinder): boolean =>
  sweepOf(sheet, triangles, cylinder).sweep >= leastSweep;

/** How much of the circle triangles cover, and the widest gap they leave; radians, to half a degree. */
export function sweepOf(
  { corners, positions: p }: Sheet,
  triangles: Iterable<number>,
  { point, direction }: Cylinder,
): { readonly sweep: number; readonly gap: number } {
  const [u, v] = across(direction);
  const [cu, cv] = [dot(point, u), dot(point, v)];
  const isCovered = new Uint8Array(sectors);
  for (const f of triangles) {
    let [least, most, first] = [0, 0, 0];
    for (let h = 3 * f; h < 3 * f + 3; h++) {
      const i = 3 * corners[h]!;
      const x = p[i]! * u[0] + p[i + 1]! * u[1] + p[i + 2]! * u[2] - cu;
      const y = p[i]! * v[0] + p[i + 1]! * v[1] + p[i + 2]! * v[2] - cv;
      const at = (maths.atan2(y, x) / (2 * Math.PI)) * sectors;
      if (h === 3 * f) first = at;
      // The way round from the first corner that is less than half a turn.
      let turn = at - first;
      if (turn > sectors / 2) turn -= sectors;
      if (turn < -sectors / 2) turn += sectors;
      least = Math.min(least, turn);
      most = Math.max(most, turn);
    }
    for (let s = Math.floor(first + least + 0.5); s < first + most; s++)
      isCovered[((s % sectors) + sectors) % sectors] = 1;
  }
  const first = isCovered.indexOf(1);
  let [widest, gap] = [0, 0];
  for (let s = first; s < first + sectors; s++) {
    gap = isCovered[s % sectors] === 1 ? 0 : gap + 1;
    widest = Math.max(widest, gap);
  }
  const covered = isCovered.reduce((sum, c) => sum + c, 0);
  return { sweep: covered * sector, gap: widest * sector };
}
