import type { Row, Sheet } from '../sheet.js';
import { ratioOf } from '../spread.js';
import { isTrial } from '../trial.js';
import { fullSize, gearWays } from './gear-ways.js';
import { milliseconds, times } from './words.js';

/** These turns warm up. */
const warm = isTrial ? 1 : 3;
const turns = isTrial ? 2 : 15;

/** The same gear against what any program on this kernel must do. */
export async function benchFloor(sheet: Sheet): Promise<void> {
  const found = await gearWays(fullSize, warm + turns, 'none');
  const row = (what: string, ours: readonly number[], floor: readonly number[], most?: number): Row => {
    const [mine, bare] = [ours.slice(-turns), floor.slice(-turns)];
    const ratio = ratioOf(mine, bare);
    return {
      what,
      measured: milliseconds(mine),
      against: milliseconds(bare),
      ratio: times(ratio),
      ...(most === undefined ? {} : { wanted: { words: `within ${most} ×`, met: ratio <= most } }),
    };
  };
  sheet.add(
    `The floor: bare manifold-3d and a bare file (${fullSize.name})`,
    'The floor: the same booleans of the same operands, which stand ready as meshes, nothing checked, and an STL without ' +
      'normals. The shape: tooth form, sections, loft, casting, pattern, gating, gated pattern, each mesh put in order and ' +
      'checked for self-intersection, the STL read back; stock, growth and gating given. Planned: these too, the air ' +
      'searched at several leanings, the finished part and its drawing. In turns in one process, warm.',
    [
      row('the shape: the gated pattern’s file', found.shape, found.floor, 2),
      row('planned, drawn and made: the gated pattern’s file', found.planned, found.floor),
      row('the same, and the files of part, casting and pattern', found.plannedAllFour, found.floorAllFour),
    ],
  );
}
