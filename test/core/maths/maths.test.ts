/** Functions that are the same on every machine: right, and used everywhere. */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { maths } from '../../../core/maths/maths.js';

const core = join(import.meta.dirname, '../../../core');

/** Units in the last place between two numbers. */
function ulps(a: number, b: number): number {
  if (Object.is(a, b) || a === b) return 0;
  const order = (v: number): bigint => {
    const bits = new BigInt64Array(new Float64Array([v]).buffer)[0] as bigint;
    return bits < 0n ? -(bits & 0x7fff_ffff_ffff_ffffn) : bits;
  };
  const apart = order(a) - order(b);
  return Number(apart < 0n ? -apart : apart);
}

const angle = fc.double({ min: -1e4, max: 1e4, noNaN: true });
const share = fc.double({ min: -1, max: 1, noNaN: true });
const positive = fc.double({ min: 1e-12, max: 1e12, noNaN: true });

describe('against the engine’s own, which errs by a unit or two itself', () => {
  test.each([
    ['sin', angle],
    ['cos', angle],
    ['tan', angle],
    ['asin', share],
    ['acos', share],
    ['atan', angle],
    ['exp', fc.double({ min: -300, max: 300, noNaN: true })],
    ['log', positive],
    ['log2', positive],
    ['log10', positive],
    ['cbrt', angle],
    ['atanh', fc.double({ min: -0.999, max: 0.999, noNaN: true })],
  ] as const)('%s', (name, values) => {
    fc.assert(
      fc.property(values, (x) => {
        expect(ulps(maths[name](x), Math[name](x))).toBeLessThanOrEqual(name === 'atanh' ? 4 : 2);
      }),
      { numRuns: 3000 },
    );
  });

  test('atan2, pow, hypot', () => {
    fc.assert(
      fc.property(angle, angle, positive, (x, y, p) => {
        expect(ulps(maths.atan2(y, x), Math.atan2(y, x))).toBeLessThanOrEqual(2);
        const power = Math.abs(x) / 1e4;
        expect(ulps(maths.pow(p, power), p ** power)).toBeLessThanOrEqual(2);
        if (Math.abs(x) > 1e-100)
          expect(ulps(maths.hypot(x, y, p), Math.hypot(x, y, p))).toBeLessThanOrEqual(3);
      }),
      { numRuns: 3000 },
    );
  });
});

test('whole powers that a double holds are exact', () => {
  for (let n = 0; n <= 22; n++) expect(maths.pow(10, n)).toBe(Number(10n ** BigInt(n)));
  for (let n = -60; n <= 60; n++) expect(maths.pow(2, n)).toBe(2 ** n);
});

test('edges as ECMA-262 has them', () => {
  expect(maths.sin(-0)).toBe(-0);
  expect(maths.cos(0)).toBe(1);
  expect(maths.atan2(0, -1)).toBe(Math.PI);
  expect(maths.atan2(-0, -1)).toBe(-Math.PI);
  expect(maths.log(0)).toBe(Number.NEGATIVE_INFINITY);
  expect(maths.acos(1.0000000000000002)).toBeNaN();
  expect(maths.pow(0, 0)).toBe(1);
  expect(maths.sin(Number.POSITIVE_INFINITY)).toBeNaN();
  expect(maths.hypot()).toBe(0);
});

test('a thousand values of each have the bits they have on every machine', () => {
  let hash = 0xcbf29ce484222325n;
  const add = (v: number): void => {
    const bits = new BigUint64Array(new Float64Array([v]).buffer)[0] as bigint;
    hash = BigInt.asUintN(64, (hash ^ bits) * 0x100000001b3n);
  };
  for (let i = 1; i <= 1000; i++) {
    const x = i / 7;
    for (const f of [
      maths.sin,
      maths.cos,
      maths.tan,
      maths.atan,
      maths.log,
      maths.log2,
      maths.log10,
      maths.cbrt,
    ])
      add(f(x));
    for (const f of [maths.asin, maths.acos, maths.atanh]) add(f(i / 1001));
    add(maths.exp(x / 10));
    add(maths.pow(x, i / 300));
    add(maths.atan2(x, i - 500));
    add(maths.hypot(x, i, 3));
  }
  // FNV-1a; a fingerprint of the compiled module, made by it.
  expect(hash.toString(16)).toBe('894434d49d80d1cc');
});

test('the bytes kept are what the source gives', () => {
  const made = execFileSync(process.execPath, [join(core, 'maths/compile.js'), '--print'], {
    encoding: 'utf8',
  });
  expect(readFileSync(join(core, 'maths/bytes.ts'), 'utf8')).toBe(made);
});

test('nothing that is made leans on an engine’s own functions', () => {
  const left = /\bMath\.(a?sinh?|a?cosh?|a?tanh?|atan2|exp|expm1|log|log1p|log2|log10|cbrt|pow|hypot)\b/;
  const power = /(?<![/*])\*\*(?!\s*2\b(?!\.))/;
  const found: string[] = [];
  for (const top of [core, join(core, '../generators')])
    for (const file of readdirSync(top, { recursive: true, encoding: 'utf8' })) {
      if (!file.endsWith('.ts') || file.includes('assembly')) continue;
      const text = readFileSync(join(top, file), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*|'[^'\n]*'/g, '');
      for (const line of text.split('\n')) {
        // Powers of two are exact everywhere.
        if (left.test(line) || power.test(line.replace(/\b2 \*\* \d+/g, '')))
          found.push(`${file}: ${line.trim()}`);
      }
    }
  expect(found).toEqual([]);
});
