/** From the path of a part file to its part, or to what is wrong with it and where. */
import { basename, extname } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { PartFileFault } from '../../core/job/job-context.js';
import { parseSafeName } from '../../core/job/safe-name.js';
import { checkDefinition } from '../../core/part/check-definition.js';
import type { PartDefinition } from '../../core/part/contract.js';
import { formatInput } from '../../core/part/input-problem.js';
import { Failure, type Problem } from '../failure.js';
import { reservedOptions } from '../make-options.js';
import { readAtMost } from '../read-source.js';
import { guardPart } from './guard-part.js';
import { serveOwnPackage } from './own-package.js';
import {
  type FilePlace,
  type PartPath,
  partPath,
  placeInStack,
  placeOfKey,
  placeOfSyntax,
  shownFile,
  shownPlace,
} from './place-in-file.js';
import { EndedByPart, reasonOf, tameProcess } from './tame-process.js';

/** A fault with its place as data too. */
export interface PartFault extends PartFileFault {
  readonly line?: number;
  readonly column?: number;
}

export type PartFile =
  | { readonly ok: true; readonly definition: PartDefinition }
  | { readonly ok: false; readonly faults: readonly PartFault[] };

const types = /^\.m?ts$/;
const known = /^\.(m?js|m?ts)$/;
const largestFile = 4 * 1024 * 1024;

const loadedParts: PartPath[] = [];

/**
 * Runs a part file and looks at what it gives. It is code: it may do whatever its user may.
 * @param folder that `written` is relative to
 * @param err where messages go, and what the part prints
 */
export async function loadPartFile(
  folder: string,
  written: string,
  err: (text: string) => void,
): Promise<PartFile> {
  const part = partPath(folder, written);
  const fault = (code: string, message: string, remedy: string, place?: FilePlace): PartFault => ({
    code,
    message: `${place ? shownPlace(place, part) : shownFile(written)} ${message}`,
    remedy,
    ...(place === undefined ? {} : { line: place.line }),
    ...(place?.column === undefined ? {} : { column: place.column }),
  });
  const failed = (...faults: readonly PartFault[]): PartFile => ({ ok: false, faults });

  const extension = extname(written);
  if (!known.test(extension))
    return failed(fault('part-file-name', 'is not a part file', 'give a .mjs, .js, .ts or .mts file'));
  const source = await readPart(part);
  if (typeof source !== 'string') return failed(source);

  loadedParts.push(part);
  tameProcess(() => loadedParts, err);
  serveOwnPackage();
  let exported: Readonly<Record<string, unknown>>;
  try {
    exported = await importPart(part);
  } catch (error) {
    return failed(await phraseFailure(error, part, fault));
  }
  if (!('default' in exported) || exported.default === undefined) {
    const others = Object.keys(exported).filter((name) => name !== 'default');
    const instead = others.length === 0 ? '' : `, only ${others.slice(0, 5).join(', ')}`;
    const remedy = 'write export default definePart({ … })';
    return failed(fault('part-file-export', `has no default export${instead}`, remedy));
  }
  const reading = checkDefinition(exported.default, {
    reserved: reservedOptions(),
    unsafeName: (name) => {
      const safe = parseSafeName(name);
      return safe.ok ? undefined : safe.problem;
    },
  });
  if (reading.ok) return { ok: true, definition: guardPart(reading.definition, part) };
  return failed(
    ...reading.problems.map((problem) =>
      fault(
        problem.code,
        problem.path.length === 0
          ? `the default export ${problem.message}`
          : formatInput({ ...problem, remedy: '' }),
        problem.remedy,
        placeOfKey(source, problem.path.at(-1) ?? '', part),
      ),
    ),
  );
}

/** The text of the file, or why there is none. */
async function readPart(part: PartPath): Promise<string | Problem> {
  try {
    const bytes = await readAtMost(part.absolute, part.written, 'part file', largestFile);
    return new TextDecoder().decode(bytes);
  } catch (error) {
    if (error instanceof Failure && error.problems[0]) return error.problems[0];
    throw error;
  }
}

