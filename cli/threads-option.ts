import { showText } from '../core/part/input-problem.js';
import { Failure } from './failure.js';
import type { OptionRow } from './option-row.js';

const most = 256;

export const threadsOption: OptionRow = {
  name: 'threads',
  group: 'Output',
  value: 'number',
  range: `from 1 to ${most}`,
  help: 'How many threads work; the files are the same whatever it is',
  fallback: 'one for each processor',
};

/** @throws Failure for what is no such number */
export function readThreads(value: string | boolean | undefined): number | undefined {
  if (value === undefined) return undefined;
  const text = String(value).trim();
  const count = /^\d{1,4}$/.test(text) ? Number(text) : 0;
  if (count >= 1 && count <= most) return count;
  const message = `is ${showText(String(value))}`;
  const remedy = `a whole number from 1 to ${most}`;
  throw new Failure(2, [
    { text: `--threads ${message}; ${remedy}`, code: 'out-of-range', message, remedy, option: 'threads' },
  ]);
}
