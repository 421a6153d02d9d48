import { createServer, type IncomingMessage, type RequestListener, type Server } from 'node:http';
import sirv from 'sirv';

/** This machine alone. */
export const host = '127.0.0.1';

/** What the page may load and from where: itself alone. Its own `meta` says the same where others serve it. */
const contentPolicy = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' blob: data:",
  "connect-src 'self'",
  "frame-src 'self' blob:",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const headers: Readonly<Record<string, string>> = {
  'Content-Security-Policy': contentPolicy,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
};

/** Answers GET and HEAD with the files of a folder and nothing else. */
function answerFrom(folder: string): RequestListener {
  // Looked up at each request, so that the page may be built anew meanwhile.
  const files = sirv(folder, { dev: true, etag: true, extensions: [] });
  return (request, response) => {
    for (const [name, value] of Object.entries(headers)) response.setHeader(name, value);
    const end = (code: number): void => {
      response.writeHead(code, { 'Content-Type': 'text/plain; charset=utf-8' });
      response.end(`${code}\n`);
    };
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      response.setHeader('Allow', 'GET, HEAD');
      return end(405);
    }
    const path = pathOf(request);
    if (path === undefined) return end(400);
    // Nothing of the build begins with a dot.
    if (/(^|[/\\])\./.test(path)) return end(404);
    // Whole files only: they are small, and a range out of order would be an error.
    delete request.headers.range;
    request.url = path.endsWith('/') ? `${path}index.html` : path;
    files(request, response, () => end(404));
  };
}

/** The path that is asked for, without query, its escapes resolved once; undefined where it is none. */
function pathOf({ url = '' }: IncomingMessage): string | undefined {
  if (!url.startsWith('/')) return undefined;
  const path = url.replace(/[?#].*$/s, '');
  try {
    const plain = decodeURIComponent(path);
    return plain.includes('\0') || plain.includes('%') ? undefined : plain;
  } catch {
    return undefined;
  }
}

/**
 * Serves a folder on this machine.
 * @returns the server, once it listens; rejects with the system's error where it cannot
 */
export function servePage(folder: string, port: number): Promise<Server> {
  const server = createServer(answerFrom(folder));
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      server.off('error', reject);
      resolve(server);
    });
  });
}

/** Ends it at once; what is still open is dropped. */
export const endServer = (server: Server): Promise<void> =>
  new Promise((resolve) => {
    server.close(() => resolve());
    server.closeAllConnections();
  });
