/** Jobs and links that mean harm: told in words, and nothing of theirs runs. The suite fails on any dialog, error or request elsewhere. */
import { deflateSync } from 'fflate';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { linkFragment } from '../../gallery/page/job/share.js';
import { openJob, panel, sizeBox, tab, takeFile, waitMade, writeJobText } from './harness/bench.js';
import { browserSuite, type Visit } from './harness/browser-suite.js';

const browser = browserSuite();

const script = '<img src=x onerror="globalThis.ran=1"><script>globalThis.ran=1</script>';

/** Opens a file on the wall. */
async function openFile({ page, address }: Visit, name: string, bytes: string | Uint8Array): Promise<void> {
  await page.goto(address);
  await page
    .getByLabel('Open a job file')
    .setInputFiles({ name, mimeType: 'application/yaml', buffer: Buffer.from(bytes) });
}

async function expectNothingRan(page: Page): Promise<void> {
  for (const frame of page.frames())
    expect(await frame.evaluate(() => (globalThis as { ran?: number }).ran)).toBeUndefined();
  expect(await page.locator('main script, main img[onerror], main iframe[src]').count()).toBe(0);
  expect(await page.evaluate(() => ({}) as { polluted?: unknown }).then((it) => it.polluted)).toBeUndefined();
}

test('HTML in a title and in notes stays text, on the page and on the traveller', async () => {
  const visit = await browser.visit({ flat: true });
  const { page } = visit;
  await openJob(
    visit,
    `job: marked\nfreeze: off\ntitle: ${JSON.stringify(script)}\nnotes: [${JSON.stringify(script)}, "javascript:globalThis.ran=1"]\nparts: [{ name: a, part: knob }]\n`,
  );
  await page.getByText(script).first().waitFor();
  await waitMade(page);
  await takeFile(page, 'Drawing, SVG');
  await page.getByRole('button', { name: 'Traveller: look and print' }).click();
  const sheet = page.frameLocator('iframe[title="Traveller"]');
  await sheet.getByText(script).first().waitFor();
  expect(await sheet.locator('script, [onerror], [onload], a[href^="javascript"]').count()).toBe(0);
  await expectNothingRan(page);
});

const marked = JSON.stringify(script);
test.each([
  ['in a name', `job: a\nparts: [{ name: ${marked}, part: knob }]\n`],
  ['in the name of a part', `job: a\nparts: [{ name: a, part: ${marked} }]\n`],
  ['in a key', `job: a\n${marked}: 1\nparts: [{ name: a, part: knob }]\n`],
  ['in a size', `job: a\nparts: [{ name: a, part: knob, parameters: { diameter: ${marked} } }]\n`],
  ['in an alloy', `job: a\nalloy: ${marked}\nparts: [{ name: a, part: knob }]\n`],
  ['in a preset', `job: a\nparts: [{ name: a, part: knob, preset: ${marked} }]\n`],
  ['in the units', `job: a\nunits: ${marked}\nparts: [{ name: a, part: knob }]\n`],
])('HTML %s stays text, and is refused', async (_, job) => {
  const visit = await browser.visit({ flat: true });
  await openJob(visit, job);
  for (const name of ['Findings', 'Job text', 'Take home']) await tab(visit.page, name).click();
  await tab(visit.page, 'Findings').click();
  await panel(visit.page).locator('.problems li').first().waitFor();
  const sizes = tab(visit.page, 'Sizes');
  if (await sizes.count()) await sizes.click();
  await expectNothingRan(visit.page);
});

const bomb = ['a: &a [x, x, x, x, x, x, x, x, x]'];
for (let i = 1; i < 12; i++) {
  const [now, before] = [String.fromCharCode(97 + i), String.fromCharCode(96 + i)];
  bomb.push(`${now}: &${now} [${Array(9).fill(`*${before}`).join(', ')}]`);
}

