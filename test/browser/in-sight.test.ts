/** What stays in sight, what stays as it was typed, and where the keyboard stays. */
import { expect, test } from 'vitest';
import { openJob, panel, tab } from './harness/bench.js';
import { browserSuite } from './harness/browser-suite.js';

const browser = browserSuite();
const job = 'job: a\nfreeze: off\nparts: [{ name: handle, part: knob }]\n';

test('on a telephone the piece and the numbers stay in sight over the sizes', async () => {
  const { page, address } = await browser.visit({
    viewport: { width: 390, height: 780 },
    hasTouch: true,
    isMobile: true,
    flat: true,
  });
  await openJob({ page, address }, job);
  await panel(page)
    .getByRole('textbox')
    .nth(4)
    .evaluate((box) => box.scrollIntoView({ block: 'center' }));
  const top = (selector: string): Promise<number> =>
    page.locator(selector).evaluate((element) => element.getBoundingClientRect().top);
  await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(300);
  expect(await top('.picture')).toBeCloseTo(0, 0);
  const numbers = await page.locator('.numbers').evaluate((element) => {
    const { bottom, height } = element.getBoundingClientRect();
    return { above: innerHeight - bottom, height };
  });
  expect(numbers.above).toBeCloseTo(0, 0);
  expect(numbers.height).toBeLessThan(100);
});

test('text typed and not yet taken is there after a look at another panel', async () => {
  const visit = await browser.visit({ flat: true });
  await openJob(visit, job);
  const text = visit.page.getByLabel('The job’s text (YAML)');
  await tab(visit.page, 'Job text').click();
  await text.fill(`${job}# half a thought`);
  await tab(visit.page, 'Findings').click();
  await tab(visit.page, 'Job text').click();
  expect(await text.inputValue()).toBe(`${job}# half a thought`);
  await visit.page.getByRole('button', { name: 'Back to the job’s' }).click();
  await tab(visit.page, 'Sizes').click();
  await tab(visit.page, 'Job text').click();
  expect(await text.inputValue()).toBe(job);
});

test('whoever presses a remedy keeps a place for the keyboard', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await openJob(
    visit,
    'job: a\nfreeze: off\nparts: [{ name: pull, part: bow-pull, parameters: { footWidth: 8, depth: 15 } }]\n',
  );
  const remedy = panel(page).getByRole('button', { name: /^Set / });
  await tab(page, 'Findings').click();
  await remedy.first().focus();
  await page.keyboard.press('Enter');
  const focused = (): Promise<string> => page.evaluate(() => document.activeElement?.className ?? '');
  await expect.poll(focused).toBe('findings');
  await tab(page, 'Sizes').click();
  await remedy.first().focus();
  await page.keyboard.press('Enter');
  await expect.poll(focused).toBe('field-text');
});
