import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatStage } from '../../../cli/progress/line.js';
import type { StageView } from '../../../cli/progress/stage.js';
import { terminalLook } from '../../../cli/progress/terminal.js';

const view: StageView = {
  stage: 'parts',
  done: 412,
  of: 1000,
  share: 0.412,
  kept: 12,
  left: 180_000,
  running: [
    { name: 'wheel-413', share: 0 },
    { name: 'cleat-7', share: 0.4 },
    { name: 'knob-9', share: 0 },
  ],
};

describe('the line of a stage', () => {
  test.each([
    [
      120,
      'making parts  █████████▉░░░░░░░░░░░░░░   412/1000  about 3 min left  12 kept from before  wheel-413, cleat-7 40 % +1',
    ],
    [79, 'parts  ██████▌░░░░░░░░░   412/1000  about 3 min left  12 kept  wheel-413 +2'],
    [59, 'parts  ███▎░░░░   412/1000  ~3 min  12 kept  wheel-413 +2'],
    [39, 'parts  ███▎░░░░   412/1000  ~3 min'],
    [20, 'parts   412/1000'],
    [9, 'parts   …'],
  ])('of %i columns', (width, line) => {
    const cuts = formatStage(view, width, true);
    expect(cuts.length).toBeLessThanOrEqual(width);
    expect(cuts).toBe(line);
  });

  test('ASCII where the terminal has no more', () => {
    expect(formatStage(view, 79, false)).toBe(
      'parts  [#####>........]   412/1000  about 3 min left  12 kept  wheel-413 +2',
    );
  });

  test('a stage of one thing has no bar, and tells how far it is where it knows', () => {
    const one: StageView = { stage: 'plates', done: 0, of: 1, share: 0, kept: 0, running: [] };
    expect(formatStage(one, 79, true)).toBe('plates and papers');
  });

  test('any stage at any width stays within it and on one line, seed 5', () => {
    const name = fc.oneof(fc.string({ unit: 'grapheme', maxLength: 200 }), fc.constant('wheel'));
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    const any = fc.record({
      stage: fc.constantFrom('parts' as const, 'plates' as const, 'moulds' as const, 'files' as const),
      done: fc.nat(10_000),
      of: fc.nat(10_000),
      share,
      kept: fc.nat(10_000),
      left: fc.option(fc.nat(1e9), { nil: undefined }),
      running: fc.array(fc.record({ name, share }), { maxLength: 20 }),
    });
    fc.assert(
      fc.property(any, fc.integer({ min: 0, max: 200 }), fc.boolean(), (stage, width, unicode) => {
        const line = formatStage(stage, width, unicode);
        expect(line.length).toBeLessThanOrEqual(width);
        expect(line).not.toMatch(/\p{Cc}|\p{Bidi_Control}/u);
        if (!unicode) expect(line).toMatch(/^[\x20-\x7e]*$/);
      }),
      { seed: 5, numRuns: 500 },
    );
  });

  test('the bar never shrinks as the work goes on', () => {
    const cells = (share: number, unicode: boolean) =>
      [...formatStage({ ...view, share, running: [] }, 79, unicode)].filter((c) => /[█▏▎▍▌▋▊▉#>]/.test(c))
        .length;
    for (const unicode of [true, false])
      for (let i = 1; i <= 200; i++)
        expect(cells(i / 200, unicode)).toBeGreaterThanOrEqual(cells((i - 1) / 200, unicode));
  });
});

test.each([
  [{ LANG: 'en_GB.UTF-8', TERM: 'xterm' }, 'linux', true, true],
  [{ LANG: 'en_GB.UTF-8', LC_ALL: 'C', TERM: 'xterm' }, 'linux', false, true],
  [{ LANG: 'C', LC_CTYPE: 'C.utf8', LC_ALL: '', TERM: 'xterm' }, 'linux', true, true],
  [{ LANG: 'en_GB.UTF-8', TERM: 'dumb' }, 'linux', false, false],
  [{}, 'linux', false, true],
  [{ WT_SESSION: '1' }, 'win32', true, true],
  [{}, 'win32', false, true],
])('what a terminal shows by %j on %s', (env, platform, unicode, escapes) => {
  expect(terminalLook(env, platform)).toEqual({ unicode, escapes });
});
