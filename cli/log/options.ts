import { logFileName } from '../../core/log/line.js';
import { faults } from '../../core/log/record.js';
import { listOptions } from '../common-options.js';
import type { OptionRow } from '../option-row.js';

const group = 'Log';

const option = (name: string, value: string, help: string, fallback?: string): OptionRow => ({
  name,
  group,
  value,
  help,
  ...(fallback === undefined ? {} : { fallback }),
});

export const fileOption: OptionRow = option('file', 'path', 'The log', logFileName);

/** `units`, `degrees`, `json` and `help`, with words of the log's own. */
const common = (units: string, degrees: string, json: string): readonly OptionRow[] =>
  listOptions.map((row) => {
    const help = { units, degrees, json }[row.name];
    return help === undefined ? row : { ...row, help };
  });

export const addOptions: readonly OptionRow[] = [
  fileOption,
  { ...option('alloy', 'name', 'See patternwright list alloys, or an alloy of your own; must be given') },
  option('investment', 'name', 'See patternwright list investments', 'gypsum-bonded'),
  option('date', 'date', 'Day of the pour, like 2026-05-30', 'today'),
  option('job', 'name', 'The plate job'),
  option('part', 'name', 'The pattern'),
  option('flask', 'text', 'Which flask'),
  option('metal-temperature', 'temperature', 'Of the metal at the pour'),
  option('flask-temperature', 'temperature', 'Of the flask at the pour'),
  option('burnout-hold', 'time', 'At the top of the burnout; bare numbers are hours'),
  option('growth', 'n', 'Pattern size / casting size that was used'),
  option('plastic', 'name', 'See patternwright list plastics'),
  option('printer-correction.xy', 'n', 'Factor used in X and Y'),
  option('printer-correction.z', 'n', 'Factor used in Z'),
  option('sizes', 'text', 'Measured sizes, parted by semicolons: see below'),
  { ...option('faults', 'words', 'Parted by commas'), range: `of ${faults.join(', ')}`, fallback: 'none' },
  option('notes', 'text', 'What to remember'),
  ...common(
    'How bare lengths are read',
    'How bare temperatures are read',
    'Print the record as JSON, in mm, °C and s',
  ),
];

export const showOptions: readonly OptionRow[] = [
  fileOption,
  option('alloy', 'name', 'Pours of this alloy alone'),
  option('investment', 'name', 'Pours in this investment alone'),
  ...common(
    'How lengths print',
    'Scale of printed temperatures',
    'Print everything as JSON, in mm, °C and s',
  ),
];

const transferCommon = common('', '', 'Print JSON on standard output').filter(
  (row) => row.name === 'json' || row.name === 'help',
);

export const exportOptions: readonly OptionRow[] = [
  fileOption,
  option('out', 'path', 'New file to write', 'standard output'),
  ...transferCommon.map((row) =>
    row.name === 'json' ? { ...row, help: 'The records as JSON instead of CSV' } : row,
  ),
];

export const importOptions: readonly OptionRow[] = [fileOption, ...transferCommon];
