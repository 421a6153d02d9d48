import { beforeAll, describe, expect, it } from 'vitest';
import { plate } from '../../../cli/api.js';
import { bytesOf, demoJob, type WrittenJob, written } from '../../helpers/written-job.js';
import { plateSuite } from './written/plate-suite.js';
import { stlSuite } from './written/stl-suite.js';
import { summarySuite } from './written/summary-suite.js';
import { travellerSuite } from './written/traveller-suite.js';

/** All that `patternwright plate gallery/ropewalk/job.yaml` writes, read back with readers that share no code with core. */
let demo: WrittenJob;
beforeAll(async () => {
  demo = written(await plate(demoJob));
});
const job = (): WrittenJob => demo;

/** Bored gears are rings, closed by the sprue's foot; a pull's eye and pin hole are two, the hole left to drill in metal. */
const gear = { part: 1, casting: 1, pattern: 1, gated: 0 };
const pull = { part: 2, casting: 1, pattern: 1, gated: 1 };

stlSuite(job, {
  'main-wheel': gear,
  'strand-pinion': gear,
  'layer-top-gear': gear,
  'tension-pinion': gear,
  'sail-locker-pull': pull,
  'tool-drawer-pull': pull,
});
plateSuite(job);
summarySuite(job);
travellerSuite(job);

describe('the same job again', () => {
  it('gives the same bytes in every file, in the same order', async () => {
    const again = written(await plate(demoJob));
    expect([...again.files.keys()]).toEqual([...demo.files.keys()]);
    const changed = [...demo.files.keys()].filter(
      (path) => !Buffer.from(bytesOf(demo.files, path)).equals(bytesOf(again.files, path)),
    );
    expect(changed).toEqual([]);
  });

  it('every preview is a PNG of some size', () => {
    for (const part of demo.summary.parts) {
      const png = bytesOf(demo.files, part.files.preview);
      expect([...png.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
      expect(png.length).toBeGreaterThan(5000);
    }
  });
});
