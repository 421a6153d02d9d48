import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { type AddressInfo, connect, createServer, type Server } from 'node:net';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { findPageFolder } from '../../cli/gallery/page-folder.js';
import { endServer, host, servePage } from '../../cli/gallery/serve-page.js';
import { builtMain, ensureBuilt, runBuilt } from './helpers/built.js';
import { temporaryFolder } from './helpers/folders.js';
import { accidents, runHere } from './helpers/in-process.js';

const top = temporaryFolder();
const folder = join(top, 'page');
mkdirSync(join(folder, 'assets'), { recursive: true });
writeFileSync(join(folder, 'index.html'), '<!doctype html><title>the page</title>');
writeFileSync(join(folder, 'assets/main-1a.js'), 'export {};');
writeFileSync(join(folder, 'assets/kernel-2b.wasm'), Buffer.from([0, 0x61, 0x73, 0x6d]));
writeFileSync(join(folder, 'wall.json'), '{}');
writeFileSync(join(folder, '.hidden'), 'no');
writeFileSync(join(top, 'secret.txt'), 'a secret');
mkdirSync(join(top, 'page-2'));
writeFileSync(join(top, 'page-2/secret.txt'), 'a secret');

const portOf = (server: Pick<Server, 'address'>): number => (server.address() as AddressInfo).port;

interface Answer {
  readonly code: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly body: Buffer;
}

const ask = (
  port: number,
  path: string,
  { method = 'GET', headers = {} }: { method?: string; headers?: Record<string, string> } = {},
): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const asked = request({ host, port, path, method, headers, agent: false }, (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('end', () =>
        resolve({ code: response.statusCode ?? 0, headers: response.headers, body: Buffer.concat(parts) }),
      );
    });
    asked.on('error', reject);
    asked.end();
  });

/** Bytes as they are, which a client would have mended. */
const askRaw = (port: number, text: string): Promise<string> =>
  new Promise((resolve, reject) => {
    const socket = connect(port, host, () => socket.end(text));
    let answer = '';
    socket.setEncoding('utf8').on('data', (part: string) => {
      answer += part;
    });
    socket.on('close', () => resolve(answer));
    socket.on('error', reject);
  });

