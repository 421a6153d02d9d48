/** The paper that goes through the shop: on the page, on paper, without a line of program. */
import { expect, test } from 'vitest';
import { openJob, tab, waitMade } from './harness/bench.js';
import { browserSuite } from './harness/browser-suite.js';

const browser = browserSuite();

/** A4 at 96 px an inch, less 10 mm each side. */
const paperWidth = Math.round((190 / 25.4) * 96);

test('it opens over the page, holds no program and asks for nothing', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await openJob(visit, 'job: a\nparts: [{ name: handle, part: knob }, { name: cleat, part: horn-cleat }]\n');
  await waitMade(page);
  await tab(page, 'Take home').click();
  await page.getByRole('button', { name: 'Traveller: look and print' }).click();
  const frame = page.locator('iframe[title="Traveller"]');
  await frame.waitFor();
  expect((await frame.getAttribute('sandbox'))?.split(' ')).not.toContain('allow-scripts');
  const inside = page.frameLocator('iframe[title="Traveller"]');
  await inside.locator('h1').first().waitFor();
  expect(await inside.locator('script, iframe, object, embed, link, base, form').count()).toBe(0);
  const asks = await inside
    .locator('body')
    .evaluate((body) =>
      [...body.ownerDocument.querySelectorAll('*')].flatMap((element) =>
        [...element.attributes]
          .filter(
            ({ name, value }) =>
              /^on/.test(name) || (/^(src|href|srcset)$/.test(name) && !/^(#|data:)/.test(value)),
          )
          .map(({ name, value }) => `${element.tagName} ${name}=${value.slice(0, 60)}`),
      ),
    );
  expect(asks).toEqual([]);

  // As it prints: on paper of its own, nothing wider than the paper.
  const html = (await frame.getAttribute('srcdoc')) as string;
  const paper = await visit.context.newPage();
  await paper.emulateMedia({ media: 'print' });
  await paper.setViewportSize({ width: paperWidth, height: 1000 });
  await paper.setContent(html);
  expect(await paper.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(paperWidth);
  const pdf = await paper.pdf({ format: 'A4', preferCSSPageSize: true });
  expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
  const pages = pdf.toString('latin1').match(/\/Type \/Page\b/g)?.length ?? 0;
  expect(pages).toBeGreaterThan(1);
  expect(pages).toBeLessThan(20);

  await page.getByRole('button', { name: 'Close', exact: true }).click();
  await frame.waitFor({ state: 'detached' });
});
