/**
 * How quick the page is: `npm run bench` after `npm run gallery`. Its weight, the first picture, from a change to its
 * picture, the longest task of the page's own thread, and memory over many changes. Wants a quiet machine; Chromium
 * draws without a graphics card here, where the picture is most of the time.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { extname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser, CDPSession, Page } from 'playwright-core';
import { afterAll, beforeAll, test } from 'vitest';
import { openJob, sizeBox, waitMade } from '../browser/harness/bench.js';
import { launch } from '../browser/harness/launch.js';
import { builtPage, type PageServer, servePage } from '../browser/harness/page-server.js';

const changes = 24;
const manyChanges = 500;

const say = (text: string): void => void process.stdout.write(`${text}\n`);
const kB = (bytes: number): string => `${(bytes / 1000).toFixed(0)} kB`;
const MiB = (bytes: number): string => `${(bytes / 2 ** 20).toFixed(0)} MiB`;

const gear = (teeth: number): string =>
  `job: gear\nparts:\n  - name: gear\n    part: spur-gear\n    parameters: { module: 1.25, teeth: ${teeth}, faceWidth: 20, bore: 12 }\n`;
const pieces: readonly (readonly [name: string, job: string, size: string])[] = [
  ['gear, 24 teeth', gear(24), 'Face width'],
  ['gear, 60 teeth', gear(60), 'Face width'],
  ['gear, 120 teeth', gear(120), 'Face width'],
  [
    'horn cleat',
    'job: cleat\nparts:\n  - { name: cleat, part: horn-cleat, parameters: { line: 8 } }\n',
    'Line',
  ],
];

let browser: Browser;
let server: PageServer;
beforeAll(async () => {
  server = await servePage();
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

interface Told {
  /** ms from a change to its picture, in their order. */
  readonly pictures: number[];
  /** ms of the page's own thread, those over 50. */
  readonly tasks: number[];
  /** ms from the beginning of loading to the first picture. */
  first: number | null;
}

/** Runs in the page before anything of it. */
function listen(): void {
  const told: Told = { pictures: [], tasks: [], first: null };
  Object.assign(globalThis, { told });
  new PerformanceObserver((list) => {
    for (const { name, startTime, duration } of list.getEntries()) {
      if (name !== 'change to picture') continue;
      told.first ??= startTime + duration;
      told.pictures.push(duration);
    }
  }).observe({ type: 'measure', buffered: true });
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) told.tasks.push(duration);
  }).observe({ type: 'longtask', buffered: true });
}

const toldBy = (page: Page): Promise<Told> =>
  page.evaluate(() => (globalThis as unknown as { told: Told }).told);

async function reader(job: string): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  const page = await context.newPage();
  await page.addInitScript(listen);
  await openJob({ page, address: server.address }, job);
  return page;
}

const pictureCount = async (page: Page): Promise<number> => (await toldBy(page)).pictures.length;

/** One step of a size, as a key makes it; waits until it is drawn. */
async function step(page: Page, size: string, key: string): Promise<void> {
  const before = await pictureCount(page);
  await sizeBox(page, size).press(key);
  await page.waitForFunction(
    (count) => (globalThis as unknown as { told: Told }).told.pictures.length > count,
    before,
    { polling: 5 },
  );
}

const sorted = (values: readonly number[]): readonly number[] => [...values].sort((a, b) => a - b);
const median = (values: readonly number[]): number =>
  sorted(values)[Math.floor(values.length / 2)] ?? Number.NaN;
const worst = (values: readonly number[]): number => Math.max(0, ...values);
/** The browser tells of tasks from 50 ms on. */
const longest = (tasks: readonly number[]): string =>
  tasks.length === 0 ? 'none over 50 ms' : `${worst(tasks).toFixed(0)} ms`;

