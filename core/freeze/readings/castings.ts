import { type CastFields, cellRole } from '../cast-fields.js';
import { CellWalk } from './cells.js';

/** One casting of the mould. */
export interface Casting {
  /** Its cell that is solid last; of equal ones the first. */
  readonly latest: number;
  /** mm³ */
  readonly volume: number;
}

/** Metal of a casting in one piece that is smaller than this share of the largest is a crumb of the cells. */
const crumbShare = 0.01;

/** The castings, told apart by the gating between them. */
export function largeCastings(
  fields: CastFields,
  cells: Int32Array,
  leastVolume: number,
): readonly Casting[] {
  const { grid, role, solidAt } = fields;
  const seen = new Uint8Array(grid.size);
  const walk = new CellWalk(fields);
  const all: Casting[] = [];
  const queue = new Int32Array(cells.length);
  for (const start of cells) {
    if (role[start] !== cellRole.casting || seen[start] === 1) continue;
    let [latest, volume, end] = [start, 0, 1];
    queue[0] = start;
    seen[start] = 1;
    for (let n = 0; n < end; n++) {
      const c = queue[n]!;
      volume += walk.metal(c);
      if (solidAt[c]! > solidAt[latest]! || (solidAt[c] === solidAt[latest] && c < latest)) latest = c;
      const count = walk.look(c);
      for (let b = 0; b < count; b++) {
        const next = walk.beside[b]!;
        if (role[next] !== cellRole.casting || seen[next] === 1 || solidAt[next] === 0) continue;
        seen[next] = 1;
        queue[end++] = next;
      }
    }
    all.push({ latest, volume });
  }
  const most = all.reduce((a, { volume }) => Math.max(a, volume), 0);
  return all.filter(({ volume }) => volume >= Math.max(leastVolume, crumbShare * most));
}
