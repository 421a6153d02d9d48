import { writeFolder as writeFolderAt } from '../../core/files/folder.js';
import type { JobFile } from '../../core/job/job-files.js';

/**
 * Writes an output folder as a whole: until the last file is written, `folder` is what it was before. Replaces only
 * a missing or empty folder, or one that this program wrote; all that is in such a folder goes.
 * @throws FolderError for a folder that is not this program's, a full or read-only disk
 */
export const writeFolder = (
  folder: string,
  files: Iterable<JobFile> | AsyncIterable<JobFile>,
): Promise<void> => writeFolderAt(folder, files);
