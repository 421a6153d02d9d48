/** Keeps the whole page, so that it works without a network. The build writes it as `offline.js` with its list. */

/** What the build wrote: every file, relative to the page. */
declare const built: { readonly version: string; readonly files: readonly string[] };

/** Of the browser's service worker scope, what is used here. */
interface WaitEvent {
  readonly waitUntil: (work: Promise<unknown>) => void;
}
interface FetchEvent {
  readonly request: Request;
  readonly respondWith: (answer: Promise<Response>) => void;
}
declare const self: {
  readonly registration: { readonly scope: string };
  readonly clients: { readonly claim: () => Promise<void> };
  addEventListener(type: 'install' | 'activate', listener: (event: WaitEvent) => void): void;
  addEventListener(type: 'fetch', listener: (event: FetchEvent) => void): void;
};

const { scope } = self.registration;
/** One host may hold several such pages, each under its own path. */
const ours = `patternwright ${scope} `;
const cacheName = ours + built.version;
/** The page is fetched as the folder it is in: some hosts send `index.html` on to there. */
const addressOf = (file: string): string => new URL(file === 'index.html' ? './' : file, scope).href;
const kept = new Set(built.files.map(addressOf));

self.addEventListener('install', (event) => event.waitUntil(keepAll()));
self.addEventListener('activate', (event) => event.waitUntil(clearOld().then(() => self.clients.claim())));
self.addEventListener('fetch', (event) => {
  const address = keptAddress(event.request);
  if (address !== undefined) event.respondWith(answer(address, event.request));
});

/** All or nothing. Past the browser's own store, which may hold files of another version. */
async function keepAll(): Promise<void> {
  const cache = await caches.open(cacheName);
  await cache.addAll([...kept].map((address) => new Request(address, { cache: 'reload' })));
}

async function clearOld(): Promise<void> {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(ours) && name !== cacheName);
  await Promise.all(old.map((name) => caches.delete(name)));
}

/** Where a request's answer is kept; undefined for all that is no file of this build. */
function keptAddress({ method, url }: Request): string | undefined {
  if (method !== 'GET' || !url.startsWith(scope)) return undefined;
  const address = addressOf(url.slice(scope.length).replace(/[?#].*$/, ''));
  return kept.has(address) ? address : undefined;
}

/** As it was kept; from the network only where the browser has thrown it away. */
async function answer(address: string, request: Request): Promise<Response> {
  const cache = await caches.open(cacheName);
  return (await cache.match(address, { ignoreVary: true })) ?? fetch(request);
}
