/** All of it by keys, with the focus in sight at every stop. */
import { expect, test } from 'vitest';
import { jobText, openJob, sizeBox, tab, waitMade } from './harness/bench.js';
import { browserSuite } from './harness/browser-suite.js';
import { tabTo } from './harness/reader.js';

const browser = browserSuite();

const job = 'job: handles\nfreeze: off\nparts:\n  - { name: handle, part: knob }\n';

test('from the wall to a piece, a size, a state and its STL without a mouse', async () => {
  const { page, address } = await browser.visit({ flat: true });
  await page.goto(address);
  const piece = page.getByRole('button', { name: 'Skiff cleat' });
  await piece.waitFor();
  await tabTo(page, piece);
  await page.keyboard.press('Enter');
  await tab(page, 'Sizes').waitFor();

  const part = page.getByRole('radio', { name: /^Part/ });
  await tabTo(page, part);
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  expect(await page.getByRole('radio', { name: /^Gated/ }).isChecked()).toBe(true);

  await tabTo(page, sizeBox(page, 'Line'));
  await page.keyboard.press('Control+A');
  await page.keyboard.type('9');
  await page.keyboard.press('Enter');
  // Steps by the arrows too.
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Shift+Tab');

  // Back to the strip of tabs, which is one stop, and to its last.
  for (let presses = 0; presses < 40; presses++) {
    await page.keyboard.press('Shift+Tab');
    if ((await page.evaluate(() => document.activeElement?.getAttribute('role'))) === 'tab') break;
  }
  await page.keyboard.press('End');
  expect(await tab(page, 'Take home').getAttribute('aria-selected')).toBe('true');
  await waitMade(page);
  await tabTo(page, page.getByRole('button', { name: 'Gated pattern, STL', exact: true }));
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
  expect(download.suggestedFilename()).toBe('skiff-cleat-gated.stl');
  const text = await jobText(page);
  expect(Number(/line: ([\d.]+)/.exec(text)?.[1])).toBeGreaterThan(9);
});

test('tabs by arrows, Home and End; the traveller opens, closes by Escape and gives the focus back', async () => {
  const { page, address } = await browser.visit({ flat: true });
  await openJob({ page, address }, job);
  await tab(page, 'Sizes').focus();
  await page.keyboard.press('ArrowLeft');
  expect(await tab(page, 'Take home').getAttribute('aria-selected')).toBe('true');
  await page.keyboard.press('Home');
  await page.keyboard.press('ArrowRight');
  expect(await tab(page, 'Metal').getAttribute('aria-selected')).toBe('true');
  await page.keyboard.press('End');
  await waitMade(page);
  const look = page.getByRole('button', { name: 'Traveller: look and print' });
  await tabTo(page, look);
  await page.keyboard.press('Enter');
  await page.getByRole('dialog', { name: 'Traveller' }).waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('dialog', { name: 'Traveller' }).waitFor({ state: 'detached' });
  await expect.poll(() => look.evaluate((it) => it === document.activeElement)).toBe(true);
});

test('the view turns, moves and zooms by keys', async () => {
  const { page, address } = await browser.visit({ viewport: { width: 800, height: 700 } });
  await openJob({ page, address }, job);
  await waitMade(page);
  const view = page.getByRole('application');
  await view.focus();
  const picture = async (): Promise<string> => (await view.screenshot()).toString('base64');
  for (const key of ['ArrowLeft', 'ArrowUp', 'Shift+ArrowRight', '+', '0']) {
    const before = await picture();
    await page.keyboard.press(key);
    await expect.poll(picture, { message: key }).not.toBe(before);
  }
});

for (const colorScheme of ['light', 'dark'] as const)
  test(`the focus is seen wherever it goes: ${colorScheme}`, async () => {
    const { page, address } = await browser.visit({ flat: true, colorScheme });
    const unseen: string[] = [];
    const walk = async (most: number): Promise<void> => {
      for (let presses = 0; presses < most; presses++) {
        await page.keyboard.press('Tab');
        const told = await page.evaluate(() => {
          const it = document.activeElement;
          if (!it || it === document.body) return null;
          const draws = (element: Element | null): boolean => {
            if (!element) return false;
            const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(element);
            return (
              (outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 1.5) || boxShadow !== 'none'
            );
          };
          // A hidden radio or file box is drawn by what stands beside or around it.
          const shown = [it, it.nextElementSibling, it.parentElement].some(draws);
          return shown
            ? null
            : `${it.tagName} ${it.getAttribute('aria-label') ?? it.textContent?.slice(0, 40) ?? ''}`;
        });
        if (told !== null) unseen.push(told);
      }
    };
    await page.goto(address);
    await page.getByRole('button', { name: 'Skiff cleat' }).waitFor();
    await walk(12);
    await openJob({ page, address }, job);
    await walk(40);
    await tab(page, 'Take home').click();
    await walk(12);
    expect(unseen).toEqual([]);
  });
