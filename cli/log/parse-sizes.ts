import type { MeasuredSize } from '../../core/log/record.js';
import { showText } from '../../core/part/input-problem.js';
import { suggestRemedy } from '../../core/part/suggest.js';
import { type LengthUnit, type Parsed, parsed, parseLength, unparsed } from '../../core/units/index.js';

const kinds = ['nominal', 'pattern', 'casting', 'removed'] as const;
type Kind = (typeof kinds)[number];

const example = 'D xy pattern=38mm casting=37.4mm';

/**
 * Reads `D xy nominal=1.5in pattern=1.490in casting=1.457in; height z pattern=20.4 casting=20.05`: name, axis (xy if
 * left out) and sizes of each dimension.
 */
export function parseSizes(text: string, unit: LengthUnit): Parsed<readonly MeasuredSize[]> {
  const sizes: MeasuredSize[] = [];
  for (const entry of text.split(';')) {
    if (entry.trim() === '') continue;
    const size = parseSize(entry.trim(), unit);
    if (!size.ok) return size;
    sizes.push(size.value);
  }
  return parsed(sizes);
}

function parseSize(entry: string, unit: LengthUnit): Parsed<MeasuredSize> {
  const start = /(?:^|[\s,])[A-Za-z]+\s*=/.exec(entry);
  const label = entry.slice(0, start?.index ?? entry.length).trim();
  const rest = start === null ? '' : entry.slice(start.index).replace(/^[\s,]+/, '');
  const [, name = '', axis = 'xy'] = /^(.*?)(?:[\s,]+(xy|z))?$/is.exec(label) ?? [];
  const bad = (problem: string, remedy = `write it like ${example}`): Parsed<never> =>
    unparsed(`${problem} in "${showText(entry)}"`, remedy);
  if (name === '') return bad('names no dimension');
  if (rest === '') return bad('has no size');
  const found: Partial<Record<Kind, number>> = {};
  for (const piece of rest.split(/[\s,]+(?=[A-Za-z]+\s*=)/)) {
    const [word = '', value = ''] = piece.split('=').map((s) => s.trim());
    const kind = kinds.find((k) => k === word.toLowerCase());
    if (kind === undefined) return bad(`has the unknown word ${showText(word)}`, suggestRemedy(word, kinds));
    if (found[kind] !== undefined) return bad(`has ${kind} twice`, 'give it once');
    const length = parseLength(value.replace(/,$/, ''), unit);
    if (!length.ok) return unparsed(`has ${kind} ${showText(value)}, which ${length.problem}`, length.remedy);
    found[kind] = length.value;
  }
  return parsed({ name, axis: axis.toLowerCase() === 'z' ? 'z' : 'xy', ...found });
}
