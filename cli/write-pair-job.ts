import { writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { stringify } from 'yaml';
import { systemCode } from '../core/files/folder-error.js';
import { showText } from '../core/part/input-problem.js';
import { Failure } from './failure.js';

/** Writes a new file, never over another one. @throws Failure */
export async function writePairJob(cwd: string, file: string, job: object): Promise<void> {
  try {
    await writeFile(resolve(cwd, file), stringify(job, { aliasDuplicateObjects: false, lineWidth: 100 }), {
      flag: 'wx',
    });
  } catch (error) {
    const reasons: Readonly<Record<string, string>> = {
      EEXIST: 'it is there already',
      ENOENT: 'its folder is not there',
      EACCES: 'the folder may not be written',
      EROFS: 'the disk is read-only',
      ENOSPC: 'the disk is full',
    };
    const text = `cannot write ${showText(file)}: ${reasons[systemCode(error)] ?? 'writing failed'}`;
    const remedy = 'give the name of a new file';
    throw new Failure(1, [{ text: `${text}; ${remedy}`, code: 'job-not-written', message: text, remedy }]);
  }
}
