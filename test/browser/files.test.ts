/** From the wall to files: what the page gives is what the command line writes. */
import { unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import type { Summary } from '../../core/job/summary.js';
import { listing } from '../cli/helpers/folders.js';
import { jobText, openJob, show, takeFile, waitMade, writeSize } from './harness/bench.js';
import { browserSuite } from './harness/browser-suite.js';
import { commandLine } from './harness/command-line.js';

const browser = browserSuite();
const shop = commandLine();

test('a piece of the wall, other sizes, every state, and its STL: byte for byte the command line’s', async () => {
  const { page, address } = await browser.visit();
  await page.goto(address);
  await page.getByRole('button', { name: 'Skiff cleat' }).click();
  await waitMade(page);
  await writeSize(page, 'Line', '10');
  for (const state of ['Casting', 'Pattern', 'Gated', 'Plate', 'Part'] as const) {
    await show(page, state);
    await expect
      .poll(() => page.getByRole('application').getAttribute('aria-label'))
      .toMatch(
        { Casting: /stock/, Pattern: /, pattern$/, Gated: /gated/, Plate: /plate/, Part: /part/ }[state],
      );
  }
  await waitMade(page);
  const job = await jobText(page);
  expect(job).toContain('line: 10');
  const made = shop.make(job);
  for (const [label, path] of [
    ['Gated pattern, STL', 'skiff-cleat/gated.stl'],
    ['Pattern, STL', 'skiff-cleat/pattern.stl'],
    ['Casting, STL', 'skiff-cleat/casting.stl'],
    ['Finished part, STL', 'skiff-cleat/part.stl'],
    ['plate-1, STL', 'plates/plate-1.stl'],
    ['plate-1, 3MF', 'plates/plate-1.3mf'],
    ['Every number, JSON', 'summary.json'],
  ] as const) {
    const taken = await takeFile(page, label);
    expect(taken.name).toBe(path.replaceAll('/', '-'));
    expect(Buffer.from(taken.bytes).equals(made.read(path)), path).toBe(true);
  }
});

const twoPieces = `# A set.
job: two-pieces
title: Two pieces
parts:
  - name: pinion
    part: spur-gear
    quantity: 2
    parameters: { module: 2, teeth: 15, faceWidth: 10, bore: 8 }
  - { name: handle, part: knob }
`;

test('the zip holds the whole folder that the command line writes, and nothing else', async () => {
  const { page, address } = await browser.visit({ flat: true });
  await openJob({ page, address }, twoPieces);
  await waitMade(page);
  const { name, bytes } = await takeFile(page, 'Everything as one folder (zip)');
  expect(name).toBe('two-pieces.zip');
  const made = shop.make(twoPieces);
  const files = unzipSync(bytes);
  const paths = listing(made.folder).map((line) => line.split(' ')[0] as string);
  expect(Object.keys(files).sort()).toEqual(paths.map((path) => `two-pieces/${path}`).sort());
  for (const path of paths)
    expect(Buffer.from(files[`two-pieces/${path}`]!).equals(made.read(path)), path).toBe(true);
});

test('the numbers in sight and on the traveller are the summary’s', async () => {
  const { page, address } = await browser.visit({ flat: true });
  await openJob({ page, address }, twoPieces);
  await waitMade(page);
  const summary = JSON.parse(
    Buffer.from((await takeFile(page, 'Every number, JSON')).bytes).toString(),
  ) as Summary;
  const { powder, water } = summary.investment!.weigh;
  const inSight = (await page.getByRole('region', { name: 'Key numbers' }).textContent()) ?? '';
  const plain = (text: string): string => text.replaceAll('\u00a0', ' ').replaceAll(',', '');
  // Weighed things are told in grams or kilograms, as large as they are.
  const told = (grams: number): RegExp =>
    new RegExp(`(^|\\D)(${grams}(\\.0+)? g|${grams / 1000}0* kg)(\\D|$)`, 'm');
  expect(plain(inSight)).toMatch(told(powder));
  expect(plain(inSight)).toMatch(told(water));
  const [pour] = summary.pour;
  expect(plain(inSight)).toContain(`${Math.round(pour!.metalTemperature)} °C`);

  await page.getByRole('button', { name: 'Traveller: look and print' }).click();
  const sheet = page.frameLocator('iframe[title="Traveller"]').locator('body');
  const paper = plain((await sheet.textContent()) ?? '');
  expect(paper).toMatch(told(powder));
  expect(paper).toMatch(told(water));
  expect(paper).toContain(`${Math.round(pour!.metalTemperature)} °C`);
  for (const part of summary.parts) expect(paper).toContain(part.name);
});
