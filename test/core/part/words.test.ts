import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { file, length, text } from '../../../core/part/fields.js';
import { listFields } from '../../../core/part/help.js';
import { formatInput } from '../../../core/part/input-problem.js';
import { readFields } from '../../../core/part/parameters.js';

const group = 'Words';
const fields = z.object({
  file: file({ group, help: 'A mesh' }),
  inscription: text({ group, help: 'What is cut into it', longest: 12 }),
  size: length({ min: 1, max: 9, default: 2, group, help: 'Size' }),
});

const told = (raw: unknown): readonly string[] => {
  const reading = readFields(fields, raw, { lengthUnit: 'mm' });
  return reading.ok ? [] : reading.problems.map((p) => formatInput(p));
};

describe('fields of text and of files', () => {
  it('takes text as it is, a few lines of it too', () => {
    const reading = readFields(fields, { file: 'a b.stl', inscription: 'No. 7\nA' }, { lengthUnit: 'mm' });
    expect(reading).toEqual({ ok: true, values: { file: 'a b.stl', inscription: 'No. 7\nA', size: 2 } });
  });

  it('has no text where none is given, but must have its file', () => {
    expect(readFields(fields, { file: 'a.stl' }, { lengthUnit: 'mm' })).toMatchObject({
      values: { inscription: '' },
    });
    expect(told({})).toEqual(['file is missing; A mesh']);
    expect(told({ file: '  ' })).toEqual(['file is empty; the name of a file']);
  });

  it('refuses what is too long, is no text, or does not print', () => {
    expect(told({ file: 'a.stl', inscription: 'x'.repeat(13) })).toEqual([
      'inscription has 13 characters; a text of at most 12 characters',
    ]);
    expect(told({ file: ['a.stl'] })).toEqual(['file is a list; the name of a file']);
    expect(told({ file: 'a\u0000.stl' })[0]).toContain('leave control characters out');
    expect(told({ file: 'a\n.stl' })[0]).toContain('leave control characters out');
    expect(told({ file: 'a.stl', inscription: 'x\u001b[31m' })[0]).toContain('leave control characters out');
  });

  it('tells what may stand there', () => {
    expect(listFields(fields, 'mm').map((f) => [f.kind, f.range, f.default])).toEqual([
      ['file', 'the name of a file', ''],
      ['text', 'a text of at most 12 characters', ''],
      ['length', 'from 1 to 9 mm', '2 mm'],
    ]);
  });

  it('never throws, and gives text back unchanged where it takes it', () => {
    fc.assert(
      fc.property(fc.anything(), (inscription) => {
        const reading = readFields(fields, { file: 'a.stl', inscription }, { lengthUnit: 'mm' });
        if (reading.ok && inscription !== undefined)
          expect(reading.values.inscription).toBe(String(inscription));
      }),
    );
  });
});
