import { suggestRemedy } from '../../part/suggest.js';
import type { Vec2, Vec3 } from '../../solid/types.js';
import { type LengthUnit, type Parsed, parsed, parseLength, unparsed } from '../../units/index.js';
import {
  axes,
  type CylinderForm,
  cylinderForms,
  type Facing,
  facings,
  outermostNames,
  type Place,
  sorts,
} from './place.js';

/** Coordinates beyond this are slips, mm. */
const farthest = 1e5;

const examples: readonly string[] = [
  ...Object.values(outermostNames),
  ...Object.keys(sorts),
  'everything',
  'face up at 12',
  'face at 5, 10, 20',
  'bore at 12, 30',
  'bore along x at 12, 30',
  'boss at 12, 30',
  'hollow at 12, 30',
  'round at 12, 30',
  'box 0, 0, 0 to 50, 50, 12',
  'above z 20',
  'below z 3',
];

/** Reads one place, as left of the `=` of a mark. Case and further spaces do not count. */
export function readPlace(written: string, unit: LengthUnit): Parsed<Place> {
  const text = written.trim().replace(/\s+/g, ' ').toLowerCase();
  if (text === 'everything') return parsed({ kind: 'everything' });
  const sort = Object.entries(sorts).find(([name]) => name === text);
  if (sort) return parsed({ kind: 'all', form: sort[1] });
  const facing = facings.find((f) => outermostNames[f] === text);
  if (facing) return parsed({ kind: 'outermost', facing });
  const [first = ''] = text.split(/[\s,]/, 1);
  if (first === 'box') return readBox(text.slice(3), unit);
  if (first === 'above' || first === 'below') return readSide(first, text.slice(5), unit);
  if (first === 'face' && / at( |$)/.test(text)) return readFace(text, unit);
  const form = cylinderForms.find((f) => f === first);
  if (form && / at( |$)/.test(text)) return readCylinder(form, text, unit);
  if (form) return unparsed(`does not say where the ${form} is`, `write it like ${form} at 12, 30`);
  return unparsed('is no place', suggestRemedy(text, examples));
}

function readFace(text: string, unit: LengthUnit): Parsed<Place> {
  const match = /^face (?:([a-z]+) )?at ?(.*)$/.exec(text);
  if (!match) return unparsed('is no place', 'write it like face up at 12, or face at 5, 10, 20');
  const [, word, numbers = ''] = match;
  if (word === undefined) {
    const at = readNumbers(numbers, [3], unit);
    return at.ok
      ? parsed({ kind: 'centre', form: 'face', at: at.value as unknown as Vec3, diameter: null })
      : at;
  }
  const facing = facings.find((f) => f === word);
  if (!facing) return unparsed(`has "${word}", which is no way a face looks`, suggestRemedy(word, facings));
  const at = readNumbers(numbers, [1], unit);
  return at.ok ? parsed({ kind: 'level', facing: facing as Facing, at: at.value[0]! }) : at;
}

function readCylinder(form: CylinderForm, text: string, unit: LengthUnit): Parsed<Place> {
  const match = /^[a-z]+ ?([^,=]*?)(?: ?along ([a-z]+))? at ?(.*)$/.exec(text);
  if (!match) return unparsed('is no place', `write it like ${form} at 12, 30`);
  const [, size = '', along = 'z', numbers = ''] = match;
  let diameter: number | null = null;
  if (size !== '') {
    const read = readNumbers(size, [1], unit);
    if (!read.ok) return read;
    diameter = read.value[0]!;
    if (!(diameter > 0)) return unparsed('has no diameter above 0', `write it like ${form} 8 at 12, 30`);
  }
  const axis = axes.find((a) => a === along);
  if (!axis) return unparsed(`has "${along}", which is no axis`, 'write along x, along y or along z');
  const at = readNumbers(numbers, match[2] === undefined ? [2, 3] : [2], unit);
  if (!at.ok) return at;
  if (at.value.length === 3)
    return parsed({ kind: 'centre', form, at: at.value as unknown as Vec3, diameter });
  return parsed({ kind: 'axis', form, along: axis, at: at.value as unknown as Vec2, diameter });
}

function readBox(text: string, unit: LengthUnit): Parsed<Place> {
  const corners = text.split(/ to /);
  if (corners.length !== 2) return unparsed('has not two corners', 'write it like box 0, 0, 0 to 50, 50, 12');
  const [a, b] = corners.map((corner) => readNumbers(corner, [3], unit)) as [
    Parsed<number[]>,
    Parsed<number[]>,
  ];
  if (!a.ok) return a;
  if (!b.ok) return b;
  const pick = (choose: (...v: number[]) => number): Vec3 =>
    [0, 1, 2].map((k) => choose(a.value[k]!, b.value[k]!)) as unknown as Vec3;
  return parsed({ kind: 'box', min: pick(Math.min), max: pick(Math.max) });
}

function readSide(side: 'above' | 'below', text: string, unit: LengthUnit): Parsed<Place> {
  const match = /^ ([xyz]) (.*)$/.exec(text);
  const axis = axes.find((a) => a === match?.[1]);
  if (!match || !axis) return unparsed('has no axis and number', `write it like ${side} z 20`);
  const at = readNumbers(match[2]!, [1], unit);
  return at.ok ? parsed({ kind: 'side', side, axis, at: at.value[0]! }) : at;
}

/** Lengths with commas between, in mm, as many as one of the counts. */
function readNumbers(text: string, counts: readonly number[], unit: LengthUnit): Parsed<number[]> {
  const parts = text.split(',').map((part) => part.trim());
  if (text.trim() === '') return unparsed('has no numbers', 'write them with commas between, like 12, 30');
  if (!counts.includes(parts.length)) {
    const wanted = counts
      .map((n) => (n === 1 ? 'one number' : `${n} numbers with commas between`))
      .join(' or ');
    return unparsed(
      `has ${parts.length === 1 ? 'one number' : `${parts.length} numbers`} where ${wanted} should be`,
      'decimals take a point, and every mark its own =',
    );
  }
  const values: number[] = [];
  for (const part of parts) {
    const length = parseLength(part, unit);
    if (!length.ok) return unparsed(`has a number that ${length.problem}`, length.remedy);
    if (Math.abs(length.value) > farthest)
      return unparsed('has a number beyond all parts', 'write coordinates in the part, up to 100 m');
    values.push(length.value + 0);
  }
  return parsed(values);
}
