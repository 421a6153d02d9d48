import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { note, stop, warn } from '../../../core/part/finding.js';
import type { Mesh } from '../../../core/solid/types.js';
import { countOf, jobFindings } from '../../../gallery/page/bench/job-findings.js';
import { type BenchState, draftOf, entryOf, meshesOf, startOf } from '../../../gallery/page/bench/state.js';

const ropewalk = readFileSync(new URL('../../../gallery/ropewalk/job.yaml', import.meta.url), 'utf8');

const mesh = (): Mesh => ({ positions: new Float32Array(9), triangles: new Uint32Array(3) });

const stateOf = (text: string, more: Partial<BenchState> = {}): BenchState => ({
  ...startOf({ job: text }),
  draft: draftOf({ job: text }, 3),
  ...more,
});

describe('a draft', () => {
  const { entries, job, refusal } = draftOf({ job: ropewalk }, 0);

  test('lists the entries with the castings that the job makes of them', () => {
    expect(entries.flatMap((e) => e.castings)).toEqual(job?.parts.map((p) => p.name));
    expect(entries.find((e) => e.name === 'loft-hatch-pull')?.castings).toEqual([
      'loft-hatch-pull-ring',
      'loft-hatch-pull-plate',
      'loft-hatch-pull-pin',
    ]);
    expect(refusal).toBeNull();
  });

  test.each([
    ['', 'empty'],
    ['- a\n', 'a list'],
    ['job: a\nparts:\n  - {', 'not closed'],
    ['job: a\nparts: 7\n', 'not a list'],
    ['job: a\nparts: [7, null, {}]\n', 'no entries'],
    ['job: &a [*a]\n', 'an alias of itself'],
    ['\u0000', 'no text'],
  ])('of %j, %s, has problems with their places and throws nothing', (text) => {
    const draft = draftOf({ job: text }, 0);
    expect(draft.job).toBeNull();
    expect(draft.refusal?.problems.length).toBeGreaterThan(0);
    for (const problem of draft.refusal?.problems ?? []) expect(problem.line).toBeGreaterThan(0);
  });

  test('a mistake in one entry leaves the others to be worked on', () => {
    const draft = draftOf({ job: ropewalk.replace('teeth: 17', 'teeth: 2') }, 0);
    expect(draft.entries).toHaveLength(entries.length);
    expect(draft.refusal?.problems).toEqual([
      expect.objectContaining({ path: ['parts', '1', 'parameters', 'teeth'], code: 'out-of-range' }),
    ]);
  });
});

describe('what is looked at', () => {
  const text = 'job: a\nparts:\n  - { name: b, part: knob }\n  - { name: c, part: ring-pull }\n';
  const [sketch, exact] = [mesh(), mesh()];
  const sketched = (version: number, casting = 'b', part = 'knob') => ({
    version,
    part,
    reply: { kind: 'sketch' as const, id: 1, casting, meshes: { part: sketch } },
  });
  const made = (version: number) => ({
    version,
    reply: {
      summary: { parts: [{ name: 'b', part: 'knob' }] },
      castings: [
        {
          name: 'b',
          stamp: 1,
          meshes: { part: exact, casting: exact, pattern: exact, gated: exact },
          standing: exact,
          gating: exact,
          dimensions: [],
        },
      ],
    } as never,
  });

  test('the exact part once it is made, the sketch while it is newer, nothing of another casting', () => {
    const at = (more: Partial<BenchState>): Mesh | undefined =>
      meshesOf(stateOf(text, { casting: 'b', ...more })).part;
    expect(at({})).toBeUndefined();
    expect(at({ sketched: sketched(3) })).toBe(sketch);
    expect(at({ sketched: sketched(3), made: made(3) })).toBe(exact);
    expect(at({ sketched: sketched(4), made: made(3) })).toBe(sketch);
    expect(at({ sketched: sketched(2), made: made(3) })).toBe(exact);
    expect(at({ sketched: sketched(3, 'c-ring') })).toBeUndefined();
    expect(at({ sketched: sketched(4, 'c-ring'), made: made(3) })).toBe(exact);
    expect(at({ sketched: sketched(3, 'b', 'spur-gear') })).toBeUndefined();
  });

  test('nothing of what was another part under the same name', () => {
    const other = text.replace('part: knob', 'part: spur-gear');
    const state = stateOf(other, { casting: 'b', sketched: sketched(2), made: made(2) });
    expect(meshesOf(state)).toEqual({});
  });

  test('the entry of the casting, of whichever piece', () => {
    expect(entryOf(stateOf(text, { casting: 'c-pin' }))?.name).toBe('c');
    expect(entryOf(stateOf(text, { casting: 'gone' }))?.name).toBe('b');
  });
});

describe('findings', () => {
  test('a text that cannot be read comes before all else', () => {
    const found = jobFindings(stateOf('job: a\n'));
    expect(found.problems.length).toBeGreaterThan(0);
    expect(countOf(found)).toEqual({ text: '1', label: '1 stop' });
  });

  test('are counted by what they weigh', () => {
    const group = { name: 'b', findings: [stop('a', 'a', 'a'), warn('b', 'b', 'b'), note('c', 'c', 'c')] };
    expect(countOf({ problems: [], groups: [group] })).toEqual({
      text: '2',
      label: '1 stop, 1 warning, 1 note',
    });
    expect(countOf({ problems: [], groups: [] })).toEqual({ text: '', label: 'none' });
    const notes = { name: 'b', findings: [note('c', 'c', 'c')] };
    expect(countOf({ problems: [], groups: [notes] })).toEqual({ text: '', label: '1 note' });
  });
});
