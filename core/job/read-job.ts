/** From the text of a plate job to a `Job`, or to every problem in it with its place. */
import { listSchemaFields } from '../part/field-list.js';
import type { Job, PrintBed } from './job.js';
import type { JobContext } from './job-context.js';
import { capProblems, type JobProblem } from './job-problem.js';
import { child, JobReader, present } from './job-reader.js';
import * as schema from './job-schema.js';
import { readFlasks } from './read-flasks.js';
import { readParts } from './read-parts.js';
import { readPrices } from './read-prices.js';
import { decodeSource } from './source-text.js';
import { readYaml, type YamlNode } from './yaml-tree.js';

export type JobReading =
  | { readonly ok: true; readonly job: Job }
  | { readonly ok: false; readonly problems: readonly JobProblem[] };

/**
 * Reads a plate job from its text or its file's bytes. All problems are reported at once, in the order of the
 * file and at most twenty of them; of YAML syntax errors only the first. Never throws.
 */
export function parseJob(source: string | Uint8Array, context: JobContext): JobReading {
  const file = context.fileName;
  const decoded = decodeSource(source);
  if (!decoded.ok) {
    const { code, line, column, message, remedy } = decoded;
    return { ok: false, problems: [{ code, path: [], got: '', message, remedy, file, line, column }] };
  }
  const { root, problems, position } = readYaml(decoded.text);
  const located = problems.map(({ at, earlier, ...problem }): JobProblem => {
    const first = earlier === undefined ? '' : `, first on line ${position(earlier).line}`;
    return { ...problem, message: problem.message + first, path: [], got: '', file, ...position(at) };
  });
  if (located.length > 0) return { ok: false, problems: capProblems(located) };
  if (root?.kind !== 'map') return { ok: false, problems: [wrongShape(root, file)] };
  const reader = new JobReader(file, root, position);
  const job = readRoot(reader, root, context);
  if (reader.problems.length === 0 && job !== undefined) return { ok: true, job };
  return { ok: false, problems: capProblems(reader.problems) };
}

function wrongShape(root: YamlNode | null, file: string): JobProblem {
  const empty = root === null || (root.kind === 'scalar' && root.value === null);
  const what = empty
    ? 'empty'
    : root.kind === 'list'
      ? 'a list, not keys and values'
      : 'one text, not keys and values';
  return {
    code: empty ? 'empty' : 'wrong-type',
    path: [],
    got: '',
    message: `the job is ${what}`,
    remedy: 'a plate job starts with "job: a-name" and lists its "parts:"',
    file,
    line: 1,
    column: 1,
  };
}

function readRoot(reader: JobReader, root: YamlNode, context: JobContext): Job | undefined {
  const settingNames = listSchemaFields(schema.settingsFields).map((field) => field.name);
  reader.checkKeys(root, [], [...schema.jobWords, ...settingNames, 'growth', ...schema.jobGroups]);
  const unit = child(root, 'units');
  if (unit?.kind === 'scalar' && unit.value === 'in') reader.lengthUnit = 'in';
  const name = reader.name(root, ['job'], 'name the job, like ropewalk-drive');
  const title = reader.text(root, ['title'], schema.longestTitle);
  const settings = reader.fields(schema.settingsFields, root, [], false);
  const notes = readNotes(reader, root);
  const common = {
    alloy: reader.word(root, ['alloy'], context.knownAlloys, 'unknown-alloy') ?? schema.jobDefaults.alloy,
    growth: reader.fields(schema.growthFields, root, [], false)?.growth,
    stock: present(reader.fieldGroup(schema.stockFields, root, ['stock']) ?? {}),
  };
  const investment = reader.word(root, ['investment'], context.knownInvestments, 'unknown-investment');
  const bed = reader.fieldGroup(schema.bedFields, root, ['bed']);
  if (bed !== undefined) checkMargin(reader, root, bed);
  const printerCorrection = reader.fieldGroup(schema.correctionFields, root, ['printerCorrection']);
  const flasks = readFlasks(reader, root);
  const parts = readParts(reader, root, context, common);
  const prices = readPrices(reader, root, context, new Set(parts.map((part) => part.alloy)));
  if (name === undefined || settings === undefined || bed === undefined || printerCorrection === undefined)
    return undefined;
  return {
    name,
    title: title ?? name,
    notes,
    ...settings,
    investment: investment ?? schema.jobDefaults.investment,
    bed,
    printerCorrection,
    flasks,
    prices,
    parts,
  };
}

function checkMargin(reader: JobReader, root: YamlNode, bed: PrintBed): void {
  if (2 * bed.margin < Math.min(bed.width, bed.depth)) return;
  const node = child(child(root, 'bed') ?? root, 'margin');
  const remedy = 'less than half of its width and depth';
  reader.refuse('out-of-range', ['bed', 'margin'], node, 'leaves no room on the bed', remedy);
}

function readNotes(reader: JobReader, root: YamlNode): readonly string[] {
  const items = reader.list(root, ['notes'], schema.mostNotes, 'notes') ?? [];
  return items.flatMap((item, i) => reader.line(item, ['notes', String(i)], schema.longestNote) ?? []);
}
