/** Findings as the planner words them, of two kinds on a tree. */
import { describe, expect, test } from 'vitest';
import { allKinds, planGating, type TreeKind } from '../../../core/foundry/gating/index.js';
import { breaksMore } from '../../../core/job/kept-rules.js';
import { note, warn } from '../../../core/part/finding.js';
import { tubeInput } from '../foundry/gating/cases.js';

const kind = (name: string, gate: number, x: number): TreeKind => {
  const { gates, vents, casting } = tubeInput(14, 0, 22, gate, [[0, 0, 1]]).input;
  return { name, gates, vents, casting, places: [{ turn: 0, x, y: 0 }] };
};

/** Both patterns are alike but for their gate places. */
const findingsOf = (narrow: number, pourTime: number | null) => {
  const kinds = [kind('gate', 30, -40), kind('gate-2', narrow, 40)];
  const { metal } = tubeInput(10, 0, 10, 10, []).input;
  const settings = { pourTime };
  return planGating({ gates: [], vents: [], kinds, casting: allKinds(kinds, 60), metal, settings }).findings;
};

const of = (name: string, ...codes: readonly string[]) => ({ name, broken: new Set(codes) });

describe.each([
  ['gate-too-narrow', 5, 0.3],
  ['gate-velocity', 6, null],
  ['sprue-freezes-early', 9, null],
] as const)('%s of one kind', (code, narrow, pourTime) => {
  const found = findingsOf(narrow, pourTime).filter((f) => f.code === code);

  test('is excused by its own fault alone', () => {
    expect(found.length).toBeGreaterThan(0);
    const its = found.filter((f) => f.message.includes('gate-2'));
    expect(its.length).toBe(1);
    expect(breaksMore(its, [of('gate'), of('gate-2', code)])).toBe(false);
    expect(breaksMore(its, [of('gate', code), of('gate-2')])).toBe(true);
    expect(breaksMore(its, [of('gate'), of('gate-2')])).toBe(true);
  });
});

test('vents are of the pattern they are named after', () => {
  const found = findingsOf(20, null).filter((f) => /^vent-(place|left)/.test(f.code));
  expect(found.length).toBe(2);
  const code = found[0]!.code;
  expect(breaksMore(found, [of('gate', code), of('gate-2', code)])).toBe(false);
  expect(breaksMore(found, [of('gate', code), of('gate-2')])).toBe(true);
});

test('what is of the tree any of them may have by itself; notes are no rules, but for reach', () => {
  const short = [warn('feed-short', 'The casting asks for more.', 'Allow a wider cup.')];
  expect(breaksMore(short, [of('a', 'feed-short'), of('b')])).toBe(false);
  expect(breaksMore(short, [of('a'), of('b')])).toBe(true);
  expect(breaksMore([note('vent-area', 'Little.', 'None.')], [of('a')])).toBe(false);
  const far = note('feeds-too-far', 'Metal from a: top has to feed 40 mm.', 'Thicker.');
  expect(breaksMore([far], [of('a'), of('b', 'feeds-too-far')])).toBe(true);
  expect(breaksMore([far], [of('a', 'feeds-too-far'), of('b')])).toBe(false);
});
