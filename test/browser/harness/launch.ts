import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

const finder = join(import.meta.dirname, '../ensure-chromium.js');

/** @throws Error saying what to install, when there is no Chromium */
export function chromiumPath(): string {
  const found = spawnSync(process.execPath, [finder, '--find'], { encoding: 'utf8' });
  if (found.status !== 0) throw new Error(found.stderr);
  return found.stdout.trim();
}

/** A Chromium that reaches this machine alone: every other name is unknown to it. It draws without a graphics card. */
export const launch = (args: readonly string[] = []): Promise<Browser> =>
  chromium.launch({
    executablePath: chromiumPath(),
    args: [
      '--no-sandbox',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--use-angle=swiftshader',
      '--enable-unsafe-swiftshader',
      // Debian's asks for it; without a graphics card it is slow.
      '--disable-gpu-rasterization',
      '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1',
      ...args,
    ],
  });
