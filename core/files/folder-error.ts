export type FolderErrorCode =
  | 'path-trick'
  | 'duplicate-path'
  | 'foreign-folder'
  | 'not-a-folder'
  | 'symlink'
  | 'folder-in-use'
  | 'disk-full'
  | 'read-only'
  | 'no-permission'
  | 'name-too-long'
  | 'busy'
  | 'unconfirmed'
  | 'write-failed';

/** Why an output folder was not written. The old folder, if there was one, is as it was; not so where `unconfirmed`. */
export class FolderError extends Error {
  override readonly name = 'FolderError';
  constructor(
    readonly code: FolderErrorCode,
    message: string,
    /** One sentence: what would be right. */
    readonly remedy: string,
    options?: ErrorOptions,
  ) {
    super(message, options);
  }
}

/** The system's code of a failed call, for example `ENOSPC`; empty for other errors. */
export const systemCode = (error: unknown): string =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';

/** Other runs kept exchanging the folder until this one gave up. */
export const busyFolder = (target: string): FolderError =>
  new FolderError(
    'busy',
    `Another run is writing ${target} at the same time.`,
    'Wait for it to end, or give each run its own folder with --out.',
  );

/** What was to make a file left a link, a folder or nothing in its place. */
export const notAFileOfItsOwn = (where: string): FolderError =>
  new FolderError(
    'write-failed',
    `${where} is not a file of its own.`,
    'Run again; if that does not help, with --cache none.',
  );

export const deadLink = (path: string): FolderError =>
  new FolderError(
    'symlink',
    `${path} is a symbolic link that leads nowhere.`,
    'Make the folder that it leads to, or name another.',
  );

/** The new folder is in place, but may not outlast a power cut. */
export const unconfirmed = (target: string, cause: unknown): FolderError =>
  new FolderError(
    'unconfirmed',
    `${target} is in place, but its disk does not say that it is kept (${systemCode(cause)}).`,
    'Check the disk, and run the command again.',
    { cause },
  );

/** Puts a failed system call in words. */
export function describeFailure(error: unknown, where: string): FolderError {
  if (error instanceof FolderError) return error;
  const code = systemCode(error);
  const cause = { cause: error };
  switch (code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return new FolderError(
        'disk-full',
        `The disk is full: ${where} could not be written.`,
        'Free some space or choose another folder; the old output is untouched.',
        cause,
      );
    case 'EROFS':
      return new FolderError(
        'read-only',
        `The disk that would hold ${where} is mounted read-only.`,
        'Choose a folder on a disk that can be written.',
        cause,
      );
    case 'EACCES':
    case 'EPERM':
      return new FolderError(
        'no-permission',
        `Writing ${where} is not permitted.`,
        'Choose a folder of yours, or change its permissions.',
        cause,
      );
    case 'ENAMETOOLONG':
      return new FolderError(
        'name-too-long',
        `The name of ${where} is too long for this disk.`,
        'Choose a shorter name.',
        cause,
      );
    case 'ENOENT':
      return new FolderError(
        'write-failed',
        `${where} was taken away while it was written.`,
        'Run again; leave the folders beside it alone meanwhile whose names begin with a dot.',
        cause,
      );
    case 'EBUSY':
    case 'EXDEV':
      return new FolderError(
        'folder-in-use',
        `${where} is held by another program, or a disk is mounted there.`,
        'Close what uses it, or name a folder inside it.',
        cause,
      );
    case 'ENOTDIR':
    case 'EEXIST':
      return new FolderError(
        'not-a-folder',
        `A file stands where ${where} needs a folder.`,
        'Move that file away or choose another folder.',
        cause,
      );
    default: {
      const reason = error instanceof Error ? error.message : String(error);
      return new FolderError(
        'write-failed',
        `${where} could not be written: ${reason}.`,
        'Check the folder and its disk.',
        cause,
      );
    }
  }
}
