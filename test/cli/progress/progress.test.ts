import { describe, expect, test } from 'vitest';
import { type ProgressOptions, startProgress } from '../../../cli/progress/index.js';

const esc = '\u001b';

/** What stands on a terminal after all that was written to it: enough of one for a line that is drawn over itself. */
function screen(written: readonly string[], columns = 80): readonly string[] {
  const rows: string[][] = [[]];
  let [row, column] = [0, 0];
  const tokens =
    written
      .join('')
      .replaceAll(esc, '\u{e000}')
      .match(/\u{e000}\[\d*[A-Z]|[\s\S]/gu) ?? [];
  for (const token of tokens) {
    const move = /^\u{e000}\[(\d*)([A-Z])$/u.exec(token);
    if (token === '\r') column = 0;
    else if (token === '\n') [row, column] = [row + 1, 0];
    else if (move?.[2] === 'A') row = Math.max(0, row - Number(move[1] || 1));
    else if (move?.[2] === 'J') {
      rows.length = row + 1;
      rows[row]?.splice(column);
    } else if (move) throw new Error(`unknown sequence ${JSON.stringify(token)}`);
    else {
      rows[row] ??= [];
      (rows[row] as string[])[column++] = token;
      if (column >= columns) [row, column] = [row + 1, 0];
    }
    rows[row] ??= [];
  }
  return rows.map((r) =>
    Array.from(r, (c) => c ?? ' ')
      .join('')
      .trimEnd(),
  );
}

function watch(options: Partial<ProgressOptions> = {}) {
  const written: string[] = [];
  const clock = { now: 1000 };
  const ticks: (() => void)[] = [];
  let running = 0;
  const bar = startProgress({
    write: (text) => written.push(text),
    columns: () => 80,
    now: () => clock.now,
    every: (_ms, tick) => {
      ticks.push(tick);
      running++;
      return () => {
        running--;
      };
    },
    ...options,
  });
  return { bar, written, clock, tick: () => ticks.at(-1)?.(), timers: () => running };
}

const part = (i: number, share = 1) => ({ stage: 'parts', of: 2000, name: `p${i}`, share }) as const;

describe('the bar', () => {
  test('is drawn over itself, and gone when it is cleared', () => {
    const { bar, written, clock, timers } = watch();
    bar.print('Running part files.\n');
    for (let i = 0; i < 20; i++) {
      clock.now += 250;
      bar.event(part(i));
    }
    expect(screen(written)).toEqual(['Running part files.', expect.stringMatching(/^parts {2}.* 20\/2000/)]);
    bar.clear();
    expect(screen(written)).toEqual(['Running part files.', '']);
    expect(timers()).toBe(0);
    const length = written.length;
    bar.clear();
    expect(written).toHaveLength(length);
  });

  test('lines that are printed meanwhile stand whole above it', () => {
    const { bar, written, clock } = watch();
    bar.event(part(0));
    bar.print('warn: one: Its wall is thin.\n');
    clock.now += 500;
    bar.event(part(1));
    bar.print('warn: two: Its wall is thin.\n');
    const [first, second, line] = screen(written);
    expect([first, second]).toEqual(['warn: one: Its wall is thin.', 'warn: two: Its wall is thin.']);
    expect(line).toContain('2/2000');
  });

  test('at most ten times a second, and at once where a stage begins', () => {
    const { bar, written, clock } = watch();
    for (let i = 0; i < 1000; i++) {
      clock.now += 1;
      bar.event(part(i));
    }
    expect(written.length).toBeLessThanOrEqual(11);
    const before = written.length;
    bar.event({ stage: 'plates', of: 1 });
    expect(written).toHaveLength(before + 1);
    expect(screen(written)).toEqual(['plates and papers']);
  });

  test('goes on by itself while nothing is told', () => {
    const { bar, written, clock, tick } = watch();
    for (let i = 0; i < 12; i++) {
      bar.event(part(i, 0));
      clock.now += 3000;
      bar.event(part(i));
    }
    const told = (): number => Number(/about (?:(\d+) h )?(\d+) min/.exec(screen(written).join(''))?.[2]);
    const first = told();
    for (let i = 0; i < 600; i++) {
      clock.now += 500;
      tick();
    }
    expect(first).toBeGreaterThan(0);
    // The estimate is made anew while a worker is idle; it does not grow without bound.
    expect(screen(written)).toHaveLength(1);
  });

  test('clocks that jump make no nonsense', () => {
    const jumps = [0, -5e9, 1e12, Number.NaN, Number.POSITIVE_INFINITY, -1, 3e15];
    const { bar, written, clock, tick } = watch();
    for (let i = 0; i < 400; i++) {
      bar.event(part(i, 0));
      clock.now += 1200;
      if (i % 50 === 49) clock.now += jumps[(i / 50) | 0] ?? 0;
      if (Number.isNaN(clock.now) || !Number.isFinite(clock.now)) {
        tick();
        clock.now = 5e6;
      }
      bar.event(part(i));
      tick();
    }
    const lines = written.join('');
    expect(lines).not.toMatch(/NaN|Infinity|-\d|undefined|e\+/);
    for (const [, h] of lines.matchAll(/about (\d+) h/g)) expect(Number(h)).toBeLessThan(100);
    expect(screen(written)[0]).toMatch(/400\/2000/);
  });

  test('narrower terminals get a shorter line, never two', () => {
    for (const columns of [1, 2, 5, 20, 40, 79, 200]) {
      const { bar, written, clock } = watch({ columns: () => columns });
      for (let i = 0; i < 30; i++) {
        clock.now += 500;
        bar.event(part(i));
      }
      expect(screen(written, columns)).toHaveLength(1);
      bar.clear();
      expect(screen(written, columns)).toEqual(['']);
    }
  });

  test('a terminal made narrower wraps the line that stands; all of it is taken away', () => {
    let columns = 80;
    const { bar, written, clock } = watch({ columns: () => columns });
    clock.now += 500;
    bar.event({ ...part(0, 0.5), name: 'a-name-that-fills-the-line-to-its-end-or-nearly' });
    const line = written.at(-1) as string;
    columns = 20;
    clock.now += 500;
    bar.event(part(1));
    expect(written.at(-1)).toMatch(
      new RegExp(`^\\r\\u001b\\[${Math.ceil(line.length / 20) - 1}A\\u001b\\[J`),
    );
  });

  test('without escapes: carriage returns and spaces alone', () => {
    const { bar, written, clock } = watch({ escapes: false, unicode: false });
    for (let i = 0; i < 5; i++) {
      clock.now += 500;
      bar.event(part(i));
    }
    bar.event({ stage: 'plates', of: 1 });
    bar.clear();
    expect(written.join('')).toMatch(/^[\r\x20-\x7e]*$/);
    expect(screen(written)).toEqual(['']);
  });

  test('a thousand stages told at once cost little and end', () => {
    const { bar, written, clock } = watch();
    bar.event({ stage: 'parts', of: 10_000 });
    for (let i = 0; i < 10_000; i++) {
      bar.event({ stage: 'parts', of: 10_000, name: `p${i}` });
      clock.now += 20;
      bar.event({ stage: 'parts', of: 10_000, name: `p${i}`, share: 1 });
    }
    bar.event({ stage: 'parts', of: 10_000, name: 'p1', share: 1 });
    clock.now += 200;
    bar.event({ stage: 'parts', of: 10_000, name: 'p2', share: 1 });
    expect(screen(written)[0]).toContain('10000/10000');
  });
});
