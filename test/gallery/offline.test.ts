import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runInNewContext } from 'node:vm';
import { afterAll, describe, expect, test } from 'vitest';
import { type BuiltFiles, listFiles, workerScript } from '../../gallery/page/offline/list-files.js';
import { keepOffline } from '../../gallery/page/offline/register.js';

const top = mkdtempSync(join(tmpdir(), 'patternwright-test-'));
afterAll(() => rmSync(top, { recursive: true, force: true }));

function pageOf(name: string, files: Readonly<Record<string, string>>): string {
  const folder = join(top, name);
  for (const [file, text] of Object.entries(files)) {
    mkdirSync(join(folder, file, '..'), { recursive: true });
    writeFileSync(join(folder, file), text);
  }
  return folder;
}

const usual = { 'index.html': 'page', 'assets/main.js': 'js', 'pictures/wall.json': '{}' };

describe('the list of files', () => {
  test('has every file, in every folder, but the worker, maps and hidden ones', () => {
    const folder = pageOf('all', {
      ...usual,
      'offline.js': 'old',
      'assets/main.js.map': '{}',
      '.DS_Store': '',
      '.git/x': '',
    });
    expect(listFiles(folder).files).toEqual(['assets/main.js', 'index.html', 'pictures/wall.json']);
  });

  test('has the same version for the same files, another for any other byte or name', () => {
    const version = (name: string, files: Readonly<Record<string, string>>) =>
      listFiles(pageOf(name, files)).version;
    const one = version('one', usual);
    expect(one).toMatch(/^[0-9a-f]{16}$/);
    expect(version('same', usual)).toBe(one);
    expect(version('byte', { ...usual, 'pictures/wall.json': '[]' })).not.toBe(one);
    expect(
      version('named', { 'index.html': 'page', 'assets/main2.js': 'js', 'pictures/wall.json': '{}' }),
    ).not.toBe(one);
    // What moves from the end of one file to the start of the next.
    expect(version('moved', { ...usual, 'assets/main.js': 'jsp', 'index.html': 'age' })).not.toBe(one);
  });
});

interface Asked {
  readonly method: string;
  readonly url: string;
  readonly cache?: string | undefined;
}

class FakeRequest implements Asked {
  readonly method: string;
  readonly cache: string | undefined;
  constructor(
    readonly url: string,
    { method = 'GET', cache }: { method?: string; cache?: string } = {},
  ) {
    this.method = method;
    this.cache = cache;
  }
}

/** The script in a made-up browser: its stores, its network, its three events. */
function workerIn(
  script: string,
  scope: string,
  stores: Map<string, Map<string, string>>,
  network: (url: string) => string | undefined,
) {
  const listeners = new Map<string, (event: never) => void>();
  const fetched: Asked[] = [];
  let claimed = 0;
  const fetchOne = (request: Asked): Promise<string> => {
    fetched.push(request);
    const found = network(request.url);
    return found === undefined ? Promise.reject(new Error('404')) : Promise.resolve(found);
  };
  runInNewContext(script, {
    URL,
    Request: FakeRequest,
    fetch: fetchOne,
    self: {
      registration: { scope },
      clients: {
        claim: async () => {
          claimed++;
        },
      },
      addEventListener: (type: string, listener: (event: never) => void) => listeners.set(type, listener),
    },
    caches: {
      open: async (name: string) => {
        const store = stores.get(name) ?? new Map<string, string>();
        stores.set(name, store);
        return {
          addAll: async (requests: readonly Asked[]) => {
            const all = await Promise.all(requests.map(async (r) => [r.url, await fetchOne(r)] as const));
            for (const [url, body] of all) store.set(url, body);
          },
          match: async (url: string) => store.get(url),
        };
      },
      keys: async () => [...stores.keys()],
      delete: async (name: string) => stores.delete(name),
    },
  });
  const wait = (type: string): Promise<unknown> => {
    let work: Promise<unknown> = Promise.resolve();
    listeners.get(type)?.({
      waitUntil: (w: Promise<unknown>) => {
        work = w;
      },
    } as never);
    return work;
  };
  return {
    fetched,
    claims: () => claimed,
    install: () => wait('install'),
    activate: () => wait('activate'),
    /** Its answer, or undefined where it leaves the request to the browser. */
    ask: async (url: string, method = 'GET'): Promise<string | undefined> => {
      let answer: Promise<string> | undefined;
      listeners.get('fetch')?.({
        request: new FakeRequest(url, { method }),
        respondWith: (a: Promise<string>) => {
          answer = a;
        },
      } as never);
      return answer;
    },
  };
}

const built: BuiltFiles = { version: 'v2', files: ['assets/main.js', 'index.html', 'pictures/wall.json'] };
const scope = 'https://example.org/shop/page/';
const online = (url: string): string => `net ${url}`;

