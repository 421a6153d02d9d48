import { readFileSync } from 'node:fs';

/** Of the package, which stands above both the sources and `dist`. */
function readVersion(): string {
  for (const up of ['../package.json', '../../package.json']) {
    try {
      const facts = JSON.parse(readFileSync(new URL(up, import.meta.url), 'utf8')) as {
        name?: string;
        version?: string;
      };
      if (facts.name === 'patternwright' && facts.version) return facts.version;
    } catch {
      // Look further up.
    }
  }
  return 'unknown';
}

export const version = readVersion();
