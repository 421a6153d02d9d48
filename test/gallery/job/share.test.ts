import { deflateRawSync, inflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { linkFragment, longestJob, readLink } from '../../../gallery/page/job/share.js';

const fragmentOf = (bytes: Uint8Array): string => `#job=${Buffer.from(bytes).toString('base64url')}`;

describe('a link', () => {
  test('holds any text', () => {
    fc.assert(
      fc.property(fc.string({ minLength: 1, maxLength: 3000, unit: 'grapheme' }), (text) => {
        expect(readLink(linkFragment(text))).toEqual({ ok: true, text });
      }),
    );
  });

  test('is RFC 1951 in RFC 4648 base64url, as Node’s zlib has them', () => {
    const text = 'job: größe\n'.repeat(40);
    const content = Buffer.from(linkFragment(text).slice('#job='.length), 'base64url');
    expect(inflateRawSync(content).toString('utf8')).toBe(text);
    expect(readLink(fragmentOf(deflateRawSync(Buffer.from(text))))).toEqual({ ok: true, text });
  });

  test('other fragments hold no job', () => {
    for (const fragment of ['', '#', '#bench', '#wall', '#jobs=a', 'job=a'])
      expect(readLink(fragment)).toBeUndefined();
  });
});

describe('a link that was spoilt', () => {
  const whole = linkFragment('job: a\nparts: []\n'.repeat(30));

  test('cut anywhere it is told, not half read', () => {
    for (let length = '#job='.length; length < whole.length - 1; length++) {
      const reading = readLink(whole.slice(0, length));
      expect(reading, `cut at ${length}`).toMatchObject({ ok: false });
    }
  });

  test('any letters are read or told, never thrown', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 200 }), (text) => {
        expect(() => readLink(`#job=${text}`)).not.toThrow();
      }),
    );
  });

  test('a few letters that unfold to a gigabyte stop at the longest job', () => {
    const bomb = deflateRawSync(Buffer.alloc(200 * longestJob, 0x61), { level: 9 });
    const before = process.memoryUsage().arrayBuffers;
    const reading = readLink(fragmentOf(bomb));
    expect(reading).toMatchObject({ ok: false, message: expect.stringContaining('256 kB') });
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(30 * longestJob);
  });
});
