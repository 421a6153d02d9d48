import * as fs from 'node:fs/promises';

/** What the folder writer asks of the file system; tests put a failing one in its place. */
export type FolderSystem = Pick<
  typeof fs,
  'lstat' | 'mkdir' | 'open' | 'readdir' | 'readFile' | 'rename' | 'rm' | 'rmdir'
>;

export const nodeFolderSystem: FolderSystem = fs;

/** Makes a folder's entries last through a power cut, where the system can do that. */
export async function syncFolder(system: FolderSystem, path: string): Promise<void> {
  try {
    const handle = await system.open(path, 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch (error) {
    // Some systems cannot open or sync folders (Windows, a few network disks); the files are synced all the same.
    const code = error instanceof Error && 'code' in error ? error.code : '';
    if (!['EISDIR', 'EPERM', 'EACCES', 'EINVAL', 'ENOTSUP'].includes(String(code))) throw error;
  }
}