describe('what is served', () => {
  let server: Awaited<ReturnType<typeof servePage>>;
  let port: number;
  beforeAll(async () => {
    server = await servePage(folder, 0);
    port = portOf(server);
  });
  afterAll(() => endServer(server));

  test('on this machine alone', () => {
    expect((server.address() as AddressInfo).address).toBe('127.0.0.1');
  });

  test.each([
    ['/', 'text/html;charset=utf-8', '<!doctype html><title>the page</title>'],
    ['/index.html', 'text/html;charset=utf-8', '<!doctype html><title>the page</title>'],
    ['/?x=../..', 'text/html;charset=utf-8', '<!doctype html><title>the page</title>'],
    ['/assets/main-1a.js', 'text/javascript', 'export {};'],
    ['/assets/kernel%2D2b.wasm', 'application/wasm', '\0asm'],
    ['/wall.json', 'application/json', '{}'],
  ])('%s as %s', async (path, type, body) => {
    const answer = await ask(port, path);
    expect(answer).toMatchObject({ code: 200, headers: { 'content-type': type } });
    expect(answer.body.toString()).toBe(body);
  });

  test.each(['/', '/no-such', '/assets/main-1a.js'])(
    '%s with the policy and no guessing of types',
    async (path) => {
      const { headers } = await ask(port, path);
      expect(headers['x-content-type-options']).toBe('nosniff');
      const policy = String(headers['content-security-policy']);
      expect(policy).toContain("default-src 'none'");
      expect(policy).toContain("connect-src 'self'");
      expect(policy).not.toMatch(/unsafe-eval'(?<!wasm-unsafe-eval')|\*|https?:/);
    },
  );

  test('HEAD: the headers alone', async () => {
    const answer = await ask(port, '/assets/main-1a.js', { method: 'HEAD' });
    expect(answer).toMatchObject({ code: 200, headers: { 'content-length': '10' } });
    expect(answer.body.length).toBe(0);
  });

  test('once fetched it is asked for again with its tag, and not sent again', async () => {
    const { headers } = await ask(port, '/assets/main-1a.js');
    const again = await ask(port, '/assets/main-1a.js', {
      headers: { 'if-none-match': String(headers.etag) },
    });
    expect(again.code).toBe(304);
  });

  test.each(['POST', 'PUT', 'DELETE', 'OPTIONS', 'PATCH'])('%s is not allowed', async (method) => {
    expect(await ask(port, '/', { method })).toMatchObject({ code: 405, headers: { allow: 'GET, HEAD' } });
  });

  test.each(['bytes=5-2', 'bytes=99999-', 'bytes=a-b', 'bytes=0-1,3-4', 'nonsense'])(
    'a range of %s gets the whole file',
    async (range) => {
      const answer = await ask(port, '/assets/main-1a.js', { headers: { range } });
      expect(answer.code).toBe(200);
      expect(answer.body.toString()).toBe('export {};');
    },
  );

  test.each([
    '/../secret.txt',
    '/assets/../../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e%2fsecret.txt',
    '/%252e%252e%252fsecret.txt',
    '/..%5csecret.txt',
    '/assets/..\\..\\secret.txt',
    '/../page-2/secret.txt',
    '//../secret.txt',
    '/./../secret.txt',
    '/.hidden',
    '/%2ehidden',
    '/secret.txt',
    '/assets',
    '/assets/',
    `/${encodeURIComponent(join(top, 'secret.txt'))}`,
    '/index.html%00.txt',
    '/%',
    '/%ff%fe',
    '/index',
    '*',
    'http://127.0.0.1/../secret.txt',
  ])('%s gets nothing of the disk', async (path) => {
    const answer = await askRaw(port, `GET ${path} HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n`);
    expect(answer).toMatch(/^HTTP\/1\.1 (400|404) /);
    expect(answer).not.toContain('a secret');
    expect(answer).not.toContain(top);
    expect(answer).not.toMatch(accidents);
    // Still there.
    expect((await ask(port, '/')).code).toBe(200);
  });

  test('what was built anew meanwhile, and no more of what is gone', async () => {
    writeFileSync(join(folder, 'assets/main-3c.js'), 'new');
    expect((await ask(port, '/assets/main-3c.js')).body.toString()).toBe('new');
    rmSync(join(folder, 'assets/main-3c.js'));
    expect((await ask(port, '/assets/main-3c.js')).code).toBe(404);
  });
});

describe('where the page is', () => {
  test.each(['dist/cli/chunk-gallery.js', 'dist/cli/gallery/page-folder.js', 'cli/gallery/page-folder.ts'])(
    'found from %s',
    (file) => {
      const root = join(top, file.replace(/\W/g, '-'));
      const from = pathToFileURL(join(root, file)).href;
      expect(findPageFolder(from)).toBeUndefined();
      mkdirSync(join(root, 'dist/page'), { recursive: true });
      writeFileSync(join(root, 'dist/page/index.html'), '');
      expect(findPageFolder(from)).toBe(join(root, 'dist/page/'));
    },
  );
});

