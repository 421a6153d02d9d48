import { existsSync, mkdtempSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { nodeFolderSystem as system } from '../../../core/files/folder-system.js';
import { makeParents } from '../../../core/files/make-parents.js';

describe('folders on the way', () => {
  let root = '';
  beforeEach(() => {
    root = mkdtempSync(join(tmpdir(), 'patternwright-test-'));
  });
  afterEach(() => {
    rmSync(root, { recursive: true });
  });

  test('the missing ones are made, and the first of them is told', async () => {
    expect(await makeParents(system, join(root, 'a/b/c'), 0o700)).toBe(join(root, 'a'));
    expect(statSync(join(root, 'a/b/c')).mode & 0o777).toBe(0o700);
    expect(await makeParents(system, join(root, 'a/b'))).toBeUndefined();
    expect(await makeParents(system, join(root, 'a/b/d/e'))).toBe(join(root, 'a/b/d'));
  });

  test('two runs at once make the same', async () => {
    const path = join(root, 'a/b/c/d/e');
    await Promise.all(Array.from({ length: 8 }, () => makeParents(system, path)));
    expect(statSync(path).isDirectory()).toBe(true);
  });

  test('a link that leads nowhere is told as that; what was made is taken away', async () => {
    symlinkSync(join(root, 'nowhere'), join(root, 'link'));
    await expect(makeParents(system, join(root, 'link/a'))).rejects.toThrow('leads nowhere');
    await expect(makeParents(system, join(root, 'new', 'x'.repeat(300), 'a'))).rejects.toThrow(
      'ENAMETOOLONG',
    );
    expect(existsSync(join(root, 'new'))).toBe(false);
    writeFileSync(join(root, 'file'), '');
    await expect(makeParents(system, join(root, 'file/a'))).rejects.toThrow('ENOTDIR');
  });

  test.runIf(process.platform === 'linux')('where the system takes no folders it ends', async () => {
    await expect(makeParents(system, '/proc/nope/a')).rejects.toThrow('/proc/nope');
  });
});
