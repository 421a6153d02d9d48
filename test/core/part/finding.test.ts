import { describe, expect, it } from 'vitest';
import { stop, warn } from '../../../core/part/finding.js';
import { roundedDown, roundedUp } from '../../../core/part/rounded.js';

describe('a finding', () => {
  it('is two sentences and the parameters it concerns', () => {
    expect(stop('bore-wide', 'the bore is wide', 'make it narrower', 'bore', 'teeth')).toEqual({
      severity: 'stop',
      code: 'bore-wide',
      message: 'The bore is wide.',
      remedy: 'Make it narrower.',
      parameters: ['bore', 'teeth'],
    });
  });

  it('carries the change that would mend it, where there is one', () => {
    expect(warn('a', 'b', 'c', 'bore', { bore: 18 })).toMatchObject({
      parameters: ['bore'],
      change: { bore: 18 },
    });
    expect(warn('a', 'b', 'c', 'bore', {})).not.toHaveProperty('change');
  });
});

describe('limits in hundredths', () => {
  it('are rounded to their right side', () => {
    expect([roundedUp(2.661), roundedDown(2.669)]).toEqual([2.67, 2.66]);
  });

  it('stay what they are where they are round, crumbs of adding or not', () => {
    expect([roundedUp(0.1 + 0.2), roundedDown(0.36 * 20)]).toEqual([0.3, 7.2]);
  });
});
