import { existsSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import sirv from 'sirv';
import { projectFolder } from '../../cli/helpers/built.js';

export const builtPage = join(projectFolder, 'dist/page');

export interface PageServer {
  /** Of the page, with the path that it stands under: `http://127.0.0.1:1234/some/where/`. */
  readonly address: string;
  /** What was asked for and is not there. */
  readonly missing: readonly string[];
  close(): Promise<void>;
}

/**
 * Serves the built page under a path, as any host of static files would.
 * @throws Error when it is not built
 */
export async function servePage(under = '/'): Promise<PageServer> {
  if (!existsSync(join(builtPage, 'index.html')))
    throw new Error(`${builtPage} is not there: npm run gallery builds it`);
  const files = sirv(builtPage, { etag: true });
  const missing: string[] = [];
  const server = createServer((request, answer) => {
    const asked = request.url ?? '/';
    const gone = (): void => {
      missing.push(asked);
      answer.writeHead(404).end();
    };
    if (!asked.startsWith(under)) return gone();
    request.url = `/${asked.slice(under.length)}`;
    files(request, answer, gone);
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as AddressInfo;
  return {
    address: `http://127.0.0.1:${port}${under}`,
    missing,
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}