test.each([
  ['a text that unfolds a billionfold', bomb.join('\n')],
  ['brackets ten thousand deep', `job: ${'['.repeat(10_000)}${']'.repeat(10_000)}`],
  ['maps a thousand deep', Array.from({ length: 1000 }, (_, i) => `${' '.repeat(i)}a:`).join('\n')],
  [
    'the keys of all objects',
    'job: a\n__proto__: { polluted: 1 }\nconstructor: { prototype: { polluted: 1 } }\nparts: [{ name: a, part: knob }]\n',
  ],
  [
    'their keys in a part',
    'job: a\nparts:\n  - name: a\n    part: knob\n    __proto__: { polluted: 1 }\n    parameters: { __proto__: { polluted: 1 }, constructor: 1 }\n',
  ],
  [
    'their names as names of a part',
    'job: a\nparts: [{ name: a, part: __proto__ }, { name: b, part: constructor }]\n',
  ],
  ['an alias to itself', 'job: a\nparts: &p [*p]\n'],
  ['two documents', 'job: a\n---\njob: b\n'],
  ['a tag of a language', 'job: !!js/function "function () { globalThis.ran = 1 }"\nparts: []\n'],
  ['nothing', ' \n'],
  ['a list', '- 1\n- 2\n'],
  ['a number of parts beyond all sense', `job: a\nparts: [{ name: a, part: knob, quantity: 1e300 }]\n`],
])('%s is refused in words', async (_, job) => {
  const visit = await browser.visit({ flat: true });
  await openFile(visit, 'job.yaml', job);
  await tab(visit.page, 'Findings').click();
  await expect.poll(() => panel(visit.page).locator('.problems li').count()).toBeGreaterThan(0);
  await expectNothingRan(visit.page);
  // The page lives on: its own text can be mended.
  await writeJobText(visit.page, 'job: mended\nparts: [{ name: a, part: knob }]\n');
  await tab(visit.page, 'Sizes').click();
  await sizeBox(visit.page, 'Size').waitFor();
});

test.each([
  [
    'bytes that are no text',
    'picture.yaml',
    new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0xff, 0xfe, 0, 1]),
    /no text/,
  ],
  ['20 MB', 'large.yaml', new Uint8Array(20 * 1024 * 1024).fill(0x61), /larger than/],
  ['a name with HTML in it', '<b onclick=alert(1)>.yaml', new Uint8Array([0xff]), /no text/],
])('a file of %s is not opened, and that is said', async (_, name, bytes, told) => {
  const visit = await browser.visit({ flat: true });
  await openFile(visit, name, bytes);
  await expect.poll(() => visit.page.getByRole('alert').textContent()).toMatch(told);
  await expectNothingRan(visit.page);
});

const whole = linkFragment('job: a\nparts: [{ name: a, part: knob }]\n');
const packed = (text: string): string =>
  `#job=${Buffer.from(deflateSync(Buffer.from(text), { level: 9 })).toString('base64url')}`;

test.each([
  ['cut short', whole.slice(0, -9), /cut short/],
  ['of other letters', `${whole}<script>`, /cut short/],
  ['of nothing', '#job=', /cut short/],
  ['of bytes that are not folded', `#job=${Buffer.from('job: a').toString('base64url')}`, /cut short/],
  ['that unfolds to 300 kB', packed(`job: a\n# ${'x'.repeat(300 * 1024)}`), /more than 256 kB/],
  ['that unfolds to 200 MB', packed('a'.repeat(200 * 1024 * 1024)), /more than 256 kB/],
])('a link %s is not opened, and that is said', async (_, fragment, told) => {
  const { page, address } = await browser.visit({ flat: true });
  await page.goto(`${address}${fragment}`);
  await expect.poll(() => page.getByRole('alert').textContent()).toMatch(told);
  await page.getByRole('button', { name: 'Skiff cleat' }).waitFor();
});

test('a link of 300 kB of letters is not opened, and that is said', async () => {
  const { page, address } = await browser.visit({ flat: true });
  await page.goto(`${address}#job=${'A'.repeat(300 * 1024)}`);
  await page.getByRole('alert').waitFor();
});

test.each([
  ['no JSON', '{'],
  ['of another form', JSON.stringify({ form: 2, sources: { job: 'job: a' } })],
  ['with a number for its job', JSON.stringify({ form: 1, sources: { job: 7 } })],
  ['with a list for its shop', JSON.stringify({ form: 1, sources: { job: 'job: a', shop: [] } })],
  ['with nothing', 'null'],
  ['with HTML', JSON.stringify({ form: 1, sources: { job: script } })],
])('kept work that is %s does not keep the page from coming', async (_, kept) => {
  const { page, address } = await browser.visit({ flat: true });
  await page.addInitScript((text) => {
    localStorage.setItem('patternwright:work', text);
    localStorage.setItem('patternwright:theme', text);
  }, kept);
  await page.goto(`${address}#bench`);
  await page.getByRole('heading', { level: 1 }).waitFor({ state: 'attached' });
  await page.goto(address);
  await page.getByRole('button', { name: 'Skiff cleat' }).click();
  await tab(page, 'Sizes').waitFor();
  await expectNothingRan(page);
});
