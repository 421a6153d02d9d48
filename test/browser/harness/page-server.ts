import { existsSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import sirv from 'sirv';
import { servePage as serveByCommand } from '../../../cli/gallery/serve-page.js';
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
  checkBuilt();
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
  return { address: `${originOf(server)}${under}`, missing, close: () => end(server) };
}

/** Serves it at the root, as `patternwright gallery` does. */
export async function servePageAsTheCommandDoes(): Promise<PageServer> {
  checkBuilt();
  const server = await serveByCommand(builtPage, 0);
  return { address: `${originOf(server)}/`, missing: [], close: () => end(server) };
}

function checkBuilt(): void {
  if (!existsSync(join(builtPage, 'index.html')))
    throw new Error(`${builtPage} is not there: npm run gallery builds it`);
}

const originOf = (server: Server): string => `http://127.0.0.1:${(server.address() as AddressInfo).port}`;

const end = (server: Server): Promise<void> =>
  new Promise((done) => {
    server.close(() => done());
    server.closeAllConnections();
  });
