/** A mesh of the reader's own: opened, cast like any part, kept, and the same on the command line. */
import { truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { temporaryFolder } from '../cli/helpers/folders.js';
import {
  jobText,
  openJob,
  panel,
  show,
  tab,
  take,
  takeFile,
  waitMade,
  writeJobText,
  writeSize,
} from './harness/bench.js';
import { browserSuite } from './harness/browser-suite.js';
import { commandLine } from './harness/command-line.js';
import { blockStl, meshFile } from './harness/own-meshes.js';
import { cutOff, tabTo } from './harness/reader.js';

const browser = browserSuite();
const shop = commandLine();
const folder = temporaryFolder();

const block = blockStl(40, 25, 12);
const job = `# A block of one's own.
job: block
freeze: off
parts:
  - name: block
    part: mesh
    parameters:
      file: scans/block.stl
      fileUnit: mm
`;
const telephone = { viewport: { width: 390, height: 780 }, hasTouch: true, isMobile: true };

const hint = (page: Page) => page.getByText('names a mesh file that is not open here');
const openMissing = (page: Page, name: string) => page.getByLabel(`Open ${name}`, { exact: true });
/** Of the finished part, as the page's own file has it. */
async function triangleCount(page: Page): Promise<number> {
  return Buffer.from((await takeFile(page, 'Finished part, STL')).bytes).readUInt32LE(80);
}

test('from the wall to files that are byte for byte the command line’s, with the mesh beside the job', async () => {
  const { page, address } = await browser.visit();
  await page.goto(address);
  await page.getByLabel('Open a mesh of your own').setInputFiles(meshFile('Block (2).stl', block));
  await tab(page, 'Sizes').click();
  // The file does not say what its unit is: the likeliest is offered.
  await panel(page)
    .getByRole('button', { name: /^Set file unit to mm/ })
    .click();
  await waitMade(page);
  for (const state of ['Casting', 'Pattern', 'Gated', 'Plate', 'Part'] as const) await show(page, state);
  const text = await jobText(page);
  expect(text).toContain('name: block-2');
  expect(text).toContain('part: mesh');
  await tab(page, 'Take home').click();
  expect(await panel(page).textContent()).toContain('lie beside it: Block (2).stl');
  const saved = await take(page, page.getByRole('button', { name: 'Save the job' }));
  const made = shop.make(Buffer.from(saved.bytes).toString(), { 'Block (2).stl': block });
  for (const [label, path] of [
    ['Gated pattern, STL', 'block-2/gated.stl'],
    ['Casting, STL', 'block-2/casting.stl'],
    ['Finished part, STL', 'block-2/part.stl'],
    ['plate-1, 3MF', 'plates/plate-1.3mf'],
    ['Every number, JSON', 'summary.json'],
  ] as const)
    expect(Buffer.from((await takeFile(page, label)).bytes).equals(made.read(path)), path).toBe(true);
});

test('a job that names a mesh says that it is not open; opened, the job is made, and its text is as it was', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await openJob(visit, job);
  await hint(page).waitFor();
  await tab(page, 'Findings').click();
  await expect.poll(() => panel(page).textContent()).toContain('scans/block.stl, which is not open here');
  await openMissing(page, 'scans/block.stl').setInputFiles(meshFile('block.stl', block));
  await waitMade(page);
  expect(await hint(page).count()).toBe(0);
  expect(await jobText(page)).toBe(job);
  const made = shop.make(job, { 'scans/block.stl': block });
  const { bytes } = await takeFile(page, 'Gated pattern, STL');
  expect(Buffer.from(bytes).equals(made.read('block/gated.stl'))).toBe(true);
});

test('by another name the job gets that name; undone, it misses the first again', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await openJob(visit, job);
  await openMissing(page, 'scans/block.stl').setInputFiles(meshFile('mine.stl', block));
  await waitMade(page);
  expect(await jobText(page)).toBe(job.replace('scans/block.stl', 'mine.stl'));
  await page.getByRole('button', { name: 'Undo' }).click();
  await hint(page).waitFor();
  await page.getByRole('button', { name: 'Redo' }).click();
  await waitMade(page);
});

