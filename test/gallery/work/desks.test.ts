import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { type DeskReply, MakeDesk } from '../../../gallery/page/work/make-desk.js';
import {
  type MakeOrder,
  type MakeReply,
  notLoaded,
  type SketchOrder,
  type SketchReply,
} from '../../../gallery/page/work/protocol.js';
import { SketchDesk } from '../../../gallery/page/work/sketch-desk.js';

/** A worker that only notes what it is told. */
class NotedWorker {
  static all: NotedWorker[] = [];
  readonly told: unknown[] = [];
  ended = false;
  onmessage: ((event: { data: unknown }) => void) | null = null;
  onerror: (() => void) | null = null;
  constructor() {
    NotedWorker.all.push(this);
  }
  postMessage(message: unknown): void {
    this.told.push(message);
  }
  terminate(): void {
    this.ended = true;
  }
  say(data: unknown): void {
    if (!this.ended) this.onmessage?.({ data });
  }
}
const worker = (i = NotedWorker.all.length - 1): NotedWorker => NotedWorker.all[i] as NotedWorker;

beforeEach(() => {
  NotedWorker.all = [];
  vi.stubGlobal('Worker', NotedWorker);
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe('sketches', () => {
  const order = (id: number): SketchOrder => ({ id, sources: { job: '' }, casting: '', state: 'part' });

  test('one at a time; of those that wait the last alone', () => {
    const desk = new SketchDesk(() => {});
    for (const id of [1, 2, 3, 4]) desk.order(order(id));
    expect(worker().told).toEqual([order(1)]);
    worker().say({ kind: 'sketch', id: 1, casting: '', meshes: {} });
    expect(worker().told).toEqual([order(1), order(4)]);
    worker().say({ kind: 'broken', id: 4, message: '' });
    desk.order(order(5));
    expect(worker().told).toHaveLength(3);
  });
});

test('a worker that cannot be loaded is told, and nobody waits for it', async () => {
  const told: string[] = [];
  const listen = (reply: SketchReply | DeskReply): void => {
    if (reply.kind === 'broken') told.push(reply.message);
  };
  const sketches = new SketchDesk(listen);
  sketches.order({ id: 1, sources: { job: '' }, casting: '', state: 'part' });
  worker().onerror?.();
  expect(told).toEqual([notLoaded]);
  const desk = new MakeDesk(listen);
  desk.make({ job: '' });
  const files = desk.files({ job: '' }, 'zip');
  worker().onerror?.();
  expect(told).toEqual([notLoaded, notLoaded]);
  await expect(files).rejects.toThrow(notLoaded);
});

describe('jobs in full', () => {
  const casting = (stamp: number) => ({ name: 'a', stamp, meshes: {} });
  const made = (id: number, castings: readonly object[], final = true): MakeReply =>
    ({ kind: 'made', id, final, castings, frozen: [], summary: {} }) as never;
  const heard = (): { desk: MakeDesk; replies: DeskReply[] } => {
    const replies: DeskReply[] = [];
    return { desk: new MakeDesk((reply) => replies.push(reply)), replies };
  };

  test('what was sent before is put back by its stamp, from a late reply too', () => {
    const { desk, replies } = heard();
    const first = desk.make({ job: '1' });
    const second = desk.make({ job: '2' });
    worker().say(made(first, [casting(1), casting(2)], false));
    expect(replies).toEqual([]);
    worker().say(made(second, [{ name: 'a', stamp: 1 }, casting(3)]));
    expect(replies).toEqual([made(second, [casting(1), casting(3)])]);
  });

  test('a worker that is deep in old work is ended, and another given the new', () => {
    const { desk, replies } = heard();
    const old = desk.make({ job: 'long' });
    worker().say({ kind: 'progress', id: old, stage: 'freezing', share: 0 });
    vi.advanceTimersByTime(3000);
    const id = desk.make({ job: 'new' });
    // However well the old work goes on.
    for (let s = 0; s < 10 && NotedWorker.all.length === 1; s++) {
      vi.advanceTimersByTime(1000);
      worker(0).say({ kind: 'progress', id: old, stage: 'freezing', share: s / 60 });
    }
    expect(NotedWorker.all).toHaveLength(2);
    expect(worker(0).ended).toBe(true);
    expect(worker().told).toEqual([{ kind: 'make', id, sources: { job: 'new' } }]);
    worker().say(made(id, [casting(1)]));
    expect(replies.at(-1)).toMatchObject({ kind: 'made', id });
  });

  test('one that tells of its progress, or is at the newest work, is left to it', () => {
    const { desk } = heard();
    const id = desk.make({ job: 'a' });
    for (let s = 0; s < 60; s++) {
      vi.advanceTimersByTime(1000);
      worker().say({ kind: 'progress', id, stage: '', share: 0 });
    }
    expect(NotedWorker.all).toHaveLength(1);
  });

  test('a slow start is waited for, whatever is ordered meanwhile', () => {
    const { desk } = heard();
    for (const job of ['a', 'b', 'c']) {
      desk.make({ job });
      vi.advanceTimersByTime(60_000);
    }
    expect(NotedWorker.all).toHaveLength(1);
  });

  test('what an ended worker had said still is not taken for the new one’s', () => {
    const { desk, replies } = heard();
    const old = desk.make({ job: 'long' });
    worker().say(made(old, [casting(1)], false));
    const id = desk.make({ job: 'new' });
    vi.advanceTimersByTime(10_000);
    expect(NotedWorker.all).toHaveLength(2);
    worker(0).onmessage?.({ data: made(id, [{ name: 'a', stamp: 1 }]) });
    expect(replies).toHaveLength(1);
    worker().say(made(id, [casting(1)]));
    expect(replies.at(-1)).toEqual(made(id, [casting(1)]));
  });

  test('files come to whoever asked, or why they do not', async () => {
    const { desk } = heard();
    const asked = desk.files({ job: 'a' }, ['b']);
    const { id } = worker().told[0] as MakeOrder;
    worker().say({ kind: 'files', id, files: [{ path: 'b', bytes: new Uint8Array(1) }] });
    expect(await asked).toHaveLength(1);
    const refused = desk.files({ job: 'a' }, 'zip');
    worker().say({ kind: 'broken', id: id + 1, message: 'The job has changed.' });
    await expect(refused).rejects.toThrow('The job has changed.');
  });
});
