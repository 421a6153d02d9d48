import type { Vec3 } from '../../solid/types.js';
import type { MeshRemark } from '../health/remark.js';
import { castable } from './guess-unit.js';
import { meshUnits, millimetresPer, unitNames } from './units.js';
import { sizeFigure, sizeText } from './words.js';

/** Longest side, mm, that is believed: smaller is dust, larger than any flask. */
export const believable = { least: 1, most: 2000 } as const;

/** Why a box, mm, is absurd as a casting, and what would be right; null where it is not. */
export function checkSize(size: Vec3): MeshRemark | null {
  const longest = Math.max(...size);
  const refuse = (code: string, message: string): MeshRemark => ({ code, message, count: 1 });
  if (!size.every(Number.isFinite))
    return refuse(
      'size-not-finite',
      `The box is ${size.join(' × ')} mm; every side must be a finite number.`,
    );
  if (!(Math.min(...size) > 0))
    return refuse(
      'no-thickness',
      `The box is ${sizeText(size)}: something without thickness cannot be cast.`,
    );
  if (longest < believable.least)
    return refuse(
      'too-small',
      `The longest side is ${sizeFigure(longest)} mm; at least ${believable.least} mm can be cast. ${otherwise(longest)}`,
    );
  if (longest > believable.most)
    return refuse(
      'too-large',
      `The longest side is ${sizeFigure(longest)} mm; at most ${believable.most} mm is believed. ${otherwise(longest)}`,
    );
  return null;
}

/** The readings of the file's numbers that would make a casting of it. */
function otherwise(longest: number): string {
  const readings = meshUnits
    .filter((unit) => unit !== 'mm')
    .flatMap((unit) => [
      {
        side: longest * millimetresPer[unit],
        text: `if its numbers are ${unitNames[unit]} and were taken for millimetres`,
      },
      {
        side: longest / millimetresPer[unit],
        text: `if they are millimetres and were taken for ${unitNames[unit]}`,
      },
    ])
    .filter(({ side }) => side >= castable.least && side <= castable.most)
    .map(({ side, text }) => `${sizeFigure(side)} mm ${text}`);
  return readings.length > 0
    ? `It would be ${readings.join(', or ')}: name the right unit, or scale it to a known length.`
    : 'Scale it to a known length.';
}
