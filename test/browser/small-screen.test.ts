/** Touch, narrow windows, large letters, and readers who want nothing to move. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { openJob, show, tab, waitMade } from './harness/bench.js';
import { browserSuite } from './harness/browser-suite.js';
import { cutOff, difference, pictureOf, swipe } from './harness/reader.js';

const browser = browserSuite();

const job = `job: handles-of-the-long-loft
title: Handles, hinges and pulls of the long loft over the ropewalk
parts:
  - { name: handle-of-the-northern-door, part: knob, quantity: 12 }
  - { name: hatch, part: ring-pull }
  - { name: gear, part: spur-gear, parameters: { module: 2, teeth: 15, faceWidth: 10, bore: 30 } }
`;
const tabs = ['Sizes', 'Metal', 'Findings', 'Shop', 'Job text', 'Take home'];

const telephone = {
  viewport: { width: 390, height: 780 },
  hasTouch: true,
  isMobile: true,
  deviceScaleFactor: 2,
};

test('on a telephone a finger on the piece turns it, and beside it moves the page', async () => {
  const { page, address } = await browser.visit({ ...telephone, deviceScaleFactor: 1 });
  await openJob({ page, address }, 'job: a\nfreeze: off\nparts: [{ name: handle, part: knob }]\n');
  await waitMade(page);
  const view = page.getByRole('application');
  await view.scrollIntoViewIfNeeded();
  const scrolled = (): Promise<number> => page.evaluate(() => scrollY);
  const box = (await view.boundingBox())!;
  const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  const [picture, before] = [await pictureOf(view), await scrolled()];
  await swipe(page, middle, { x: middle.x + 80, y: middle.y - 60 });
  await expect.poll(() => pictureOf(view)).not.toBe(picture);
  expect(await scrolled()).toBe(before);

  await page.evaluate(() => scrollTo(0, 0));
  const head = (await page.getByRole('navigation', { name: 'Pieces of the job' }).boundingBox())!;
  const start = { x: head.x + 4, y: head.y + head.height - 2 };
  await swipe(page, start, { x: start.x, y: start.y - 150 });
  await expect.poll(scrolled).toBeGreaterThan(40);
});

test('what is cut off or stands out would be found', async () => {
  const { page } = await browser.visit({ ...telephone, flat: true });
  await page.setContent(
    '<meta name="viewport" content="width=device-width"><div style="width: 380px"><p class="cut" style="overflow: hidden; white-space: nowrap; width: 90px">A text that is longer</p>' +
      '<p class="out" style="position: absolute; left: 300px; width: 120px">Out</p>' +
      '<div style="overflow: auto; width: 90px"><p class="scrolls" style="width: 600px">Scrolls</p></div></div>',
  );
  expect((await cutOff(page)).map((it) => /\.\w+/.exec(it)?.[0])).toEqual(
    expect.arrayContaining(['.out', '.cut']),
  );
  expect((await cutOff(page)).join()).not.toContain('.scrolls');
});

async function expectWhole(page: Page, address: string): Promise<void> {
  await page.goto(address);
  await page.getByRole('button', { name: 'Skiff cleat' }).waitFor();
  expect(await cutOff(page), 'wall').toEqual([]);
  await openJob({ page, address }, job);
  for (const name of tabs) {
    await tab(page, name).click();
    expect(await cutOff(page), name).toEqual([]);
  }
}

test.each([
  ['at 390 px', telephone],
  ['at 320 px', { ...telephone, viewport: { width: 320, height: 640 } }],
  // 1440 × 900 at 200 %.
  ['at 200 % zoom', { viewport: { width: 720, height: 450 }, deviceScaleFactor: 2 }],
  ['at 1024 px', { viewport: { width: 1024, height: 768 } }],
])('%s nothing is cut off and nothing scrolls sideways', async (_, options) => {
  const { page, address } = await browser.visit({ flat: true, ...options });
  await expectWhole(page, address);
});

test('at 390 px the view and its tools are whole too, in every state', async () => {
  const { page, address } = await browser.visit(telephone);
  await openJob({ page, address }, 'job: a\nfreeze: off\nparts: [{ name: handle, part: knob }]\n');
  await waitMade(page);
  for (const state of ['Part', 'Casting', 'Pattern', 'Gated', 'Plate'] as const) {
    await show(page, state);
    expect(await cutOff(page), state).toEqual([]);
  }
});

test('for readers who want nothing to move, nothing does', async () => {
  const { page, address } = await browser.visit({ viewport: { width: 800, height: 700 } });
  await openJob({ page, address }, 'job: a\nfreeze: off\nparts: [{ name: handle, part: knob }]\n');
  await waitMade(page);
  const moving = (): Promise<number> =>
    page.evaluate(
      () =>
        document.getAnimations().filter((it) => Number(it.effect?.getComputedTiming().duration ?? 0) > 10)
          .length,
    );
  await tab(page, 'Findings').click();
  expect(await moving()).toBe(0);
  await show(page, 'Casting');
  expect(await moving()).toBe(0);
  // Another side is there at once: the first frame after it is the last too, but for its fineness. The page's clock is
  // held, since a picture takes longer to take than a turn to make.
  const view = page.getByRole('application');
  const before = await pictureOf(view);
  await page.clock.install();
  await page.clock.pauseAt(Date.now() + 10_000);
  await page.getByLabel('From').selectOption({ label: 'above' });
  await page.clock.runFor(60);
  const first = await pictureOf(view);
  await page.clock.runFor(3000);
  const last = await pictureOf(view);
  expect(difference(before, last)).toBeGreaterThan(1);
  expect(difference(first, last)).toBeLessThan(0.2 * difference(before, last));
});