test('a mesh in place of another, and the first again by undoing', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await openJob(visit, job);
  await openMissing(page, 'scans/block.stl').setInputFiles(meshFile('block.stl', block));
  await waitMade(page);
  const size = (): Promise<string | null> => page.getByRole('region', { name: 'Key numbers' }).textContent();
  const before = await size();
  await tab(page, 'Sizes').click();
  await panel(page)
    .getByLabel('Open another')
    .setInputFiles(meshFile('tall.stl', blockStl(40, 25, 30)));
  await expect.poll(() => panel(page).locator('.field-file-name').textContent()).toBe('tall.stl');
  await waitMade(page);
  expect(await size()).not.toBe(before);
  await page.getByRole('button', { name: 'Undo' }).click();
  await waitMade(page);
  expect(await size()).toBe(before);
  // Read anew under its own name, the file is another, too.
  await tab(page, 'Take home').click();
  await panel(page)
    .getByLabel('Open a mesh')
    .setInputFiles(meshFile('block.stl', blockStl(40, 25, 30)));
  await page.getByText('block.stl was read anew').waitFor();
  await waitMade(page);
  expect(await size()).not.toBe(before);
  expect(await jobText(page)).toBe(job);
});

/** Runs in the page: how many meshes its database has. */
const keptCount = (): Promise<number> =>
  new Promise((resolve) => {
    const opening = indexedDB.open('patternwright', 1);
    // The page's to make, not the test's.
    opening.onupgradeneeded = () => opening.transaction?.abort();
    opening.onerror = () => resolve(0);
    opening.onsuccess = () => {
      const database = opening.result;
      const counting = database.transaction('meshes').objectStore('meshes').count();
      counting.onsuccess = () => {
        database.close();
        resolve(counting.result);
      };
    };
  });

test('meshes are kept over a reload, and of what a link brings nothing is', async () => {
  const visit = await browser.visit({ flat: true, permissions: ['clipboard-read', 'clipboard-write'] });
  const { page } = visit;
  await openJob(visit, job);
  await openMissing(page, 'scans/block.stl').setInputFiles(meshFile('block.stl', block));
  await waitMade(page);
  const before = await triangleCount(page);
  await expect.poll(() => page.evaluate(keptCount)).toBe(1);
  await page.reload();
  await waitMade(page);
  expect(await hint(page).count()).toBe(0);
  expect(await triangleCount(page)).toBe(before);
  await page.getByRole('button', { name: 'Copy a link to it' }).click();
  await page.getByText('It holds no mesh').waitFor();
  const link = await page.evaluate(() => navigator.clipboard.readText());
  const other = await browser.visit({ flat: true });
  await other.page.goto(link.replace(visit.address, other.address));
  await hint(other.page).waitFor();
});

test('the bytes go to each worker once, however often the job is made', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await page.addInitScript(() => {
    const usual = Worker.prototype.postMessage;
    const noted = globalThis as unknown as { brought: number; orders: number };
    Object.assign(noted, { brought: 0, orders: 0 });
    Worker.prototype.postMessage = function (this: Worker, message: { meshes?: readonly unknown[] }) {
      noted.orders++;
      noted.brought += message.meshes?.length ?? 0;
      Reflect.apply(usual, this, [message]);
    } as typeof usual;
  });
  await openJob(visit, job);
  await openMissing(page, 'scans/block.stl').setInputFiles(meshFile('block.stl', block));
  await waitMade(page);
  await tab(page, 'Sizes').click();
  for (const quantity of ['2', '3', '4']) {
    await writeSize(page, 'Quantity', quantity);
    await waitMade(page);
  }
  const { brought, orders } = await page.evaluate(() => {
    const { brought, orders } = globalThis as unknown as { brought: number; orders: number };
    return { brought, orders };
  });
  expect(brought).toBe(2);
  expect(orders).toBeGreaterThan(6);
});

