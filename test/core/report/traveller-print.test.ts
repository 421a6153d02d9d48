import { describe, expect, test } from 'vitest';
import type { Summary } from '../../../core/job/summary.js';
import { formatTraveller } from '../../../core/report/traveller.js';
import { pictures, planSvgs, summary } from './fixture.js';

/** The words of the step that tells of the plates. */
function printed(changes: Partial<Summary>, lengthUnit: 'mm' | 'in' = 'mm'): string {
  const page = formatTraveller({ ...summary, ...changes } as Summary, pictures, planSvgs, {
    lengthUnit,
    degrees: 'C',
  });
  const start = page.indexOf('id="print"');
  const end = page.indexOf('<section', start);
  const step = page.slice(page.indexOf('>', start) + 1, end < 0 ? undefined : end);
  return step.replaceAll(/<[^>]*>/g, ' ').replaceAll(/[\s\u00A0]+/g, ' ');
}

describe('the plates on the traveller', () => {
  test('a table of plates: patterns, height, plastic, share of the bed', () => {
    const text = printed({});
    expect(text).toContain('plate patterns highest point plastic if solid filled, inside margin');
    expect(text).toMatch(/plate-1 5 89\.4 mm 318 g 41 %/);
    expect(text).toMatch(/plate-2 9 66\.1 mm 181 g 29 %/);
    expect(text).toContain('on a bed 220.0 × 220.0 × 250.0 mm with a margin of 5.0 mm');
    expect(text).not.toMatch(/brim|hatched/);
  });

  test('sorted by alloy: which each is poured in', () => {
    const plates = summary.plates.map((p, i) => ({ ...p, batch: i === 0 ? 'tin-bronze' : 'yellow-brass' }));
    const text = printed({ plates, nesting: { sortBy: 'alloy', seed: 1, rounds: 9 } });
    expect(text).toMatch(/plate-1 Tin bronze C90500 5 /);
    expect(text).toMatch(/poured in Yellow brass C85700/);
  });

  test('sorted by flask, a round bed with zones and a brim, in inches', () => {
    const plates = summary.plates.map((p) => ({ ...p, batch: 'tube-64x102' }));
    const bed = {
      ...summary.bed,
      shape: 'circle',
      width: 254,
      depth: 254,
      height: 304.8,
      brim: 6.35,
      keepOuts: [{ x: 100, y: 0, width: 40, depth: 12 }],
    } as const;
    const text = printed({ plates, bed, nesting: { sortBy: 'flask', seed: 1, rounds: 9 } }, 'in');
    expect(text).toMatch(/on a round bed 10(\.0+)? in across and 12(\.0+)? in high/);
    expect(text).toMatch(/Add a brim of 0\.25 in round each pattern/);
    expect(text).toContain('Patterns keep out of 1 zone of the bed, hatched on the plans');
    expect(text).toContain('for flasks tube-64x102');
  });
});
