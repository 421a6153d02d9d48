/** The bench as a reader uses it. */
import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright-core';
import { linkFragment } from '../../../gallery/page/job/share.js';
import type { Visit } from './browser-suite.js';

/** Opens a job by its link, and waits for the bench. */
export async function openJob(
  { page, address }: Pick<Visit, 'page' | 'address'>,
  job: string,
): Promise<void> {
  await page.goto(`${address}${linkFragment(job)}`);
  await tab(page, 'Take home').waitFor();
}

export const tab = (page: Page, name: string): Locator => page.getByRole('tab', { name });
export const panel = (page: Page): Locator => page.getByRole('tabpanel');
export const keyNumbers = (page: Page): Locator => page.getByRole('region', { name: 'Key numbers' });

/** Waits until the job as it stands is made in full, filling and freezing too. */
export async function waitMade(page: Page): Promise<void> {
  await keyNumbers(page).locator('dl:not(.stale)').waitFor({ timeout: 240_000 });
  await keyNumbers(page)
    .getByRole('status')
    .filter({ hasText: /^$/ })
    .waitFor({ state: 'attached', timeout: 240_000 });
}

export async function show(
  page: Page,
  state: 'Part' | 'Casting' | 'Pattern' | 'Gated' | 'Plate',
): Promise<void> {
  await page.getByRole('radio', { name: new RegExp(`^${state} ?,`) }).check();
}

/** The box of a size, by its words: the tab with it must be open. */
export const sizeBox = (page: Page, name: string): Locator =>
  page.getByRole('textbox', { name: new RegExp(`^${name}( |$)`) });

/** Writes a size and settles it. */
export async function writeSize(page: Page, name: string, text: string): Promise<void> {
  const box = sizeBox(page, name);
  await box.fill(text);
  await box.press('Enter');
}

export interface Taken {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** What the browser saves when something is pressed. */
export async function take(page: Page, button: Locator): Promise<Taken> {
  const [download] = await Promise.all([page.waitForEvent('download'), button.click()]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

/** A file of the made job, by its words under `Take home`. */
export async function takeFile(page: Page, name: string): Promise<Taken> {
  await tab(page, 'Take home').click();
  return take(page, panel(page).getByRole('button', { name, exact: true }));
}

/** The job's text as it stands. */
export async function jobText(page: Page): Promise<string> {
  await tab(page, 'Job text').click();
  return panel(page).getByRole('textbox', { name: 'The job’s text' }).inputValue();
}

/** Puts another text in its place. */
export async function writeJobText(page: Page, text: string): Promise<void> {
  await tab(page, 'Job text').click();
  await panel(page).getByRole('textbox', { name: 'The job’s text' }).fill(text);
  await panel(page).getByRole('button', { name: 'Take this text' }).click();
}
