import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { beforeAll, expect } from 'vitest';
import { ensureBuilt, runBuilt } from '../../cli/helpers/built.js';
import { temporaryFolder } from '../../cli/helpers/folders.js';

export interface MadeFolder {
  readonly folder: string;
  read(path: string): Uint8Array;
}

/** The built command line beside the page: `make(job)` gives the folder it writes for a job's text, with files beside it. */
export function commandLine(): {
  make(job: string, beside?: Readonly<Record<string, Uint8Array>>): MadeFolder;
} {
  const top = temporaryFolder();
  let count = 0;
  beforeAll(ensureBuilt);
  return {
    make(job, beside = {}) {
      const cwd = join(top, String(++count));
      mkdirSync(cwd);
      writeFileSync(join(cwd, 'job.yaml'), job);
      for (const [name, bytes] of Object.entries(beside)) {
        mkdirSync(dirname(join(cwd, name)), { recursive: true });
        writeFileSync(join(cwd, name), bytes);
      }
      const ran = runBuilt(['plate', 'job.yaml', '--out', 'out'], { cwd });
      expect(ran.code, ran.err).toBe(0);
      const folder = join(cwd, 'out');
      return { folder, read: (path) => readFileSync(join(folder, path)) };
    },
  };
}
