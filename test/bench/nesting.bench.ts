import { test } from 'vitest';
import { loadKernel } from '../../core/solid/index.js';
import { measureDensity } from '../helpers/plate-density.js';
import { plateJobs } from '../helpers/plate-jobs.js';

const percent = (share: number): string => `${Math.round(100 * share)}`;

/** Bed-nights of five of our own jobs: the table in DEVELOPERS, "Plates". */
test('plates by silhouettes against plates by rectangles', async () => {
  const kernel = await loadKernel();
  console.log(
    '| job | patterns | rectangles | silhouettes | at least | fewer, % | at most, % | beds covered, % |',
  );
  console.log('| --- | --- | --- | --- | --- | --- | --- | --- |');
  for (const [name, text] of Object.entries(plateJobs)) {
    const { patterns, rectangles, plates, least, filled } = measureDensity(text, kernel);
    const fewer = (beds: number): string => percent(1 - beds / rectangles);
    console.log(
      `| ${name} | ${patterns} | ${rectangles} | ${plates} | ${least} | ${fewer(plates)} | ${fewer(least)} | ${filled.map(percent).join(', ')} |`,
    );
  }
});
