import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/**
 * The built page's folder, or undefined where it has not been built. It stands in `dist` beside the built command,
 * which the build may have joined into fewer files, and above the sources.
 */
export function findPageFolder(from: string = import.meta.url): string | undefined {
  for (const way of ['../page/', '../../page/', '../../dist/page/']) {
    const folder = new URL(way, from);
    if (existsSync(new URL('index.html', folder))) return fileURLToPath(folder);
  }
  return undefined;
}