test('weight', () => {
  const files = readdirSync(builtPage, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
  const kinds = new Map<string, { count: number; bytes: number; zipped: number }>();
  for (const file of files) {
    const bytes = readFileSync(file);
    const kind = extname(file);
    const sum = kinds.get(kind) ?? { count: 0, bytes: 0, zipped: 0 };
    kinds.set(kind, {
      count: sum.count + 1,
      bytes: sum.bytes + bytes.length,
      zipped: sum.zipped + gzipSync(bytes).length,
    });
  }
  say(`page: ${files.length} files; ${availableParallelism()} processors, Chromium ${browser.version()}`);
  for (const [kind, { count, bytes, zipped }] of [...kinds].sort((a, b) => b[1].bytes - a[1].bytes))
    say(`  ${kind}: ${count} files, ${kB(bytes)}, ${kB(zipped)} with gzip`);
});

test('to the wall, and to the first picture', async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  const page = await context.newPage();
  await page.goto(server.address);
  await page.getByRole('button', { name: 'Skiff cleat' }).waitFor();
  const wall = await page.evaluate(() => performance.now());
  say(`wall with its list: ${wall.toFixed(0)} ms from the beginning of loading`);
  await context.close();
  for (const [name, job] of pieces) {
    const opened = await reader(job);
    await opened.waitForFunction(() => (globalThis as unknown as { told: Told }).told.first !== null);
    const { first } = await toldBy(opened);
    say(`${name}, by a link with nothing kept: first picture ${first?.toFixed(0)} ms`);
    await opened.context().close();
  }
});

test('from a change to its picture', async () => {
  for (const [name, job, size] of pieces) {
    const page = await reader(job);
    await waitMade(page);
    const before = await toldBy(page);
    // Up and down, so that no size is left that cannot be cast.
    for (let n = 0; n < changes; n++) await step(page, size, n % 4 < 2 ? 'ArrowUp' : 'ArrowDown');
    await waitMade(page);
    const after = await toldBy(page);
    const own = after.pictures.slice(before.pictures.length);
    const tasks = after.tasks.slice(before.tasks.length);
    say(
      `${name}: change to picture ${median(own).toFixed(0)} ms (median), ${worst(own).toFixed(0)} ms (worst of ${own.length}); ` +
        `longest task of the page's thread: ${longest(tasks)} while working, ${longest(before.tasks)} while opening`,
    );
    await page.context().close();
  }
});

/** Of all processes that draw and work for pages, from the system; undefined where it does not tell. */
async function residentBytes(): Promise<number | undefined> {
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  await session.detach();
  let sum = 0;
  for (const { id, type } of processInfo) {
    const status = `/proc/${id}/status`;
    if (type !== 'renderer') continue;
    if (!existsSync(status)) return undefined;
    // The window's own surroundings are pages too.
    if (readFileSync(`/proc/${id}/cmdline`, 'utf8').includes('--top-chrome-webui')) continue;
    sum += 1024 * Number(/VmRSS:\s+(\d+)/.exec(readFileSync(status, 'utf8'))?.[1]);
  }
  return sum;
}

async function heapBytes(session: CDPSession): Promise<number> {
  await session.send('HeapProfiler.collectGarbage');
  const { metrics } = await session.send('Performance.getMetrics');
  return metrics.find(({ name }) => name === 'JSHeapUsedSize')?.value ?? Number.NaN;
}

test('memory over many changes', async () => {
  const [, job, size] = pieces[0]!;
  // Nothing but this page.
  for (const context of browser.contexts()) await context.close();
  const page = await reader(job);
  await waitMade(page);
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  const tell = async (done: number): Promise<void> => {
    await waitMade(page);
    const resident = await residentBytes();
    const process = resident === undefined ? '' : `, page and its workers ${MiB(resident)} resident`;
    say(`  after ${done} changes: page's heap ${MiB(await heapBytes(session))}${process}`);
  };
  say(`memory, ${pieces[0]![0]}:`);
  await tell(0);
  for (let n = 1; n <= manyChanges; n++) {
    await step(page, size, n % 20 < 10 ? 'ArrowUp' : 'ArrowDown');
    if (n % 100 === 0) await tell(n);
  }
  await page.context().close();
});
