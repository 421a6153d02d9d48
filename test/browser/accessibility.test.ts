/** No fault that axe knows of, on any place of the page, in both themes, from a telephone's width to a desk's. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { openJob, panel, show, tab, waitMade } from './harness/bench.js';
import { browserSuite } from './harness/browser-suite.js';

const browser = browserSuite();

const job = `job: handles
title: Handles
freeze: off
parts:
  - { name: handle, part: knob, quantity: 2 }
`;
const tabs = ['Sizes', 'Metal', 'Findings', 'Shop', 'Job text', 'Take home'];

/** Faults in words: rule, and what of the page breaks it. */
async function faults(page: Page): Promise<readonly string[]> {
  // In the traveller's frame no program runs, axe neither: it is looked at by itself.
  const { violations } = await new AxeBuilder({ page }).exclude('iframe').analyze();
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html}\n${failureSummary}`),
  );
}

for (const colorScheme of ['light', 'dark'] as const)
  for (const width of [390, 1024, 1440])
    test(`the wall, the bench with each tab, the traveller: ${colorScheme}, ${width} px`, async () => {
      const { page, address } = await browser.visit({
        colorScheme,
        flat: true,
        viewport: { width, height: 900 },
      });
      await page.goto(address);
      await page.getByRole('button', { name: 'Skiff cleat' }).waitFor();
      expect(await faults(page), 'wall').toEqual([]);
      await openJob({ page, address }, job);
      await waitMade(page);
      for (const name of tabs) {
        await tab(page, name).click();
        await panel(page).getByRole('heading').or(panel(page).getByRole('textbox')).first().waitFor();
        expect(await faults(page), name).toEqual([]);
      }
      await page.getByRole('button', { name: 'Traveller: look and print' }).click();
      await page.frameLocator('iframe[title="Traveller"]').locator('h1').first().waitFor();
      expect(await faults(page), 'traveller').toEqual([]);
    });

test('the paper of the traveller', async () => {
  const { page, context, address } = await browser.visit({ flat: true });
  await openJob({ page, address }, job);
  await waitMade(page);
  await tab(page, 'Take home').click();
  await page.getByRole('button', { name: 'Traveller: look and print' }).click();
  const html = await page.locator('iframe[title="Traveller"]').getAttribute('srcdoc');
  const paper = await context.newPage();
  await paper.setContent(html as string);
  expect(await faults(paper)).toEqual([]);
});

test('the view with its sizes, its cut and its colours', async () => {
  const { page, address } = await browser.visit({ viewport: { width: 800, height: 700 } });
  await openJob({ page, address }, job.replace('freeze: off', 'freeze: coarse'));
  await waitMade(page);
  await page.getByRole('checkbox', { name: 'Sizes' }).check();
  await page.getByLabel('Cut').selectOption({ label: 'front to back' });
  expect(await faults(page), 'sizes and cut').toEqual([]);
  await show(page, 'Gated');
  await page.getByLabel('Coloured by').selectOption({ label: 'when the metal is solid' });
  expect(await faults(page), 'colours').toEqual([]);
});

test('what cannot be made is told without a fault of its own', async () => {
  const { page, address } = await browser.visit({ flat: true });
  await openJob(
    { page, address },
    'job: a\nparts:\n  - { name: a, part: spur-gear, parameters: { teeth: 2, bore: 900 } }\n',
  );
  for (const name of ['Sizes', 'Findings', 'Job text']) {
    await tab(page, name).click();
    await expect.poll(() => panel(page).textContent()).toMatch(/teeth/i);
    expect(await faults(page), name).toEqual([]);
  }
});
