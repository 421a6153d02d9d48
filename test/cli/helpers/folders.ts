import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

/** A folder outside the project, deleted when the test file ends. */
export function temporaryFolder(): string {
  const path = mkdtempSync(join(tmpdir(), 'patternwright-test-'));
  afterAll(() => rmSync(path, { recursive: true, force: true, maxRetries: 3 }));
  return path;
}

/** Every file below a folder with the hash of its bytes, and every empty folder; sorted. */
export function listing(folder: string, below = ''): readonly string[] {
  const names = readdirSync(join(folder, below)).sort();
  if (names.length === 0 && below !== '') return [`${below}/`];
  return names.flatMap((name) => {
    const path = below === '' ? name : `${below}/${name}`;
    if (statSync(join(folder, path)).isDirectory()) return listing(folder, path);
    return [
      `${path} ${createHash('sha256')
        .update(readFileSync(join(folder, path)))
        .digest('hex')}`,
    ];
  });
}
