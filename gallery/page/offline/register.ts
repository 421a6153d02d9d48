/** Whether the page will open without a network next time. */
export type Kept = 'kept' | 'unsupported' | 'failed';

interface Surroundings {
  readonly isSecureContext: boolean;
  readonly navigator: {
    readonly serviceWorker?: Pick<ServiceWorkerContainer, 'register'> | undefined;
  };
  readonly document: { readonly baseURI: string };
}

/**
 * Asks the browser to keep the page. Does nothing where it cannot: over http from another machine, in private windows
 * of some browsers, and where the page is not built. The page works the same either way.
 */
export async function keepOffline(where: Surroundings = window): Promise<Kept> {
  const { serviceWorker } = where.navigator;
  if (!where.isSecureContext || !serviceWorker) return 'unsupported';
  try {
    // Next to the page, whatever path that has.
    await serviceWorker.register(new URL('offline.js', where.document.baseURI), {
      scope: new URL('./', where.document.baseURI).pathname,
      updateViaCache: 'none',
    });
    return 'kept';
  } catch {
    return 'failed';
  }
}
