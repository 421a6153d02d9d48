import { showText } from '../../part/input-problem.js';
import { type SurfaceClass, surfaceClasses } from '../../part/stock.js';
import { suggest } from '../../part/suggest.js';
import { type LengthUnit, type Parsed, parsed, parseLength, unparsed } from '../../units/index.js';
import type { Mark } from './marks.js';
import { readPlace } from './read-place.js';

export interface MarkProblem {
  /** A sentence without its full stop. */
  readonly message: string;
  readonly remedy: string;
  /** Column in the text where the mark begins, 1 up. */
  readonly at: number;
}

export type MarksRead =
  | { readonly ok: true; readonly marks: readonly Mark[] }
  | { readonly ok: false; readonly problem: MarkProblem };

const longestText = 20_000;
const mostMarks = 200;
/** mm either way */
const mostAmount = 50;

/**
 * Reads marks: what surfaces get, in order, so that a later mark wins where two meet.
 *
 *     top face = face; bore at 12, 30 = bore; left face = 1.5mm
 *     box 0, 0, 10 to 50, 50, 12 = face; above z 20 = 0.8mm; all bores = 0; everything = skin
 *
 * Marks stand apart by semicolons or new lines, never by commas: those part the numbers of a place. Left of `=` is one
 * place: the name of a surface, `all bores` (`bosses`, `hollows`, `rounds`, `flat faces`), `box … to …`, `above z …` or
 * `below x …`, `everything`. Right of it a class of stock or, always where `accepts` is `amounts`, a length outward.
 * Numbers without a unit are in `lengthUnit`. Case and further spaces do not count.
 */
export function readMarks(
  text: string,
  lengthUnit: LengthUnit,
  accepts: 'stock' | 'amounts' = 'stock',
): MarksRead {
  const refuse = (at: number, message: string, remedy: string): MarksRead => ({
    ok: false,
    problem: { message, remedy, at },
  });
  if (text.length > longestText)
    return refuse(1, `The marks are ${text.length} characters long`, `write ${longestText} at most`);
  const marks: Mark[] = [];
  let at = 1;
  for (const piece of text.split(/[;\n\r]/)) {
    const start = at + (piece.length - piece.trimStart().length);
    at += piece.length + 1;
    if (piece.trim() === '') continue;
    if (marks.length === mostMarks)
      return refuse(
        start,
        `There are more than ${mostMarks} marks`,
        'use boxes or all bores, all flat faces',
      );
    const mark = readMark(piece.trim().replace(/\s+/g, ' ').toLowerCase(), lengthUnit, accepts);
    if (!mark.ok) return refuse(start, `"${showText(piece.trim())}" ${mark.problem}`, mark.remedy);
    marks.push(mark.value);
  }
  return marks.length > 0
    ? { ok: true, marks }
    : refuse(1, 'There are no marks', 'write them like top face = face; bore at 12, 30 = 0.5mm');
}

function readMark(text: string, unit: LengthUnit, accepts: 'stock' | 'amounts'): Parsed<Mark> {
  const sides = text.split('=').map((side) => side.trim());
  const example = accepts === 'stock' ? 'top face = face, or top face = 1.5mm' : 'top face = 0.2mm';
  if (sides.length === 1)
    return unparsed('has no = in it', `write a place and what it gets, like ${example}`);
  if (sides.length > 2) return unparsed('has more than one = in it', 'put a semicolon between two marks');
  const [place, value] = sides as [string, string];
  if (place === '' || value === '')
    return unparsed(place === '' ? 'names no place' : 'says nothing after the =', `write it like ${example}`);
  const read = readPlace(place, unit);
  if (!read.ok) return read;
  const gets = readValue(value, unit, accepts);
  return gets.ok ? parsed({ place: read.value, gets: gets.value }) : gets;
}

function readValue(
  text: string,
  unit: LengthUnit,
  accepts: 'stock' | 'amounts',
): Parsed<SurfaceClass | number> {
  const known = surfaceClasses.find((c) => c === text);
  if (known && accepts === 'stock') return parsed(known);
  if (known) return unparsed('gives a class of stock, not an amount', 'write a length, like 0.4mm');
  if (!/\d/.test(text)) {
    const near = suggest(text, surfaceClasses);
    return unparsed(
      `has "${showText(text)}" after the =`,
      accepts === 'amounts'
        ? 'write a length, like 0.4mm'
        : near === undefined
          ? `write a length or one of ${surfaceClasses.join(', ')}`
          : `did you mean ${near}?`,
    );
  }
  const length = parseLength(text, unit);
  if (!length.ok) return unparsed(`gives an amount that ${length.problem}`, length.remedy);
  if (Math.abs(length.value) > mostAmount)
    return unparsed('gives an amount beyond reason', `from -${mostAmount} to ${mostAmount} mm`);
  return parsed(length.value + 0);
}
