import type { OptionRow } from './parse-options.js';

const group = 'Output';

/** Options of every command that makes something. */
export const outputOptions: readonly OptionRow[] = [
  { name: 'out', group, help: 'Folder to write; replaced as a whole', fallback: 'out/<job name>' },
  {
    name: 'units',
    group,
    help: 'mm or in: how bare lengths are read and papers print',
    choices: ['mm', 'in'],
    fallback: 'mm',
  },
  { name: 'degrees', group, help: 'C or F', choices: ['C', 'F'], fallback: 'C' },
  { name: 'json', group, help: 'Print the result as JSON on standard output', flag: true },
  { name: 'quiet', group, help: 'Print errors only', flag: true },
  { name: 'strict', group, help: 'Treat warnings as errors: write nothing', flag: true },
  { name: 'help', group, help: 'Show this help', flag: true },
];
