/** `node dist/gallery/pictures/main.js <outDir>`: the wall's pictures and list, for the page's build. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadKernel } from '../../core/solid/index.js';
import { type HungPiece, wall } from '../ropewalk/wall.js';
import { makeWall } from './make-wall.js';

const [outDir] = process.argv.slice(2);
if (outDir === undefined) {
  process.stderr.write('pictures: name the folder to write\n');
  process.exit(2);
}
mkdirSync(outDir, { recursive: true });
const jobs = [...new Set(wall.map(({ job }) => job))];
for (const { name, bytes } of makeWall(
  new Map(jobs.map((job) => [job, readJobFile(job)])),
  await loadKernel(),
))
  writeFileSync(join(outDir, name), bytes);

/** The jobs stand with the sources: above this file, or above `dist` when it runs from there. */
function readJobFile(job: HungPiece['job']): string {
  for (const up of ['../', '../../../gallery/']) {
    try {
      return readFileSync(new URL(`${up}ropewalk/${job}`, import.meta.url), 'utf8');
    } catch {
      // Look further up.
    }
  }
  throw new Error(`gallery/ropewalk/${job} is not there`);
}