/** The module, run; or an error where it waits for what never comes, which would end the program without a word. */
async function importPart({ absolute }: PartPath): Promise<Readonly<Record<string, unknown>>> {
  let forget = (): void => undefined;
  // What Node warns of is told by the failure itself.
  const warned = process.listeners('warning');
  process.removeAllListeners('warning');
  const stuck = new Promise<never>((_, reject) => {
    const idle = (): void => reject(new Error('waits for something that never comes: see its await'));
    process.once('beforeExit', idle);
    forget = () => process.off('beforeExit', idle);
  });
  try {
    return await Promise.race([import(pathToFileURL(absolute).href), stuck]);
  } finally {
    forget();
    for (const listener of warned) process.on('warning', listener);
  }
}

type Fault = (code: string, message: string, remedy: string, place?: FilePlace) => PartFault;

/** Why a module could not be run, in words. */
async function phraseFailure(error: unknown, part: PartPath, fault: Fault): Promise<PartFault> {
  const code = String((error as { code?: unknown } | null)?.code ?? '');
  const reason = reasonOf(error);
  const place = placeInStack(error, part);
  if (code === 'ERR_UNKNOWN_FILE_EXTENSION' && types.test(reason.split('"')[1] ?? ''))
    return fault(
      'part-file-typescript',
      `is TypeScript, which Node ${process.versions.node} does not run`,
      'use Node 22.18 or newer, or compile it with tsc and give the .js file',
    );
  if (/^ERR_(UNSUPPORTED|INVALID)_TYPESCRIPT_SYNTAX$/.test(code))
    return fault(
      'part-file-syntax',
      reason,
      code.startsWith('ERR_INVALID') ? 'mend the line' : 'Node only leaves types out: no enum, no namespace',
      place,
    );
  if (error instanceof EndedByPart)
    return fault('part-file-ended', 'calls process.exit', 'leave it out: a part only says what it is', place);
  const missing = /^Cannot find (package|module) '(.+?)'/.exec(reason);
  if (missing)
    return fault(
      'part-file-import',
      `imports ${missing[2]}, which is not there`,
      missing[1] === 'package' ? `install it beside the file: npm install ${missing[2]}` : 'check its path',
      await placeOfText(part, basename(missing[2] as string), /\b(import|from)\b/),
    );
  if (/^(ERR_UNSUPPORTED_DIR_IMPORT|ERR_PACKAGE_PATH_NOT_EXPORTED)$/.test(code))
    return fault('part-file-import', `has an import that cannot be found: ${reason}`, 'name the file itself');
  if (/outside a module/.test(reason))
    return fault('part-file-syntax', 'is no module where it lies', 'call it .mjs');
  if (/is not defined in ES module scope/.test(reason))
    return fault(
      'part-file-load',
      reason.replace(/, you can.*/, ''),
      'write import … from, and export default',
      place,
    );
  if (error instanceof SyntaxError)
    return fault(
      'part-file-syntax',
      reason,
      /does not provide an export/.test(reason) ? 'check the names in braces' : 'mend the line',
      place ?? (await placeOfSyntax(part)),
    );
  const unknown = error instanceof ReferenceError ? /^(\w+) is not defined$/.exec(reason)?.[1] : undefined;
  if (unknown !== undefined)
    return fault(
      'part-file-load',
      reason,
      `import it, perhaps: import { ${unknown} } from 'patternwright'`,
      // Node takes the first line for what stands in an export.
      (place?.line === 1 ? await placeOfText(part, unknown, /./) : undefined) ?? place,
    );
  return fault('part-file-load', `failed as it was run: ${reason}`, 'mend the line, or what it calls', place);
}

/** The first line of the part's own file that has the text, where it can be told. */
async function placeOfText(part: PartPath, text: string, where: RegExp): Promise<FilePlace | undefined> {
  const source = await readPart(part);
  const lines = typeof source === 'string' ? source.split(/\r?\n/) : [];
  const at = lines.findIndex((line) => where.test(line) && line.includes(text));
  return at < 0 ? undefined : { file: part.absolute, line: at + 1 };
}
