import { decode } from 'fast-png';
import type { Locator, Page } from 'playwright-core';

/** Presses Tab until something has the focus. @throws Error when it is not among the next stops */
export async function tabTo(page: Page, wanted: Locator, most = 120): Promise<void> {
  for (let presses = 0; presses < most; presses++) {
    await page.keyboard.press('Tab');
    if (await wanted.evaluate((it) => it === document.activeElement).catch(() => false)) return;
  }
  throw new Error(`${wanted} has no focus after ${most} presses of Tab`);
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A finger put down, moved and taken away. */
export async function swipe(page: Page, from: Point, to: Point, steps = 10): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', points: Point[]) =>
    session.send('Input.dispatchTouchEvent', { type, touchPoints: points });
  await touch('touchStart', [from]);
  for (let k = 1; k <= steps; k++)
    await touch('touchMove', [
      { x: from.x + ((to.x - from.x) * k) / steps, y: from.y + ((to.y - from.y) * k) / steps },
    ]);
  await touch('touchEnd', []);
  await session.detach();
}

/** What stands out of the page's right or left edge, or is cut off where it stands and cannot be scrolled to. */
export const cutOff = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    // A telephone's window grows with what is too wide for it; this is what the page is laid out for.
    const width = document.documentElement.clientWidth;
    const told = (element: Element): string =>
      `${element.tagName.toLowerCase()}.${element.className} “${(element.textContent ?? '').trim().slice(0, 40)}”`;
    const scrolls = (element: Element): boolean => /auto|scroll/.test(getComputedStyle(element).overflowX);
    const isSeen = (element: Element): boolean => {
      const box = element.getBoundingClientRect();
      // What is for screen readers alone is a pixel large.
      return (
        box.width > 2 &&
        box.height > 2 &&
        element.checkVisibility({ visibilityProperty: true, opacityProperty: true })
      );
    };
    const within = (element: Element | null, test: (it: Element) => boolean): boolean =>
      element !== null && (test(element) || within(element.parentElement, test));
    const isHidden = (element: Element): boolean =>
      /unseen|visually-hidden|skip|stage-help/.test(element.className);
    const all = [...document.body.querySelectorAll('*')].filter(
      (e) => !(e instanceof SVGElement) && isSeen(e) && !within(e, isHidden),
    );
    const out = all.filter((e) => {
      const { left, right } = e.getBoundingClientRect();
      return (right > width + 1 || left < -1) && !within(e.parentElement, scrolls);
    });
    const cut = all.filter(
      (e) =>
        e.scrollWidth > e.clientWidth + 1 &&
        /hidden|clip/.test(getComputedStyle(e).overflowX) &&
        (e.textContent ?? '').trim() !== '' &&
        !e.closest('[role=application]'),
    );
    const wide = document.documentElement.scrollWidth > width ? ['the page scrolls sideways'] : [];
    return [...wide, ...[...out, ...cut].map(told)];
  });

/** A picture of what an element shows. */
export const pictureOf = async (element: Locator): Promise<string> =>
  (await element.screenshot({ animations: 'allow' })).toString('base64');

/** How much two pictures of one size differ: mean over all samples, of 255. */
export function difference(one: string, other: string): number {
  const [a, b] = [one, other].map((picture) => decode(Buffer.from(picture, 'base64')).data);
  if (a!.length !== b!.length) return 255;
  let sum = 0;
  for (let i = 0; i < a!.length; i++) sum += Math.abs(a![i]! - b![i]!);
  return sum / a!.length;
}
