import { createHash } from 'node:crypto';
import type { KeptFile } from '../../../cli/store/entry.js';
import { keyOf } from '../../../cli/store/key.js';
import type { StoredPart } from '../../../cli/store/store.js';

/** What is kept under the n-th key: the same each time, as what a program makes is. */
export interface Sample {
  readonly key: string;
  readonly record: { readonly n: number; readonly words: string };
  readonly files: readonly KeptFile[];
}

export function sample(n: number, length = 3000): Sample {
  const bytes = (name: string, size: number): KeptFile => {
    const seed = createHash('sha256').update(`${n} ${name}`).digest();
    return { name, bytes: Uint8Array.from({ length: size }, (_, i) => seed[i % 32]! ^ (i >> 5)) };
  };
  return {
    key: keyOf({ n }),
    record: { n, words: 'Ø "6"\n'.repeat(1 + (n % 7)) },
    files: [bytes('part.stl', length + n), bytes('empty', 0), bytes('preview.png', 100)],
  };
}

/** Reads all of a stored part; throws where anything in it is wrong. */
export async function checkStored(stored: StoredPart, { record, files }: Sample): Promise<void> {
  if (JSON.stringify(stored.record) !== JSON.stringify(record)) throw new Error('a wrong record');
  for (const { name, bytes } of files) {
    if (!Buffer.from(await stored.read(name)).equals(bytes)) throw new Error(`a wrong ${name}`);
  }
}
