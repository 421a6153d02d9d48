import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { addEntry, plainJob, removeEntry, setValue, setValues } from '../../../gallery/page/job/document.js';
import { newJob } from '../../helpers/new-job.js';

const ropewalk = readFileSync(new URL('../../../gallery/ropewalk/job.yaml', import.meta.url), 'utf8');
const comments = (text: string): readonly string[] => text.match(/#.*/g) ?? [];

describe('a value set', () => {
  test('changes that value and nothing else', () => {
    const text = setValue(ropewalk, ['parts', '0', 'parameters', 'teeth'], 43);
    const [before, after] = [ropewalk, text].map((t) => parse(t));
    before.parts[0].parameters.teeth = 43;
    expect(after).toEqual(before);
    expect(comments(text)).toEqual(comments(ropewalk));
    const changed = text.split('\n').filter((line, i) => line !== ropewalk.split('\n')[i]);
    expect(changed).toEqual(['      teeth: 43']);
  });

  test('keeps the comment behind it', () => {
    expect(setValue('job: a # mine\nunits: mm\n', ['job'], 'b')).toBe('job: b # mine\nunits: mm\n');
  });

  test('makes the groups it stands in', () => {
    const text = setValue(newJob('knob'), ['parts', '0', 'stock', 'skin'], '0.4mm');
    expect(parse(text).parts[0].stock).toEqual({ skin: '0.4mm' });
  });

  test('goes, and takes emptied groups with it', () => {
    const text = setValue(newJob('knob'), ['parts', '0', 'stock', 'skin'], '0.4mm');
    expect(parse(setValue(text, ['parts', '0', 'stock', 'skin'], undefined))).toEqual(parse(newJob('knob')));
  });

  test('an entry stays when all in it but its name goes', () => {
    const text = setValues('job: a\nparts:\n  - name: b\n    part: knob\n', [
      { path: ['parts', '0', 'part'], value: undefined },
    ]);
    expect(parse(text).parts).toEqual([{ name: 'b' }]);
  });

  test('stands in a group that was empty, or that stood for another', () => {
    const empty = 'job: a\nparts:\n  - name: b\n    parameters:\n';
    const size = ['parts', '0', 'parameters', 'size'];
    expect(parse(setValue(empty, size, 30)).parts[0].parameters).toEqual({ size: 30 });
    const shared =
      'job: a\nparts:\n  - name: b\n    parameters: &its\n      size: 20\n  - name: c\n    parameters: *its\n';
    const sizes = (text: string) => parse(text).parts.map((p: { parameters?: object }) => p.parameters);
    const second = ['parts', '1', 'parameters', 'size'];
    expect(sizes(setValue(shared, second, 30))).toEqual([{ size: 20 }, { size: 30 }]);
    expect(sizes(setValue(shared, second, undefined))).toEqual([{ size: 20 }, undefined]);
    expect(sizes(removeEntry(shared, 0))).toEqual([{ size: 20 }]);
  });

  test('nothing is thrown whatever the text; what is no job stays as it is', () => {
    for (const text of ['hello', '- a', 'a: [1\nb: : :\n  - x', 'job: a\njob: b\nparts: [', 'a: *b\n']) {
      expect(setValue(text, ['units'], 'in')).toBe(text);
      expect(setValue(text, ['units'], undefined)).toBe(text);
      expect(addEntry(text, { name: 'c' })).toBe(text);
      expect(removeEntry(text, 0)).toBe(text);
    }
    const odd = ['', 'parts:\n', 'parts: 3\n', 'parts:\n  - 4\n  - name: b\n    parameters: 7\n'];
    for (const text of odd)
      for (const value of [30, undefined])
        expect(() => setValue(text, ['parts', '1', 'parameters', 'size'], value)).not.toThrow();
  });

  test('any text comes back as it was given', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (value) => {
        expect(parse(setValue('job: a\n', ['title'], value)).title).toBe(value);
      }),
    );
  });
});

describe('entries', () => {
  const entry = { name: 'c', part: 'knob', parameters: { size: 30 } };

  test('are added last', () => {
    expect(parse(addEntry(ropewalk, entry)).parts.at(-1)).toEqual(entry);
    expect(comments(addEntry(ropewalk, entry))).toEqual(comments(ropewalk));
  });

  test('are added to a job that has none', () => {
    expect(parse(addEntry('job: a\n', entry)).parts).toEqual([entry]);
  });

  test('are taken out', () => {
    const names = parse(ropewalk).parts.map((p: { name: string }) => p.name);
    const left = parse(removeEntry(ropewalk, 1)).parts.map((p: { name: string }) => p.name);
    expect(left).toEqual(names.filter((_: string, i: number) => i !== 1));
  });
});

test('a job is plain values, keys that objects have by nature too', () => {
  const plain = plainJob('job: a\n__proto__: { polluted: yes }\nconstructor: b\n');
  expect(plain.job).toBe('a');
  expect(({} as Record<string, unknown>).polluted).toBeUndefined();
});
