import { expect, test } from 'vitest';
import { type Hands, Stopped } from '../../../cli/crew/hands.js';
import type { PlanTask } from '../../../cli/crew/plan-task.js';
import { relievedHands } from '../../../cli/crew/relief.js';
import type { Task } from '../../../cli/crew/tasks.js';

/** Pools that tell what becomes of them, and answer with their own number. */
function pools() {
  const told: string[] = [];
  let opened = 0;
  const open = (threads: number): Hands => {
    const id = ++opened;
    told.push(`${id} of ${threads}`);
    return {
      count: threads,
      do: async (task: Task) => {
        told.push(`${id} ${task.kind}s`);
        if (task.kind === 'plan' && task.keepGoing) throw new Error('a fault');
        return id as never;
      },
      rest: async () => void told.push(`${id} rests`),
      close: async () => void told.push(`${id} closed`),
    };
  };
  return { told, open };
}

const planOf = (size: number, fails = false) =>
  ({
    kind: 'plan',
    order: { parts: new Map(Array.from({ length: size }, (_, i) => [String(i), {}])) },
    keepGoing: fails,
  }) as unknown as PlanTask;

test('a large plan has a thread to itself, which comes when the others have gone and goes with its answer', async () => {
  const { told, open } = pools();
  const hands = relievedHands(open, 3);
  await hands.do(planOf(99));
  expect(await hands.do(planOf(100))).toBe(2);
  expect(await hands.do(planOf(5))).toBe(1);
  expect(told).toEqual(['1 of 3', '1 plans', '1 rests', '2 of 1', '2 plans', '2 closed', '1 plans']);
});

test('it goes where it fails, too; nothing comes once all is closed', async () => {
  const { told, open } = pools();
  const hands = relievedHands(open, 2);
  await expect(hands.do(planOf(1000, true))).rejects.toThrow('a fault');
  expect(told.at(-1)).toBe('2 closed');
  await hands.close();
  await expect(hands.do(planOf(1000))).rejects.toBeInstanceOf(Stopped);
  expect(told.filter((line) => line.includes(' of '))).toEqual(['1 of 2', '2 of 1']);
});
