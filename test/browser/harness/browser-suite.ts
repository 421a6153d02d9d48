import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect } from 'vitest';
import { launch } from './launch.js';
import { type PageServer, servePage, servePageAsTheCommandDoes } from './page-server.js';
import { type Watch, watch } from './watch.js';

export interface Visit {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Where the page is served. */
  readonly address: string;
  readonly server: PageServer;
  readonly watch: Watch;
}

export interface VisitOptions extends BrowserContextOptions {
  /** Path that the page is served under. */
  readonly under?: string;
  /** Served by `patternwright gallery`, with its headers. */
  readonly byCommand?: boolean;
  /** A browser that cannot draw in three dimensions: much quicker where the picture is not what is tested. */
  readonly flat?: boolean;
}

/** A Chromium for the tests of this file: each visit is a reader of its own, and what must never happen fails its test. */
export function browserSuite(): { visit(options?: VisitOptions): Promise<Visit> } {
  let browser: Browser;
  let visits: Visit[] = [];

  beforeAll(async () => {
    browser = await launch();
  });
  afterEach(async () => {
    const ended = visits;
    visits = [];
    for (const { context, server } of ended) {
      await context.close();
      await server.close();
    }
    expect(ended.flatMap((visit) => visit.watch.troubles)).toEqual([]);
    expect(ended.flatMap((visit) => visit.server.missing)).toEqual([]);
  });
  afterAll(() => browser?.close());

  return {
    async visit({ under = '/', byCommand = false, flat = false, ...options } = {}) {
      const server = byCommand ? await servePageAsTheCommandDoes() : await servePage(under);
      const context = await browser.newContext({
        viewport: { width: 1280, height: 900 },
        reducedMotion: 'reduce',
        ...options,
      });
      // Seconds on a quiet machine; all of the page is drawn by the processor, and other tests run beside.
      context.setDefaultTimeout(120_000);
      if (flat) await context.addInitScript(takeGraphics);
      const watched = watch(context, server.address);
      const page = await context.newPage();
      const visit = { page, context, address: server.address, server, watch: watched };
      visits.push(visit);
      return visit;
    },
  };
}

/** Runs in the page before anything of it. */
function takeGraphics(): void {
  const usual = HTMLCanvasElement.prototype.getContext;
  HTMLCanvasElement.prototype.getContext = function (
    this: HTMLCanvasElement,
    kind: string,
    ...rest: unknown[]
  ) {
    return /^webgl/.test(kind) ? null : Reflect.apply(usual, this, [kind, ...rest]);
  } as typeof usual;
}
