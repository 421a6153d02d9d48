/** The watch that stands over every browser test sees what it is there for. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launch } from './harness/launch.js';
import { watch } from './harness/watch.js';

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser?.close());

test.each([
  ['a dialog', '<script>alert("one")</script>', /^dialog: one/],
  ['an error of the page', '<script>throw new Error("two")</script>', /^page error: .*two/],
  ['an error on the console', '<script>console.error("three")</script>', /^console: three/],
  ['a request elsewhere', '<img src="http://elsewhere.invalid/four.png">', /^request: http:\/\/elsewhere/],
])('%s', async (_, html, told) => {
  const context = await browser.newContext();
  const watched = watch(context, 'http://127.0.0.1:1/');
  const page = await context.newPage();
  await page.setContent(html);
  await expect.poll(() => watched.troubles.some((trouble) => told.test(trouble))).toBe(true);
  watched.allow(/./);
  expect(watched.troubles).toEqual([]);
  await context.close();
});