test('readers of meshes come when the first is opened, and nothing of them to the wall or to drawn parts', async () => {
  // What keeps the page for use without a network fetches all of it.
  const { page, address } = await browser.visit({ flat: true, serviceWorkers: 'block' });
  const asked: string[] = [];
  page.context().on('request', (request) => asked.push(request.url()));
  const has = (name: RegExp): boolean => asked.some((url) => name.test(url));
  await page.goto(address);
  await page.getByRole('button', { name: 'Skiff cleat' }).waitFor();
  expect(has(/bench-place|worker|mesh-read/)).toBe(false);
  await page.getByRole('button', { name: 'Skiff cleat' }).click();
  await waitMade(page);
  expect(has(/maker\.worker/)).toBe(true);
  expect(has(/mesh-read/)).toBe(false);
  await page.getByLabel('Open a mesh', { exact: true }).first().setInputFiles(meshFile('block.stl', block));
  await expect.poll(() => has(/mesh-read/)).toBe(true);
});

/** As a hand lets go of files over the page. */
async function drop(
  page: Page,
  files: readonly { readonly name: string; readonly text: string }[],
): Promise<void> {
  const held = await page.evaluateHandle((all) => {
    const transfer = new DataTransfer();
    for (const { name, text } of all)
      transfer.items.add(new File([Uint8Array.from(atob(text), (c) => c.charCodeAt(0))], name));
    return transfer;
  }, files);
  // A browser tells of it again and again; the sign goes soon after the last time.
  const over = async (): Promise<boolean> => {
    await page.dispatchEvent('body', 'dragover', { dataTransfer: held });
    return page.getByText('Let go to open it').isVisible();
  };
  await expect.poll(over).toBe(true);
  await page.dispatchEvent('body', 'drop', { dataTransfer: held });
}
const base64 = (bytes: Buffer | string): string => Buffer.from(bytes).toString('base64');

test('dropped on the wall a mesh begins a job, on the bench it comes into the job, and a job brings its own', async () => {
  const { page, address } = await browser.visit({ flat: true });
  await page.goto(address);
  await page.getByRole('button', { name: 'Skiff cleat' }).waitFor();
  await drop(page, [{ name: 'block.stl', text: base64(block) }]);
  await tab(page, 'Sizes').waitFor();
  await drop(page, [{ name: 'other.stl', text: base64(blockStl(9, 8, 7)) }]);
  const pieces = page.getByRole('navigation', { name: 'Pieces of the job' }).locator('.piece');
  await expect.poll(() => pieces.allTextContents()).toEqual(['block × 1', 'other × 1']);
  await drop(page, [
    { name: 'block.stl', text: base64(block) },
    { name: 'job.yaml', text: base64(job) },
  ]);
  await waitMade(page);
  expect(await jobText(page)).toBe(job);
  await drop(page, [{ name: 'letter.doc', text: base64('Dear') }]);
  await page.getByText('letter.doc is not opened: drop a mesh').waitFor();
});

test('a further piece of an open mesh, added from the list', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await openJob(visit, job.replace('scans/', ''));
  await openMissing(page, 'block.stl').setInputFiles(meshFile('block.stl', block));
  await waitMade(page);
  await page.getByLabel('Add', { exact: true }).selectOption({ label: 'block.stl' });
  await page.getByRole('button', { name: 'Put it in' }).click();
  expect(await jobText(page)).toContain(
    'name: block-2\n    part: mesh\n    parameters:\n      file: block.stl',
  );
});

test('marks in several lines stay as they are written while the page works, and come back', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await openJob(visit, job);
  await tab(page, 'Sizes').click();
  const marks = panel(page).getByRole('textbox', { name: /^Marks/ });
  await marks.fill('top face = face\nbottom face = 0.8mm');
  // The page draws itself anew meanwhile.
  await openMissing(page, 'scans/block.stl').setInputFiles(meshFile('block.stl', block));
  await waitMade(page);
  expect(await marks.inputValue()).toBe('top face = face\nbottom face = 0.8mm');
  await marks.press('Control+Enter');
  await expect.poll(() => jobText(page)).toContain('marks:');
  await tab(page, 'Sizes').click();
  expect(await marks.inputValue()).toBe('top face = face\nbottom face = 0.8mm');
  await marks.fill('x'.repeat(2001));
  await panel(page)
    .getByText(/Marks has 2001 characters/)
    .first()
    .waitFor();
  await marks.press('Escape');
  expect(await marks.inputValue()).toBe('top face = face\nbottom face = 0.8mm');
});

const script = '<img src=x onerror="globalThis.ran=1">';

