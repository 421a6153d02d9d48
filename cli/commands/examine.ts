import { showText } from '../../core/part/input-problem.js';
import { readFields } from '../../core/part/parameters.js';
import { parameters } from '../../generators/mesh/parameters.js';
import { listOptions } from '../common-options.js';
import { Failure, problemInOption, usageFailure } from '../failure.js';
import { formatHelpPage, optionEntries } from '../help-page.js';
import type { ExitCode, Io } from '../io.js';
import { fieldRows } from '../make-options.js';
import { codeName } from '../option-row.js';
import { parseOptions, wantsHelp } from '../parse-options.js';

const usage = 'patternwright examine <mesh file> [options]';
const summary =
  'Looks at a mesh before a part is made of it: what is wrong with it, its surfaces by name, how it could stand, where metal could enter';

const settings = parameters.pick({
  fileUnit: true,
  scaleTo: true,
  scaleAlong: true,
  closeHoles: true,
  fillCavities: true,
});

/** `examine <mesh file>` */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  const inches = argv.includes('--units=in') || argv[argv.indexOf('--units') + 1] === 'in';
  const unit = inches ? 'in' : 'mm';
  const own = fieldRows(settings, unit);
  if (wantsHelp(argv)) {
    io.out(formatHelpPage(usage, summary, optionEntries([...own, ...listOptions])));
    return 0;
  }
  const { positional, values } = await parseOptions('examine', argv, [...own, ...listOptions]);
  const [file, ...more] = positional;
  if (file === undefined || file === '')
    throw usageFailure('missing', 'examine needs a mesh file', `write ${usage}`);
  if (more[0] !== undefined)
    throw usageFailure(
      'too-many',
      `"${showText(more[0])}" is one file too many`,
      'examine looks at one mesh',
    );
  const given = Object.fromEntries(
    own.flatMap((row) => (values[row.name] === undefined ? [] : [[codeName(row.name), values[row.name]]])),
  );
  const read = readFields(settings, given, { lengthUnit: unit });
  if (!read.ok)
    throw new Failure(
      2,
      read.problems.map((p) => problemInOption(p, own.find((row) => codeName(row.name) === p.path[0])?.name)),
    );
  const { openMesh } = await import('../mesh-files.js');
  const mesh = await openMesh(io.cwd, file);
  if ('message' in mesh)
    throw usageFailure('unreadable-file', `${showText(file)} ${mesh.message}`, mesh.remedy);
  const { surveyMesh } = await import('../../generators/mesh/survey.js');
  const { loadKernel } = await import('../../core/solid/index.js');
  const survey = surveyMesh({ file, ...read.values }, mesh, await loadKernel(), unit);
  const { formatSurvey } = await import('../survey-text.js');
  io.out(values.json === true ? `${JSON.stringify(survey, null, 2)}\n` : formatSurvey(file, survey, unit));
  return survey.findings.some((f) => f.severity === 'stop') ? 1 : 0;
}
