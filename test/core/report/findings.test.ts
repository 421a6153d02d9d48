import { expect, test } from 'vitest';
import { note, stop, warn } from '../../../core/part/finding.js';
import {
  collectFindings,
  countFindings,
  distinctFindings,
  findingLines,
  namesOf,
  sentence,
  sharedFindings,
  tally,
} from '../../../core/report/findings.js';
import { summary } from './fixture.js';

test('every finding of the summary, wherever it stands, once', () => {
  const groups = collectFindings(summary);
  expect(groups.map((g) => [g.part, g.findings.map((f) => f.code)])).toEqual([
    ['laying-wheel', ['web-too-thin', 'undercut']],
    [null, ['peak-near-limit', 'flask-too-hot', 'plates-not-full']],
    ['crank-pinion', ['gate-velocity']],
    ['pull-small', ['overhang']],
  ]);
  expect(tally(countFindings(groups))).toBe('1 stop, 4 warnings, 2 notes');
});

test('what the job repeats from a part stands with the part', () => {
  const all = { ...summary, findings: [...summary.findings, ...summary.parts.flatMap((p) => p.findings)] };
  expect(collectFindings(all)).toEqual(collectFindings(summary));
});

test('the gravest first, order kept otherwise; the same code with another message is another finding', () => {
  const list = [
    note('n', 'a', 'r'),
    warn('w', 'b', 'r'),
    warn('w', 'c', 'r'),
    warn('w', 'b', 'r'),
    stop('s', 'd', 'r'),
  ];
  expect(distinctFindings(list).map((f) => f.message)).toEqual(['D.', 'B.', 'C.', 'A.']);
  expect(tally({ stop: 0, warn: 0, note: 0 })).toBe('none');
});

test('sentences end once, and a unit stays with its number', () => {
  expect(sentence('the hole is 3.2 mm wide ')).toBe('the hole is 3.2\u00A0mm wide.');
  expect(sentence('At 5 % and 412 mm/s, 730 °C, 2 halves?')).toBe(
    'At 5\u00A0% and 412\u00A0mm/s, 730\u00A0°C, 2 halves?',
  );
});

test('what parts have alike, word for word, is said once under all of them; nothing is lost', () => {
  const [same, other] = [
    note('bears', 'It bears 233 N.', 'Prove it.'),
    note('bears', 'It bears 9 N.', 'Prove it.'),
  ];
  const own = warn('thin', 'It is thin.', 'Thicken it.');
  const groups = [
    { part: 'outer', findings: [own, same] },
    { part: 'inner', findings: [same, other] },
    { part: null, findings: [{ ...same, remedy: 'Another way.' }] },
  ];
  expect(sharedFindings(groups).map((g) => [g.parts, g.findings.map((f) => f.message)])).toEqual([
    [['outer'], ['It is thin.']],
    [['outer', 'inner'], ['It bears 233 N.']],
    [['inner'], ['It bears 9 N.']],
    [[null], ['It bears 233 N.']],
  ]);
});

test('a list of findings stays short: the same once, of a kind a few, each of another kind', () => {
  const of = (i: number) => warn('thin', `The wall is ${i} mm.`, 'Thicken it.');
  const alone = note('kept', 'It is kept.', 'Keep it.');
  const groups = [
    { part: null, findings: [alone] },
    ...Array.from({ length: 50 }, (_, i) => ({ part: `p${i}`, findings: [of(i % 25), alone] })),
  ];
  const told = findingLines(groups).map(({ severity, code, parts, finding }) => [
    severity,
    code,
    parts.length,
    finding?.message,
  ]);
  expect(told).toEqual([
    ['note', 'kept', 51, 'It is kept.'],
    ['warn', 'thin', 2, 'The wall is 0 mm.'],
    ['warn', 'thin', 2, 'The wall is 1 mm.'],
    ['warn', 'thin', 2, 'The wall is 2 mm.'],
    ['warn', 'thin', 44, undefined],
  ]);
  // Four are told in full: counting the last would save no line.
  const four = Array.from({ length: 4 }, (_, i) => ({ part: `p${i}`, findings: [of(i)] }));
  expect(findingLines(four).every((l) => l.finding)).toBe(true);
  expect(findingLines([])).toEqual([]);
});

test('names are listed, many of them counted', () => {
  expect(namesOf([null])).toBe('');
  expect(namesOf(['a'])).toBe('a');
  expect(namesOf([null, 'a', 'b'])).toBe('a and b');
  expect(namesOf(['a', 'b', 'c'])).toBe('a, b and c');
  expect(namesOf(['a', 'b', 'c', 'd', 'e'])).toBe('a, b, c and 2 more');
});