describe('the worker', () => {
  const stores = new Map<string, Map<string, string>>();
  const start = async (network: (url: string) => string | undefined = online) =>
    workerIn(await workerScript(built), scope, stores, network);

  test('keeps every file under the path it stands at, past the browser’s own store', async () => {
    stores.clear();
    const worker = await start();
    await worker.install();
    expect(worker.fetched.map(({ url }) => url)).toEqual([
      `${scope}assets/main.js`,
      scope,
      `${scope}pictures/wall.json`,
    ]);
    expect(worker.fetched.every(({ cache }) => cache === 'reload')).toBe(true);
  });

  test('answers from what it kept, without a network', async () => {
    stores.clear();
    await (await start()).install();
    const worker = await start(() => undefined);
    await worker.activate();
    expect(await worker.ask(scope)).toBe(`net ${scope}`);
    expect(await worker.ask(`${scope}index.html`)).toBe(`net ${scope}`);
    expect(await worker.ask(`${scope}?x=1#job=abc`)).toBe(`net ${scope}`);
    expect(await worker.ask(`${scope}assets/main.js?v=3`)).toBe(`net ${scope}assets/main.js`);
    expect(worker.fetched).toEqual([]);
    expect(worker.claims()).toBe(1);
  });

  test.each([
    'https://other.org/shop/page/assets/main.js',
    'https://example.org/shop/page2/assets/main.js',
    'https://example.org/assets/main.js',
    'https://example.org.evil.org/shop/page/assets/main.js',
    `${scope}no-such.js`,
    `${scope}/assets/main.js`,
    `${scope}//other.org/assets/main.js`,
    `${scope}offline.js`,
  ])('leaves %s to the browser', async (url) => {
    stores.clear();
    const worker = await start();
    await worker.install();
    expect(await worker.ask(url)).toBeUndefined();
    expect([...stores.values()].flatMap((s) => [...s.keys()]).every((u) => u.startsWith(scope))).toBe(true);
  });

  test('leaves all that is no GET to the browser', async () => {
    const worker = await start();
    for (const method of ['POST', 'HEAD', 'PUT']) expect(await worker.ask(scope, method)).toBeUndefined();
  });

  test('keeps nothing where a file is missing', async () => {
    stores.clear();
    const worker = await start((url) => (url.endsWith('.json') ? undefined : online(url)));
    await expect(worker.install()).rejects.toThrow();
    expect([...stores.values()].every((s) => s.size === 0)).toBe(true);
  });

  test('clears its own older versions, not those of others', async () => {
    stores.clear();
    for (const name of [
      `patternwright ${scope} v1`,
      'patternwright https://example.org/ v1',
      'theirs',
      `patternwright ${scope}more/ v1`,
    ])
      stores.set(name, new Map());
    const worker = await start();
    await worker.install();
    expect(stores.has(`patternwright ${scope} v1`)).toBe(true);
    await worker.activate();
    expect([...stores.keys()].sort()).toEqual(
      [
        'patternwright https://example.org/ v1',
        `patternwright ${scope} v2`,
        `patternwright ${scope}more/ v1`,
        'theirs',
      ].sort(),
    );
  });

  test('asks the network where the browser has thrown a file away', async () => {
    stores.clear();
    const worker = await start();
    expect(await worker.ask(`${scope}assets/main.js`)).toBe(`net ${scope}assets/main.js`);
  });
});

describe('asking to be kept', () => {
  const document = { baseURI: 'https://example.org/shop/page/index.html#bench' };

  test('registers the worker beside the page, for the page’s folder', async () => {
    const calls: unknown[] = [];
    const serviceWorker = {
      register: async (url: string | URL, options?: RegistrationOptions) => {
        calls.push([String(url), options]);
        return {} as ServiceWorkerRegistration;
      },
    };
    expect(await keepOffline({ isSecureContext: true, navigator: { serviceWorker }, document })).toBe('kept');
    expect(calls).toEqual([
      ['https://example.org/shop/page/offline.js', { scope: '/shop/page/', updateViaCache: 'none' }],
    ]);
  });

  test('does nothing where the browser cannot, and survives where it will not', async () => {
    const register = async (): Promise<never> => {
      throw new Error('no');
    };
    const serviceWorker = { register };
    expect(await keepOffline({ isSecureContext: true, navigator: {}, document })).toBe('unsupported');
    expect(await keepOffline({ isSecureContext: false, navigator: { serviceWorker }, document })).toBe(
      'unsupported',
    );
    expect(await keepOffline({ isSecureContext: true, navigator: { serviceWorker }, document })).toBe(
      'failed',
    );
  });
});