describe('the request', () => {
  test.each(['0', '65536', '-1', '80.5', 'abc', '1e3', '0x50', '99999999'])(
    'port %s is refused',
    async (port) => {
      const ran = await runHere(['gallery', '--port', port], { cwd: top });
      expect(ran).toMatchObject({ code: 2, out: '' });
      expect(ran.err).toContain('--port');
      expect(ran.err).toContain('a whole number from 1 to 65535');
      expect(ran.err).not.toMatch(accidents);
    },
  );

  test('a word too many, or an option it has not', async () => {
    expect((await runHere(['gallery', 'now'], { cwd: top })).err).toBe(
      '"now" is one word too many; gallery takes options alone\n',
    );
    expect((await runHere(['gallery', '--prt', '8080'], { cwd: top })).err).toContain('did you mean --port?');
  });

  test('is in the list of commands, with its help', async () => {
    expect((await runHere(['--help'], { cwd: top })).out).toMatch(/\n {2}gallery {2}\S/);
    const help = await runHere(['help', 'gallery'], { cwd: top });
    expect(help.code).toBe(0);
    expect(help.out).toContain('--port <n>');
    expect(help.out).toContain('4780');
    for (const line of help.out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });
});

describe('the built command', () => {
  const page = join(dirname(builtMain), '../page');
  beforeAll(() => {
    ensureBuilt();
    rmSync(page, { recursive: true, force: true });
  });

  const build = (): void => {
    mkdirSync(page, { recursive: true });
    writeFileSync(join(page, 'index.html'), 'built page');
  };

  test('without a built page says how to build it', () => {
    expect(existsSync(page)).toBe(false);
    expect(runBuilt(['gallery'], { cwd: top })).toMatchObject({
      code: 1,
      out: '',
      err: 'The page has not been built. Run `npm run gallery` first.\n',
    });
  });

  test('a port that is taken, asked for: says so', async () => {
    build();
    const other = createServer().listen(0, host);
    await new Promise((resolve) => other.once('listening', resolve));
    const port = portOf(other);
    expect(runBuilt(['gallery', '--port', String(port)], { cwd: top })).toMatchObject({
      code: 1,
      out: '',
      err: `Port ${port} is taken. Name another one: --port 8080.\n`,
    });
    other.close();
  });

  const lowPorts = '/proc/sys/net/ipv4/ip_unprivileged_port_start';
  const isRefused = existsSync(lowPorts) && Number(readFileSync(lowPorts, 'utf8')) > 80;
  test.skipIf(!isRefused)('a port that only the system may have: says so', () => {
    build();
    const nobody = process.getuid?.() === 0 ? { uid: 65534 } : {};
    expect(runBuilt(['gallery', '--port', '80'], { cwd: top, ...nobody })).toMatchObject({
      code: 1,
      out: '',
      err: 'Port 80 may not be used. Name another one: --port 8080.\n',
    });
  });

  /** Starts it, waits until it has said where it is, and gives a way to end it. */
  async function started(...argv: string[]) {
    build();
    const child = spawn(process.execPath, [builtMain, 'gallery', ...argv], { cwd: top });
    let [out, err] = ['', ''];
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      err += text;
    });
    await new Promise<void>((resolve, reject) => {
      child.stdout.setEncoding('utf8').on('data', (text: string) => {
        out += text;
        if (out.includes('Ctrl-C')) resolve();
      });
      child.on('exit', () => reject(new Error(`ended: ${out}${err}`)));
    });
    const port = Number(/http:\/\/127\.0\.0\.1:(\d+)\/\n/.exec(out)?.[1]);
    const end = (signal: NodeJS.Signals) =>
      new Promise<readonly [number | null, NodeJS.Signals | null, string]>((resolve) => {
        child.on('exit', (code, by) => resolve([code, by, err]));
        child.kill(signal);
      });
    return { port, end };
  }

  test.each(['SIGINT', 'SIGTERM'] as const)(
    'serves until %s, and then ends at once and quietly',
    async (signal) => {
      const { port, end } = await started();
      expect((await ask(port, '/')).body.toString()).toBe('built page');
      // A browser that keeps its connection does not hold it.
      const idle = connect(port, host).on('error', () => undefined);
      await new Promise((resolve) => idle.once('connect', resolve));
      expect(await end(signal)).toEqual([null, signal, '']);
      idle.destroy();
      await expect(ask(port, '/')).rejects.toThrow(/ECONNREFUSED|ECONNRESET/);
    },
  );

  test('started twice, the second takes the next port', async () => {
    const first = await started();
    const second = await started();
    expect(second.port).not.toBe(first.port);
    expect((await ask(second.port, '/')).code).toBe(200);
    await Promise.all([first.end('SIGINT'), second.end('SIGINT')]);
  });
});
