import { writeFile } from 'node:fs/promises';
import { basename, extname, isAbsolute, resolve } from 'node:path';
import { systemCode } from '../../core/files/folder-error.js';
import { hyphenated, parseSafeName } from '../../core/job/safe-name.js';
import { showText } from '../../core/part/input-problem.js';
import { usageFailure } from '../failure.js';
import { formatHelpPage, optionEntries } from '../help-page.js';
import type { ExitCode, Io } from '../io.js';
import type { OptionRow } from '../option-row.js';
import { parseOptions, wantsHelp } from '../parse-options.js';
import { partFileNote } from '../part-files.js';

const usage = 'patternwright starter <file>';
const summary =
  'Writes a part file to start from: a part that can be made at once, with every step explained';
const options: readonly OptionRow[] = [{ name: 'help', group: 'Output', help: 'Show this help', flag: true }];
const example = 'Examples:\n\n  patternwright starter my-part.mjs\n  patternwright make ./my-part.mjs';
const flavours =
  'A file called .mjs or .js is JavaScript, .ts or .mts TypeScript, which Node runs from version 22.18 on. What is there already is never overwritten.';

const reasons: Readonly<Record<string, readonly [string, string]>> = {
  EEXIST: ['is there already', 'choose another name: nothing is overwritten'],
  ENOENT: ['stands in a folder that is not there', 'make the folder first'],
  ENOTDIR: ['stands in a folder that is not there', 'make the folder first'],
  EACCES: ['may not be written', 'choose another folder'],
  EPERM: ['may not be written', 'choose another folder'],
  EROFS: ['may not be written', 'choose another folder'],
  ENOSPC: ['cannot be written: the disk is full', 'free some space'],
};

/** `starter <file>` */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  if (wantsHelp(argv)) {
    io.out(formatHelpPage(usage, summary, optionEntries(options), [flavours, partFileNote, example]));
    return 0;
  }
  const { positional } = await parseOptions('starter', argv, options);
  const [file, ...more] = positional;
  if (file === undefined || file === '')
    throw usageFailure('missing', 'starter needs the name of a file to write', `write ${usage}`);
  if (more[0] !== undefined)
    throw usageFailure('too-many', `"${showText(more[0])}" is one file too many`, 'starter writes one file');
  const extension = extname(file);
  if (!/^\.m?[jt]s$/.test(extension))
    throw usageFailure(
      'part-file-name',
      `${showText(file)} is not the name of a part file`,
      `end it in .mjs, .js, .ts or .mts, like ${showText(basename(file, extension)) || 'my-part'}.mjs`,
    );
  const typed = extension.endsWith('ts');
  const shown = isAbsolute(file) || /^\.{1,2}[\\/]/.test(file) ? file : `./${file}`;
  const { starterText } = await import('../part-file/starter-text.js');
  try {
    await writeFile(resolve(io.cwd, file), starterText(shown, partName(file), typed), { flag: 'wx' });
  } catch (error) {
    const code = systemCode(error);
    if (code === '') throw error;
    const [message, remedy] = reasons[code] ?? ['cannot be written', 'choose another name'];
    throw usageFailure('unwritable', `${showText(file)} ${message}`, remedy);
  }
  io.out(`Wrote ${shown}\nNext: patternwright make ${shown}\n`);
  if (typed && !runsTypes())
    io.out(
      `This Node, ${process.versions.node}, does not run TypeScript: use Node 22.18 or newer, or compile it with tsc.\n`,
    );
  return 0;
}

const runsTypes = (): boolean => Boolean((process.features as { typescript?: unknown }).typescript);

/** The file's name as a part's name, where one can be made of it. */
function partName(file: string): string {
  const parted = basename(file, extname(file)).replace(/([a-z0-9])([A-Z])/g, '$1-$2');
  const name = hyphenated(parted).replace(/^[^a-z]+/, '');
  return parseSafeName(name).ok ? name : 'my-part';
}
