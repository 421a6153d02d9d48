/** A job goes between page, files, links and the command line without a change. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { projectFolder } from '../cli/helpers/built.js';
import { jobText, openJob, tab, take, takeFile, waitMade, writeSize } from './harness/bench.js';
import { browserSuite } from './harness/browser-suite.js';
import { commandLine } from './harness/command-line.js';

const browser = browserSuite();
const shop = commandLine();

const job = `# Kept: a line of its own.
job: handles # and one behind
title: Handles
parts:
  # Above the entry.
  - name: handle
    part: knob
    parameters:
      size: 30 # as the old one
`;

test.each(['job.yaml', 'shed.yaml'])(
  'the ropewalk’s %s, opened and saved, is the same text',
  async (file) => {
    const { page, address } = await browser.visit({ flat: true });
    await page.goto(address);
    const path = join(projectFolder, 'gallery/ropewalk', file);
    await page.getByLabel('Open a job file').setInputFiles(path);
    await tab(page, 'Take home').click();
    const saved = await take(page, page.getByRole('button', { name: 'Save the job' }));
    expect(Buffer.from(saved.bytes).toString()).toBe(readFileSync(path, 'utf8'));
  },
);

test('a size changed in the page changes that line of the file alone', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await openJob(visit, job);
  await tab(page, 'Sizes').click();
  await writeSize(page, 'Size', '32.5');
  expect(await jobText(page)).toBe(job.replace('size: 30', 'size: 32.5'));
});

test('a job saved from the page is made by the command line to the same summary', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await openJob(visit, job);
  await tab(page, 'Sizes').click();
  await writeSize(page, 'Size', '1 1/4in');
  await waitMade(page);
  const summary = await takeFile(page, 'Every number, JSON');
  const saved = await take(page, page.getByRole('button', { name: 'Save the job' }));
  expect(saved.name).toBe('handles.yaml');
  const made = shop.make(Buffer.from(saved.bytes).toString());
  expect(Buffer.from(summary.bytes).toString()).toBe(Buffer.from(made.read('summary.json')).toString());
});

test('a link copied from the page opens the same job for another reader', async () => {
  const visit = await browser.visit({ flat: true, permissions: ['clipboard-read', 'clipboard-write'] });
  await openJob(visit, job);
  await tab(visit.page, 'Take home').click();
  await visit.page.getByRole('button', { name: 'Copy a link to it' }).click();
  await visit.page.getByText('The link is on the clipboard').waitFor();
  const link = await visit.page.evaluate(() => navigator.clipboard.readText());
  expect(link.startsWith(`${visit.address}#job=`)).toBe(true);
  const other = await browser.visit({ flat: true });
  await other.page.goto(link.replace(visit.address, other.address));
  expect(await jobText(other.page)).toBe(job);
  // The address no longer holds the job as it was sent: a reload finds the work as it is.
  await expect.poll(() => new URL(other.page.url()).hash).toBe('#bench');
});

test('a shop profile beside the job is read, named and put away again', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await openJob(visit, job);
  await tab(page, 'Take home').click();
  await page.getByLabel('Open a shop profile').setInputFiles({
    name: 'shop.yaml',
    mimeType: 'application/yaml',
    buffer: Buffer.from('prices: { currency: EUR, plasticPerKg: 31.5 }\n'),
  });
  await page.getByText('shop.yaml').first().waitFor();
  await waitMade(page);
  const { bytes } = await takeFile(page, 'Every number, JSON');
  expect(Buffer.from(bytes).toString()).toContain('EUR');
  await page.getByRole('button', { name: 'Put it away' }).click();
  await waitMade(page);
  expect(Buffer.from((await takeFile(page, 'Every number, JSON')).bytes).toString()).not.toContain('EUR');
});
