import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect } from 'vitest';
import { ensureBuilt, runBuilt } from '../../cli/helpers/built.js';
import { temporaryFolder } from '../../cli/helpers/folders.js';

export interface MadeFolder {
  readonly folder: string;
  read(path: string): Uint8Array;
}

/** The built command line beside the page: `make(job)` gives the folder it writes for a job's text. */
export function commandLine(): { make(job: string): MadeFolder } {
  const top = temporaryFolder();
  let count = 0;
  beforeAll(ensureBuilt, 180_000);
  return {
    make(job) {
      const cwd = join(top, String(++count));
      mkdirSync(cwd);
      writeFileSync(join(cwd, 'job.yaml'), job);
      const ran = runBuilt(['plate', 'job.yaml', '--out', 'out'], { cwd, timeout: 120_000 });
      expect(ran.code, ran.err).toBe(0);
      const folder = join(cwd, 'out');
      return { folder, read: (path) => readFileSync(join(folder, path)) };
    },
  };
}
