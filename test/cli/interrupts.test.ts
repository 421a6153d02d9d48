import { expect, test } from 'vitest';
import { fitTerminal } from '../../cli/failure.js';
import { Interrupts } from '../../cli/interrupts.js';
import { interrupted } from '../../cli/tell-job.js';

/** Signals that are counted by whether they are held. */
function edge() {
  let held = 0;
  let tell = (): void => undefined;
  let isInterrupted = false;
  return {
    held: () => held,
    interrupt: () => {
      isInterrupted = true;
      tell();
    },
    holdInterrupts: () => {
      held++;
      const whenInterrupted = new Promise<void>((resolve) => {
        tell = resolve;
      });
      return { interrupted: () => isInterrupted, whenInterrupted, release: () => void held-- };
    },
  };
}

test('interrupts are held but round what keeps the thread, however many of those there are', async () => {
  const signals = edge();
  const interrupts = new Interrupts(signals);
  const seen: number[] = [];
  const work = async (): Promise<void> => {
    seen.push(signals.held());
    await Promise.resolve();
    seen.push(signals.held());
  };
  await interrupts.letThrough(work);
  expect([seen.splice(0), signals.held()]).toEqual([[0, 0], 0]);
  interrupts.hold();
  interrupts.hold();
  expect(signals.held()).toBe(1);
  await Promise.all([interrupts.letThrough(work), interrupts.letThrough(work)]);
  expect([seen.splice(0), signals.held()]).toEqual([[0, 0, 0, 0], 1]);
  await expect(interrupts.letThrough(() => Promise.reject(new Error('work')))).rejects.toThrow('work');
  expect(signals.held()).toBe(1);
  let told = 0;
  interrupts.onFirst(() => void told++);
  signals.interrupt();
  await interrupts.letThrough(work);
  expect([told, signals.held()]).toEqual([1, 1]);
  interrupts.release();
  expect(signals.held()).toBe(0);
});

test.each([20, 40, 60])('the words of an interrupted run are not cut at %i columns', (columns) => {
  const { problems, closing } = interrupted({
    out: 'out/forty-fittings',
    hadFolder: true,
    parts: { done: 12, of: 40 },
    inWork: ['sheet-cleat (./parts/sheet-cleat.mjs)', 'knob'],
    kept: 'all',
  });
  const text = [...problems.map((p) => p.text), ...closing.split('\n')];
  const shown = text.map((line) => fitTerminal(line, { isTerminal: true, columns: () => columns }));
  const lines = shown.flatMap((line) => line.split('\n'));
  for (const line of lines) expect(line.length).toBeLessThanOrEqual(columns);
  const words = (list: readonly string[]): readonly string[] => list.flatMap((line) => line.split(/\s+/));
  if (columns > 24) expect(words(lines).filter((word) => word !== '')).toEqual(words(text));
  // Where nobody reads it there, and where there is room, it is as it was.
  const notThere = { isTerminal: false, columns: () => columns };
  expect(text.map((line) => fitTerminal(line, notThere))).toEqual(text);
  expect(text.map((line) => fitTerminal(line, { isTerminal: true, columns: () => 200 }))).toEqual(text);
});
