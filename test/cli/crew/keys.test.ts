/** What is told apart by the keys of parts and moulds, and what is not. */
import { describe, expect, test } from 'vitest';
import { jobKeys } from '../../../cli/crew/keys.js';
import { termsOf } from '../../../cli/crew/terms.js';
import { mouldAtPour } from '../../../core/job/freeze-mould.js';
import type { JobPart } from '../../../core/job/job.js';
import type { PartSummary, Summary } from '../../../core/job/summary.js';
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
