import { expect, test } from 'vitest';
import { Interrupts } from '../../cli/interrupts.js';

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
