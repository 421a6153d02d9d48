import { builtMain } from '../built-program.js';
import { measureChild } from '../child.js';
import type { GearWaysResult } from '../programs/gear-ways.js';
import type { Row, Sheet } from '../sheet.js';
import { spreadOf } from '../spread.js';
import { isTrial } from '../trial.js';
import { smallSizes as allSmallSizes, fullSize, type GearSize, gearWays } from './gear-ways.js';
import { many, milliseconds, times } from './words.js';

const wantedRatio = 500;
const smallSizes = isTrial ? allSmallSizes.slice(0, 1) : allSmallSizes;
const turns = isTrial ? 2 : 9;

/** A double-helical gear against the same wholly by @jscad/modeling; the full size takes long and is asked for. */
export async function benchModeling(sheet: Sheet): Promise<void> {
  const full = process.env.PATTERNWRIGHT_BENCH_FULL === '1';
  const rows: Row[] = [];
  for (const size of full ? [...smallSizes, fullSize] : smallSizes) {
    for (const way of ['own', 'lent'] as const) {
      const found = await gearWays(size, turns, way);
      const modeling = found.modeling as number;
      const ratio = modeling / spreadOf(found.shape).median;
      rows.push({
        what: `${size.name}, ${way === 'own' ? 'by its own means' : 'lent our outlines and sections'}`,
        measured: `${milliseconds(found.shape)}; ${many(found.triangles.ours, 'triangles')}`,
        against: `${(modeling / 1e3).toFixed(2)} s; ${many(found.triangles.modeling ?? 0, 'triangles')}`,
        ratio: times(ratio),
        ...(way === 'own' && size === fullSize
          ? { wanted: { words: `at least ${wantedRatio} ×`, met: ratio >= wantedRatio } }
          : {}),
      });
      if (way === 'own' && size === (full ? fullSize : smallSizes.at(-1)))
        rows.push(planned(size, found, modeling), await wholeMake(size, modeling / 1e3));
    }
  }
  sheet.add(
    'A double-helical gear against @jscad/modeling',
    'From parameters to the gated, vented pattern as binary STL on the disk; stock, growth and gating are given to both ' +
      'sides, and ours checks each mesh on its way. Medians and quarters of warm runs in one process. Against the same ' +
      'construction wholly by @jscad/modeling and its serializer, one run. By its own means: twisted extrusions of a ' +
      'tooth whose curves are divided evenly, within the same tolerance. Volumes agree within 0.5 %.' +
      (full
        ? ''
        : ` The full size (${fullSize.name}) is left out; it is measured with PATTERNWRIGHT_BENCH_FULL=1.`),
    rows,
  );
}

/** With all that is decided: stock, growth, gating, the air; and the first time, before the engine has warmed to it. */
function planned({ name }: GearSize, found: GearWaysResult, modeling: number): Row {
  const [first, ...warm] = found.planned;
  return {
    what: `${name}, planned and drawn as well`,
    measured: `${milliseconds(warm)}, the first ${(first as number).toFixed(0)} ms`,
    against: `${(modeling / 1e3).toFixed(2)} s`,
    ratio: times(modeling / spreadOf(warm).median),
  };
}

/** The command itself: start-up, part, casting and pattern too, drawing, plate, traveller. */
async function wholeMake({ name, parameters, tolerance }: GearSize, modeling: number): Promise<Row> {
  const options = Object.entries({ ...parameters, tolerance: `${tolerance}mm` }).flatMap(([key, value]) => [
    `--${key.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`,
    String(value),
  ]);
  const argv = ['make', 'double-helical-gear', ...options, '--freeze', 'off', '--quiet'];
  const walls: number[] = [];
  for (let turn = 0; turn < 3; turn++) walls.push((await measureChild(builtMain, argv)).wall);
  const { median } = spreadOf(walls);
  return {
    what: `${name}, the whole \`make\` from a cold start: every file and paper`,
    measured: `${median.toFixed(2)} s`,
    against: `${modeling.toFixed(2)} s, one file`,
    ratio: times(modeling / median),
  };
}
