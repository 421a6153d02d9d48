/** A step of the page's build, in Node. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'rolldown';
import type { Plugin } from 'vite';

/** Stands beside the page's `index.html`: what may keep the page must not lie below it. */
export const workerFile = 'offline.js';

export interface BuiltFiles {
  /** Changes with any name or byte of the files. */
  readonly version: string;
  /** Sorted, relative to the folder, with `/`. */
  readonly files: readonly string[];
}

/** Every file of a built page but the worker itself, maps for developers and names that begin with a dot. */
export function listFiles(folder: string): BuiltFiles {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .filter((file) => file !== workerFile && !file.endsWith('.map') && !/(^|\/)\./.test(file))
    .sort();
  const hash = createHash('sha256');
  for (const file of files) {
    const bytes = readFileSync(join(folder, file));
    hash.update(`${file}\0${bytes.length}\0`).update(bytes);
  }
  return { version: hash.digest('hex').slice(0, 16), files };
}

/** The worker as one plain script with its list in it: a changed list is a changed worker. */
export async function workerScript(files: BuiltFiles): Promise<string> {
  const { output } = await build({
    input: fileURLToPath(new URL('service-worker.ts', import.meta.url)),
    write: false,
    output: { format: 'iife', minify: true, banner: `const built = ${JSON.stringify(files)};` },
  });
  return output[0].code;
}

/** For `plugins` of the page's build: when all is written, writes `offline.js` beside it. */
export const offlinePlugin = (): Plugin => ({
  name: 'patternwright-offline',
  apply: 'build',
  enforce: 'post',
  writeBundle: {
    order: 'post',
    sequential: true,
    async handler({ dir }) {
      if (dir === undefined) return;
      writeFileSync(join(dir, workerFile), await workerScript(listFiles(dir)));
    },
  },
});
