/** Real disks of the tests' own, in memory; only the super-user may have them, and not in every container. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const done = (command: string, ...args: readonly string[]): boolean => spawnSync(command, args).status === 0;

export const mayMount: boolean = (() => {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return false;
  const probe = mkdtempSync(join(tmpdir(), 'patternwright-mount-'));
  try {
    return done('mount', '-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', probe) && done('umount', probe);
  } finally {
    rmSync(probe, { recursive: true, force: true });
  }
})();

/** For the title of a test. */
export const mountNote = mayMount ? '' : ' (skipped: this user may not mount a small disk)';

/** Gives a disk of `size`, mounted at `path`, to `use`. */
export async function withDisk(path: string, size: string, use: () => Promise<void>): Promise<void> {
  mkdirSync(path, { recursive: true });
  if (!done('mount', '-t', 'tmpfs', '-o', `size=${size}`, 'tmpfs', path))
    throw new Error(`no disk at ${path}`);
  try {
    await use();
  } finally {
    if (!done('umount', path)) done('umount', '-l', path);
  }
}

export const makeReadOnly = (path: string): boolean => done('mount', '-o', 'remount,ro', path);
