import { expect, test } from 'vitest';
import { type ProgressEvent, startProgress, tellAllowedTime } from '../../../cli/progress/index.js';

/** A clock and a timer that go by hand. */
function byHand() {
  const clock = { now: 5000 };
  const ticks = new Set<() => void>();
  const every = (_ms: number, tick: () => void) => {
    ticks.add(tick);
    return () => void ticks.delete(tick);
  };
  const pass = (ms: number): void => {
    clock.now += ms;
    for (const tick of ticks) tick();
  };
  return { now: () => clock.now, every, pass, timers: () => ticks.size };
}

test('a stage that has a time tells how much of it has passed, and is not done before it says so', () => {
  const { pass, timers, ...clock } = byHand();
  const events: ProgressEvent[] = [];
  const end = tellAllowedTime('plates', { name: 'laying out', seconds: 60, ...clock }, (e) => events.push(e));
  for (const ms of [0, 15_000, 15_000, 60_000, -200_000]) pass(ms);
  expect(events.map((e) => e.share)).toEqual([undefined, 0, 0.25, 0.5, 0.999, 0]);
  expect(events.every((e) => e.stage === 'plates' && e.of === 1 && e.name === 'laying out')).toBe(true);
  end();
  expect(timers()).toBe(0);
});

test('without a time nothing is told', () => {
  const { timers, now, every } = byHand();
  const events: ProgressEvent[] = [];
  for (const seconds of [0, Number.NaN, -1])
    tellAllowedTime('plates', { name: 'laying out', seconds, now, every }, (e) => events.push(e))();
  expect([events, timers()]).toEqual([[], 0]);
});

test.each([
  [40, /^plates and papers {2}████░░░░ {2}~30 s$/],
  [100, /^plates and papers {2}█+.?░* {2}about 30 s left {2}laying out 50 %$/],
])('on a terminal of %i columns it is a bar with the time left', (columns, line) => {
  const { pass, ...clock } = byHand();
  const written: string[] = [];
  const bar = startProgress({ write: (text) => written.push(text), columns: () => columns, now: clock.now });
  bar.event({ stage: 'plates', of: 1 });
  tellAllowedTime('plates', { name: 'laying out', seconds: 60, ...clock }, bar.event);
  for (let i = 0; i < 60; i++) pass(500);
  const last = written.at(-1)?.split('\u001b[J').at(-1) ?? '';
  expect(last).toMatch(line);
  expect(last.length).toBeLessThan(columns);
});
