import { describe, expect, it } from 'vitest';
import { type Field, listSchemaFields } from '../../../core/part/field-list.js';
import {
  besideBox,
  boxText,
  rawOfMoved,
  rawOfText,
  readGiven,
  writtenUnit,
} from '../../../gallery/page/form/written-value.js';
import { findPart } from '../../../generators/index.js';

const field = (name: string): Field =>
  listSchemaFields(findPart('double-helical-gear')!.parameters).find((f) => f.name === name)!;

describe('what is written in a box', () => {
  it('stays as the job has it', () => {
    expect([38, '1 1/2in', undefined, null, true].map(boxText)).toEqual(['38', '1 1/2in', '', '', 'true']);
  });

  it('is a number where it is nothing else, and text as it was typed otherwise', () => {
    expect(['38', ' 2.50 ', '-0.3', '', '  '].map(rawOfText)).toEqual([38, 2.5, -0.3, undefined, undefined]);
    expect(['1 1/2in', '25deg', '3/8', '1e3', 'abc'].map(rawOfText)).toEqual([
      '1 1/2in',
      '25deg',
      '3/8',
      '1e3',
      'abc',
    ]);
  });

  it('tells its own unit for moving it', () => {
    const length = field('faceWidth');
    expect(['1.5in', '1 1/2"', '38mm', 38, undefined].map((raw) => writtenUnit(length, raw, 'mm'))).toEqual([
      'in',
      'in',
      'mm',
      'mm',
      'mm',
    ]);
    expect(writtenUnit(length, '38mm', 'in')).toBe('mm');
    expect(writtenUnit(field('helixAngle'), '25deg', 'in')).toBe('in');
  });

  it('keeps the unit it is moved in', () => {
    const length = field('faceWidth');
    expect(rawOfMoved(length, 38, 'mm', 'mm')).toBe(38);
    expect(rawOfMoved(length, 38, 'mm', 'in')).toBe('38mm');
    expect(rawOfMoved(length, 1.5, 'in', 'mm')).toBe('1-1/2in');
    expect(rawOfMoved(length, 2, 'in', 'mm')).toBe('2in');
    expect(rawOfMoved(length, 2, 'in', 'in')).toBe(2);
    expect(rawOfMoved(field('helixAngle'), 25, 'mm', 'mm')).toBe('25deg');
  });

  it('has beside it its unit, or what it comes to', () => {
    const beside = (name: string, text: string, unit: 'mm' | 'in' = 'mm'): string =>
      besideBox(field(name), text, readGiven(field(name), rawOfText(text), unit), unit);
    expect(beside('faceWidth', '38')).toBe('mm');
    expect(beside('faceWidth', '')).toBe('mm');
    expect(beside('faceWidth', '1 1/2in')).toBe('= 38.1 mm');
    expect(beside('faceWidth', '38.1mm', 'in')).toBe('= 1.5 in');
    expect(beside('faceWidth', '38mm')).toBe('');
    expect(beside('helixAngle', '25deg')).toBe('');
    expect(beside('helixAngle', "30°15'")).toBe('= 30.25°');
    expect(beside('faceWidth', 'abc')).toBe('mm');
  });
});
