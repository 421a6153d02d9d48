import type { BrowserContext } from 'playwright-core';

/** What no page may do, noted while it is used. */
export interface Watch {
  readonly troubles: readonly string[];
  /** What matches is expected in this test. */
  allow(pattern: RegExp): void;
}

/** Notes dialogs, errors in the page or on its console, and requests to any other origin than `address`'s. */
export function watch(context: BrowserContext, address: string): Watch {
  const { origin } = new URL(address);
  const noted: string[] = [];
  const allowed: RegExp[] = [];
  context.on('dialog', (dialog) => {
    noted.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  context.on('weberror', (error) => {
    noted.push(`page error: ${error.error().stack ?? error.error().message}`);
  });
  context.on('console', (message) => {
    if (message.type() === 'error') noted.push(`console: ${message.text()} (${message.location().url})`);
  });
  context.on('request', (request) => {
    const { protocol, origin: asked } = new URL(request.url());
    // Those of these two kinds never leave the browser.
    if (protocol !== 'data:' && protocol !== 'blob:' && asked !== origin)
      noted.push(`request: ${request.url()}`);
  });
  return {
    get troubles() {
      return noted.filter((trouble) => !allowed.some((pattern) => pattern.test(trouble)));
    },
    allow: (pattern) => {
      allowed.push(pattern);
    },
  };
}
