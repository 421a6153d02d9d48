import { freezeLevels } from '../core/freeze/plans.js';
import type { OptionRow } from './option-row.js';
import { threadsOption } from './threads-option.js';

const group = 'Output';

/** Of every command that prints lengths and temperatures. */
const units = (help: string, fallback: string): readonly OptionRow[] => [
  { name: 'units', group, value: 'word', help, choices: ['mm', 'in'], fallback },
];
const degrees = (fallback: string): readonly OptionRow[] => [
  {
    name: 'degrees',
    group,
    value: 'word',
    help: 'Scale of printed temperatures',
    choices: ['C', 'F'],
    fallback,
  },
];
const json: OptionRow = {
  name: 'json',
  group,
  help: 'Print JSON on standard output: the summary, or the problems',
  flag: true,
};
const help: OptionRow = { name: 'help', group, help: 'Show this help', flag: true };

const writing: readonly OptionRow[] = [
  {
    name: 'out',
    group,
    value: 'folder',
    help: 'Folder to write; it is replaced as a whole',
    fallback: 'out/ and the name of the job',
  },
  {
    name: 'cache',
    group,
    value: 'folder',
    help: 'Folder that keeps parts for the next run; none keeps none',
    fallback: "PATTERNWRIGHT_CACHE, or patternwright in the user's caches",
  },
  threadsOption,
];
/** Of every command that plans work in a shop. */
const shop: OptionRow = {
  name: 'shop',
  group,
  value: 'file',
  help: 'Shop profile; none for the built-in defaults',
  fallback: 'patternwright-shop.yaml in the folder of the job or above it, or shop.yaml in the user settings',
};
const manner: readonly OptionRow[] = [
  json,
  { name: 'quiet', group, help: 'Print errors only', flag: true },
  {
    name: 'strict',
    group,
    help: 'Refuse the job if there is any warning, or a part that is left out',
    flag: true,
  },
  help,
];

export const makeOutputOptions: readonly OptionRow[] = [
  ...writing,
  ...units('How bare numbers are read and the papers print', 'mm'),
  ...degrees('C'),
  shop,
  ...manner,
];

/** What a run may set otherwise than its job does. */
const freezing: readonly OptionRow[] = [
  {
    name: 'freeze',
    group: 'Filling and freezing',
    value: 'word',
    help: 'How finely each mould is worked out',
    choices: freezeLevels,
    fallback: "the job's, or coarse",
  },
  {
    name: 'improve',
    group: 'Filling and freezing',
    help: 'Try other sprues, gates and vents where a casting would be left unsound',
    flag: true,
  },
  {
    name: 'freeze-fields',
    group: 'Filling and freezing',
    help: 'Write what was worked out of every cell as freeze.vtk',
    flag: true,
  },
];

/** Of jobs of many parts. */
const keepGoing: OptionRow = {
  name: 'keep-going',
  group,
  help: 'Leave out parts that cannot be made, and make the rest; --no-keep-going makes all or nothing',
  flag: true,
  fallback: 'on',
};

/** The job's own bare numbers stay in the job's unit. */
export const plateOutputOptions: readonly OptionRow[] = [
  ...writing,
  ...units('How the papers print', "the job's"),
  ...degrees("the job's"),
  ...freezing,
  keepGoing,
  shop,
  ...manner,
];

export const listOptions: readonly OptionRow[] = [
  ...units('How lengths print', 'mm'),
  ...degrees('C'),
  { ...json, help: 'Print JSON on standard output, in mm and °C' },
  help,
];
