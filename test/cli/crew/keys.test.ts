/** What is told apart by the keys of parts and moulds, and what is not. */
import { describe, expect, test } from 'vitest';
import { jobKeys } from '../../../cli/crew/keys.js';
import { termsOf } from '../../../cli/crew/terms.js';
import { mouldAtPour } from '../../../core/job/freeze-mould.js';
import type { Job, JobPart } from '../../../core/job/job.js';
import { makeRequest } from '../../../core/job/make-request.js';
import type { PartSummary, Summary } from '../../../core/job/summary.js';
import { loadKernel } from '../../../core/solid/index.js';
import { findPart } from '../../../generators/index.js';
import { jobOf } from '../../helpers/mesh-jobs.js';

const job = jobOf({ job: 'keys', parts: [{ name: 'knob', part: 'knob', parameters: { size: 20 } }] });
const keys = jobKeys(termsOf(job, undefined), 'program', 'run', findPart);
const request = job.parts[0] as JobPart;

describe('keys of parts', () => {
  test('are one whatever a part is called, and another for the least change of a number', () => {
    const sized = (size: number): JobPart => ({ ...request, parameters: { ...request.parameters, size } });
    expect(keys.ofPart({ ...request, name: 'other', quantity: 7 })).toBe(keys.ofPart(request));
    const sizes = [20, 20 * (1 + Number.EPSILON), 0, -0, Number.NaN, Number.POSITIVE_INFINITY, 5e-324];
    expect(new Set(sizes.map((size) => keys.ofPart(sized(size)))).size).toBe(sizes.length);
  });
});

describe('what of a shop and its bed no part is made of', () => {
  const untouched = <T extends object>(given: T, names: readonly (keyof T)[]): T => {
    const copy = { ...given };
    for (const name of names)
      Object.defineProperty(copy, name, {
        enumerable: true,
        get: () => {
          throw new Error(`${String(name)} was read`);
        },
      });
    return copy;
  };
  const changed: Job = {
    ...job,
    shop: {
      ...job.shop,
      title: 'Another',
      scale: 5,
      mixing: { ...job.shop.mixing, waterRatio: 0.5 },
      kiln: { ...job.shop.kiln, topTemperature: 900 },
      crucibles: [],
    },
    bed: { ...job.bed, gap: 9, brim: 4, keepOuts: [{ x: 0, y: 0, diameter: 20 }] },
  };
  const keyIn = (other: Job): string =>
    jobKeys(termsOf(other, undefined), 'program', 'run', findPart).ofPart(request);

  test('does not change its key, the rest does', () => {
    expect(keyIn(changed)).toBe(keys.ofPart(request));
    expect(keyIn({ ...job, bed: { ...job.bed, width: 100 } })).not.toBe(keys.ofPart(request));
    expect(keyIn({ ...job, shop: { ...job.shop, printShrinkage: 0.01 } })).not.toBe(keys.ofPart(request));
  });

  test('is not read while a part, several on a tree and a tree of kinds are made', async () => {
    const kernel = await loadKernel();
    const shop = untouched(changed.shop, ['title', 'scale', 'mixing', 'kiln', 'crucibles', 'furnace']);
    const bed = untouched(job.bed, ['gap', 'brim', 'keepOuts']);
    const many = jobOf({
      job: 'many',
      tolerance: '0.2mm',
      parts: [
        { name: 'one', part: 'knob', parameters: { size: 20 } },
        { name: 'two', part: 'knob', quantity: 2, patternsPerTree: 2, parameters: { size: 20 } },
        {
          name: 'kinds',
          tree: [
            { part: 'knob', parameters: { size: 20 } },
            { part: 'deck-eye', parameters: { line: 8 } },
          ],
        },
      ],
    });
    for (const one of many.parts)
      expect(makeRequest(one, findPart, { ...many, shop, bed }, kernel)).toMatchObject({ ok: true });
  });
});

describe('keys of moulds', () => {
  const told = { flask: { name: 'a flask' }, alloy: 'tin-bronze' } as unknown as PartSummary;
  const pour = {
    alloy: 'tin-bronze',
    metalTemperature: 1100,
    flaskTemperature: 500,
    order: ['knob'],
    findings: [],
  } as unknown as Summary['pour'][number];
  const keyAt = (other: Partial<typeof pour>): string =>
    keys.ofMould('a part', mouldAtPour(told, [{ ...pour, ...other }]));

  test('do not hold what else is poured of the alloy, but how hot it is', () => {
    expect(keyAt({ order: ['knob', 'another'] })).toBe(keyAt({}));
    expect(keyAt({ flaskTemperature: 501 })).not.toBe(keyAt({}));
    expect(keyAt({ carry: { leaves: 600, seconds: 20 } })).not.toBe(keyAt({}));
  });
});
