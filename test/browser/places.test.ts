/** The page is files alone: under any path, and without the network once it is there. */
import { expect, test } from 'vitest';
import { jobText, openJob, tab, takeFile, waitMade, writeSize } from './harness/bench.js';
import { browserSuite, type Visit } from './harness/browser-suite.js';

const browser = browserSuite();

const job = 'job: handles\nfreeze: off\ntitle: Handles\nparts:\n  - { name: handle, part: knob }\n';

/** Without the network, and with nobody to answer either. */
async function cutOff({ context, server, watch }: Visit): Promise<void> {
  await context.setOffline(true);
  await server.close();
  watch.allow(/ERR_INTERNET_DISCONNECTED|ERR_CONNECTION_REFUSED/);
}

test('under a path of its own: wall, pictures, bench, files', async () => {
  const { page, address } = await browser.visit({ under: '/some/where/' });
  await page.goto(address);
  const picture = page.getByRole('button', { name: 'Skiff cleat' }).locator('img');
  await picture.scrollIntoViewIfNeeded();
  await expect.poll(() => picture.evaluate((it: HTMLImageElement) => it.naturalWidth)).toBeGreaterThan(100);
  await openJob({ page, address }, job);
  await waitMade(page);
  expect((await takeFile(page, 'Gated pattern, STL')).bytes.length).toBeGreaterThan(10_000);
});

test('as `patternwright gallery` serves it, with its headers: bench, traveller, files', async () => {
  const { page, address } = await browser.visit({ byCommand: true, flat: true });
  await page.goto(address);
  await page.getByRole('button', { name: 'Skiff cleat' }).waitFor();
  await openJob({ page, address }, job);
  await waitMade(page);
  expect((await takeFile(page, 'Gated pattern, STL')).bytes.length).toBeGreaterThan(10_000);
  await page.getByRole('button', { name: 'Traveller: look and print' }).click();
  await page.frameLocator('iframe[title="Traveller"]').locator('h1').first().waitFor();
});

test('without the network after loading: sizes change, files come', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await openJob(visit, job);
  await waitMade(page);
  const before = await takeFile(page, 'Gated pattern, STL');
  await cutOff(visit);
  await tab(page, 'Sizes').click();
  await writeSize(page, 'Size', '45');
  await waitMade(page);
  const after = await takeFile(page, 'Gated pattern, STL');
  expect(Buffer.from(after.bytes).equals(before.bytes)).toBe(false);
  expect(after.bytes.length).toBeGreaterThan(10_000);
});

test('without the network a reload brings page, work and pictures back', async () => {
  const visit = await browser.visit({ flat: true, under: '/some/where/' });
  const { page, address } = visit;
  await page.goto(address);
  await page.getByRole('button', { name: 'Skiff cleat' }).waitFor();
  await expect
    .poll(() => page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.active?.state))
    .toBe('activated');
  await openJob(visit, job);
  await waitMade(page);
  await expect
    .poll(() => page.evaluate(() => localStorage.getItem('patternwright:work')))
    .toContain('handle');
  await cutOff(visit);
  await page.reload();
  await waitMade(page);
  expect((await takeFile(page, 'Gated pattern, STL')).bytes.length).toBeGreaterThan(10_000);
  await page.getByRole('link', { name: 'Wall' }).click();
  await page.getByRole('button', { name: 'Skiff cleat' }).waitFor();
});

test('a reload keeps the work as it has become', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await openJob(visit, job);
  await tab(page, 'Sizes').click();
  await writeSize(page, 'Size', '41.5');
  const text = await jobText(page);
  expect(text).toContain('41.5');
  // It is put away a moment after the change.
  await expect.poll(() => page.evaluate(() => localStorage.getItem('patternwright:work'))).toContain('41.5');
  await page.reload();
  expect(await jobText(page)).toBe(text);
});

test('work left within the moment until it is put away is kept too', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await openJob(visit, job);
  await tab(page, 'Sizes').click();
  await writeSize(page, 'Size', '41.5');
  await page.reload();
  expect(await jobText(page)).toContain('41.5');
});
