import { crc32 } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatLine, parseLine, parseLog } from '../../../core/log/line.js';
import { pour } from '../../helpers/pour.js';
import { anyPour } from '../../helpers/pours.js';

const seed = 20260530;

describe('a line of the log', () => {
  test(`any record comes back as it was, on one line, with the checksum zip uses; seed ${seed}`, () => {
    fc.assert(
      fc.property(anyPour, (record) => {
        const line = formatLine(record);
        expect(line).not.toMatch(/[\n\r]/);
        expect(parseLine(line)).toEqual({ ok: true, record });
        const [, sum, content] = /"crc":"(.{8})","record":(.*)\}$/s.exec(line)!;
        if (typeof crc32 === 'function')
          expect(sum).toBe((crc32(content!) >>> 0).toString(16).padStart(8, '0'));
      }),
      { seed, numRuns: 300 },
    );
  });

  test('cut anywhere, it is refused', () => {
    const line = formatLine(pour({ notes: 'gauge "3" } \\ é', faults: ['misrun'] }));
    for (let end = 1; end < line.length; end++) {
      expect(parseLine(line.slice(0, end)).ok, `${end}`).toBe(false);
      expect(parseLine(line.slice(end)).ok, `${end}`).toBe(false);
    }
  });

  test('two torn together, or one hanging on a torn one, are refused', () => {
    const [a, b] = [formatLine(pour()), formatLine(pour({ id: 'test-0001' }))];
    for (let end = 1; end <= a.length; end++) expect(parseLine(a.slice(0, end) + b).ok).toBe(false);
  });

  test(`with any one character changed, it is refused or gives the same record; seed ${seed}`, () => {
    const line = formatLine(pour({ flask: 'can 2' }));
    fc.assert(
      fc.property(fc.nat(line.length - 1), fc.constantFrom('0', '9', 'a', '"', ' ', '}'), (at, c) => {
        fc.pre(line[at] !== c);
        expect(parseLine(line.slice(0, at) + c + line.slice(at + 1)).ok).toBe(false);
      }),
      { seed, numRuns: 500 },
    );
  });

  test('of a newer form, it says so', () => {
    const line = formatLine(pour()).replace('{"v":1', '{"v":2');
    expect(parseLine(line)).toMatchObject({ ok: false, problem: { code: 'newer' } });
  });
});

describe('a whole log', () => {
  const lines = ['test-0001', 'test-0002', 'test-0003'].map((id) => formatLine(pour({ id })));

  test('torn, foreign and repeated lines are told with their line; the others are read', () => {
    const text = ['\uFEFF', lines[0], '', lines[1]!.slice(0, 60), lines[2], 'hello', lines[0], ''].join('\n');
    const { records, problems } = parseLog(text.replace('\uFEFF\n', '\uFEFF'));
    expect(records.map((r) => r.id)).toEqual(['test-0001', 'test-0003']);
    expect(problems.map((p) => [p.line, p.code])).toEqual([
      [3, 'torn'],
      [5, 'torn'],
      [6, 'repeated'],
    ]);
  });

  test('Windows line breaks and a missing last one do not matter', () => {
    expect(parseLog(lines.join('\r\n'))).toMatchObject({ records: { length: 3 }, problems: [] });
    expect(parseLog('')).toEqual({ records: [], problems: [] });
  });
});
