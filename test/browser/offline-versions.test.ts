/** The worker that keeps the page, in a real browser, over two versions of a small page. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import sirv from 'sirv';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { listFiles, workerFile, workerScript } from '../../gallery/page/offline/list-files.js';
import { launch } from './harness/launch.js';

const folder = mkdtempSync(join(tmpdir(), 'patternwright-test-'));
const under = '/shops/rope-walk/';
let server: Server | undefined;
/** Whether who asks gets no answer. */
let isDown = false;
let browser: Browser;

async function buildPage(version: string): Promise<void> {
  mkdirSync(join(folder, 'assets'), { recursive: true });
  writeFileSync(
    join(folder, 'index.html'),
    `<!doctype html><title>${version}</title><script>
      navigator.serviceWorker.register(new URL('offline.js', document.baseURI), { updateViaCache: 'none' });
    </script>`,
  );
  writeFileSync(join(folder, 'assets/words.txt'), version);
  writeFileSync(join(folder, workerFile), await workerScript(listFiles(folder)));
}

/** Begins to serve; gives the port. */
async function serve(): Promise<number> {
  const files = sirv(folder, { dev: true });
  const started = createServer((request, answer) => {
    request.url = (request.url ?? '').startsWith(under)
      ? `/${(request.url ?? '').slice(under.length)}`
      : '/none';
    files(request, answer, () => {
      answer.writeHead(404).end();
    });
  });
  started.on('connection', (socket) => {
    if (isDown) socket.destroy();
  });
  await new Promise<void>((resolve) => started.listen(0, '127.0.0.1', resolve));
  server = started;
  return (started.address() as AddressInfo).port;
}

/** Nobody gets an answer any more, but the port stays taken: another program might have it before `isDown` ends. */
function goDown(): void {
  isDown = true;
  server?.closeAllConnections();
}

async function end(): Promise<void> {
  await new Promise<void>((resolve) => {
    if (!server) return resolve();
    server.close(() => resolve());
    server.closeAllConnections();
  });
}

beforeAll(async () => {
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
  await end();
  rmSync(folder, { recursive: true, force: true });
});

test('opens without its server, and takes the new version once all its windows are closed', async () => {
  await buildPage('first');
  const port = await serve();
  const address = `http://127.0.0.1:${port}${under}`;
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(address);
  const ready = () => page.evaluate(() => navigator.serviceWorker.ready.then((r) => r.active?.state));
  await expect.poll(ready).toBe('activated');

  goDown();
  await page.goto(address);
  expect(await page.title()).toBe('first');
  await page.goto(`${address}index.html#job=abc`);
  expect(await page.title()).toBe('first');
  const words = () => page.evaluate(() => fetch('assets/words.txt').then((a) => a.text()));
  expect(await words()).toBe('first');
  await expect(page.evaluate(() => fetch('assets/none.txt'))).rejects.toThrow();

  await buildPage('second');
  isDown = false;
  await page.goto(address);
  // The old page with its old files, while the new worker waits.
  expect(await page.title()).toBe('first');
  const waiting = () =>
    page.evaluate(() =>
      navigator.serviceWorker.getRegistration().then(async (r) => {
        await r?.update();
        return r?.waiting?.state;
      }),
    );
  await expect.poll(waiting).toBe('installed');
  expect(await words()).toBe('first');

  await page.close();
  const next = await context.newPage();
  await expect
    .poll(async () => {
      await next.goto('about:blank');
      await next.waitForTimeout(200);
      await next.goto(address);
      return next.title();
    })
    .toBe('second');
  goDown();
  await next.goto(address);
  expect(await next.title()).toBe('second');
  const stores = await next.evaluate(() => caches.keys());
  expect(stores.length).toBe(1);
  expect(stores[0]).toContain(under);
  await context.close();
});