test('files that mean harm, or are none, are told in words, and their names stay text', async () => {
  const { page, address } = await browser.visit({ flat: true });
  const large = join(folder, 'large.stl');
  writeFileSync(large, '');
  truncateSync(large, 101 * 1024 * 1024);
  await page.goto(address);
  const open = page.getByLabel('Open a mesh of your own');
  await open.setInputFiles(large);
  await expect.poll(() => page.getByRole('alert').textContent()).toMatch(/101 MB.*at most 100 MB/);
  await open.setInputFiles(meshFile(`${script}.step`, block));
  await expect.poll(() => page.getByRole('alert').textContent()).toMatch(/is not opened/);
  await open.setInputFiles(
    meshFile(`${script} ${'x'.repeat(120)}.stl`, Buffer.from('solid a\nfacet normal 0 0')),
  );
  await tab(page, 'Findings').click();
  await expect.poll(() => panel(page).textContent()).toMatch(/file: cannot be used/);
  for (const name of ['Sizes', 'Job text', 'Take home']) await tab(page, name).click();
  expect(await page.locator('img[onerror]').count()).toBe(0);
  expect(await page.evaluate(() => (globalThis as { ran?: number }).ran)).toBeUndefined();
  expect(await cutOff(page)).toEqual([]);
  // Another file in its place mends it.
  await tab(page, 'Sizes').click();
  await panel(page).getByLabel('Open another').setInputFiles(meshFile('block.stl', block));
  await tab(page, 'Findings').click();
  await expect.poll(() => panel(page).textContent()).not.toMatch(/cannot be used/);
});

test('a part file is refused in words: the page runs none', async () => {
  const visit = await browser.visit({ flat: true });
  await openJob(visit, 'job: a\nparts: [{ name: a, part: ./own.mjs }]\n');
  await tab(visit.page, 'Findings').click();
  await expect.poll(() => panel(visit.page).textContent()).toMatch(/part file, which is code/);
  await tab(visit.page, 'Sizes').click();
  await expect.poll(() => panel(visit.page).textContent()).toMatch(/this page runs none/);
});

test('by keyboard alone', async () => {
  const { page, address } = await browser.visit({ flat: true });
  // From now on, and not only once a key is pressed, dialogs come to the test.
  page.on('filechooser', () => {});
  await page.goto(address);
  const choose = async (
    button: ReturnType<Page['getByLabel']>,
    name: string,
    bytes: Buffer,
  ): Promise<void> => {
    await tabTo(page, button);
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.keyboard.press('Enter')]);
    await chooser.setFiles(meshFile(name, bytes));
  };
  await choose(page.getByLabel('Open a mesh of your own'), 'block.stl', block);
  await tab(page, 'Sizes').waitFor();
  await choose(page.getByLabel('Open another'), 'other.stl', blockStl(30, 20, 10));
  await expect.poll(() => panel(page).locator('.field-file-name').textContent()).toBe('other.stl');
});

for (const [name, options] of [
  ['on a telephone, light', { ...telephone, colorScheme: 'light' }],
  ['on a telephone, dark', { ...telephone, colorScheme: 'dark' }],
  ['on a desk, dark', { viewport: { width: 1440, height: 900 }, colorScheme: 'dark' }],
] as const)
  test(`${name} nothing is cut off, and axe finds no fault`, async () => {
    const visit = await browser.visit({ flat: true, ...options });
    const { page } = visit;
    const look = async (what: string): Promise<void> => {
      expect(await cutOff(page), what).toEqual([]);
      const { violations } = await new AxeBuilder({ page }).analyze();
      expect(
        violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`),
        what,
      ).toEqual([]);
    };
    await openJob(visit, job.replace('block.stl', `${'long-name-of-a-scan-'.repeat(5)}.stl`));
    await hint(page).waitFor();
    await look('not open');
    await writeJobText(page, `${job}      marks: |\n        top face = face\n        bottom face = face\n`);
    await openMissing(page, 'scans/block.stl').setInputFiles(meshFile('block.stl', block));
    await tab(page, 'Sizes').click();
    await page.getByLabel('Open a mesh', { exact: true }).first().setInputFiles(meshFile('b.stl', block));
    await expect.poll(() => panel(page).locator('.field-file-name').textContent()).toBe('b.stl');
    await look('sizes');
    await tab(page, 'Take home').click();
    await look('take home');
  });
