import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bedFields, keepOutFields, nestingFields } from '../../../core/job/bed-schema.js';
import { gatingFields } from '../../../core/job/gating-schema.js';
import {
  correctionFields,
  flaskFields,
  growthFields,
  partFields,
  priceFields,
  settingsFields,
  stockFields,
} from '../../../core/job/job-schema.js';
import { type Field, listSchemaFields } from '../../../core/part/field-list.js';
import { toShown } from '../../../core/part/field-text.js';
import type { FieldInfo } from '../../../core/part/fields.js';
import { rawOfShown, rawOfValue } from '../../../core/part/raw-value.js';
import { readFieldValue } from '../../../core/part/read-field.js';
import { nearestStop, outgrown, sliderScale, stepValue } from '../../../core/part/slider-scale.js';
import type { LengthUnit } from '../../../core/units/index.js';
import { parts } from '../../../generators/index.js';

const schemas = [
  ...parts.map((part) => part.parameters),
  settingsFields,
  growthFields,
  stockFields,
  bedFields,
  keepOutFields,
  nestingFields,
  correctionFields,
  flaskFields,
  priceFields,
  partFields,
  gatingFields,
];
const ranged: readonly (readonly [string, Field])[] = schemas.flatMap((schema, k) =>
  listSchemaFields(schema)
    .filter(({ info }) => info.min !== undefined && info.max !== undefined)
    .map((field) => [`${parts[k]?.name ?? 'job'} ${field.name}`, field] as const),
);
const units: readonly LengthUnit[] = ['mm', 'in'];

const lengthOf = (min: number, max: number): FieldInfo => ({ kind: 'length', help: '', group: '', min, max });

describe('the stops of a slider', () => {
  it('are even and round over a narrow range', () => {
    const scale = sliderScale(lengthOf(10, 60), 'mm', 20)!;
    expect(scale.stops.slice(0, 3)).toEqual([10, 10.5, 11]);
    expect(scale.stops.at(-1)).toBe(60);
  });

  it('grow with the value over a wide one', () => {
    const scale = sliderScale(lengthOf(1, 50), 'mm', undefined)!;
    const steps = scale.stops.slice(1).map((stop, k) => Number((stop - scale.stops[k]!).toFixed(9)));
    expect(steps[0]).toBe(0.02);
    expect(steps.at(-1)).toBe(1);
    expect([...steps].sort((a, b) => a - b)).toEqual(steps);
  });

  it('show a window about the value over a very wide one', () => {
    const scale = sliderScale(lengthOf(0.3, 500), 'mm', 20)!;
    expect([scale.low, scale.high, scale.moreBelow, scale.moreAbove]).toEqual([5, 80, true, true]);
    expect(scale.stops[0]).toBe(5);
    expect(outgrown(scale, 20)).toBe(false);
    expect(outgrown(scale, 79)).toBe(true);
    expect(outgrown(scale, 5)).toBe(true);
  });

  it('are halvings of the inch in inches', () => {
    const scale = sliderScale(lengthOf(25.4, 76.2), 'in', 30)!;
    expect(scale.stops.slice(0, 3)).toEqual([1, 1 + 1 / 64, 1 + 1 / 32]);
    expect(rawOfShown(lengthOf(25.4, 76.2), 1.5, 'in')).toBe('1-1/2in');
  });

  it('are whole for counts', () => {
    const info: FieldInfo = { kind: 'count', help: '', group: '', min: 6, max: 200 };
    const { stops } = sliderScale(info, 'mm', 24)!;
    expect(stops).toEqual(Array.from({ length: 91 }, (_, k) => k + 6));
  });

  it.each(ranged)('of %s all read back as legal values, about any value', (_, field) => {
    const { min, max } = field.info as Required<FieldInfo>;
    fc.assert(
      fc.property(
        fc.constantFrom(...units),
        fc.option(fc.double({ min, max, noNaN: true }), { nil: undefined }),
        (unit, anchor) => {
          const scale = sliderScale(field.info, unit, anchor);
          if (scale === undefined) {
            // A price from nothing to a million, say, of which nothing is known yet.
            expect(anchor === undefined && min === 0 && max > 1000).toBe(true);
            return;
          }
          expect(scale.stops.length).toBeLessThan(600);
          scale.stops.forEach((stop, k) => {
            if (k > 0 && stop <= scale.stops[k - 1]!) throw new Error(`${stop} is not above its neighbour`);
            const reading = readFieldValue(field, rawOfShown(field.info, stop, unit), unit);
            if (!reading.ok) throw new Error(`${stop}: ${reading.problem.message}`);
            const back = toShown(field.info, reading.value as number, unit);
            if (nearestStop(scale, back) !== k) throw new Error(`${stop} reads back as ${back}`);
          });
          // Its own value lies within what it spans.
          if (anchor !== undefined) {
            const shown = toShown(field.info, anchor, unit);
            expect(shown).toBeGreaterThanOrEqual(scale.low);
            expect(shown).toBeLessThanOrEqual(scale.high);
          }
        },
      ),
      { numRuns: 12, seed: 7 },
    );
  });
});

describe('a step up or down', () => {
  it('goes to the next round value', () => {
    const info = lengthOf(0.5, 300);
    expect(stepValue(info, 12.3, 1, 1, 'mm')).toBe(12.4);
    expect(stepValue(info, 12.3, -1, 1, 'mm')).toBe(12.2);
    expect(stepValue(info, 24, 1, 10, 'mm')).toBe(29);
    expect(stepValue(info, 0.5, -1, 1, 'mm')).toBeGreaterThanOrEqual(0.5);
  });

  it.each(ranged)('of %s stays legal and moves unless at an end', (_, field) => {
    const { min, max } = field.info as Required<FieldInfo>;
    fc.assert(
      fc.property(
        fc.constantFrom(...units),
        field.info.kind === 'count' ? fc.integer({ min, max }) : fc.double({ min, max, noNaN: true }),
        fc.constantFrom(1 as const, -1 as const),
        fc.constantFrom(1, 10),
        (unit, value, direction, by) => {
          const shown = toShown(field.info, value, unit);
          const next = stepValue(field.info, shown, direction, by, unit);
          const reading = readFieldValue(field, rawOfShown(field.info, next, unit), unit);
          expect(reading.ok).toBe(true);
        },
      ),
      { numRuns: 40, seed: 7 },
    );
  });
});

describe('a stored value written for a job', () => {
  it.each(ranged)('of %s reads back as it was', (_, field) => {
    const { min, max } = field.info as Required<FieldInfo>;
    fc.assert(
      fc.property(
        fc.constantFrom(...units),
        field.info.kind === 'count' ? fc.integer({ min, max }) : fc.double({ min, max, noNaN: true }),
        (unit, value) => {
          const reading = readFieldValue(field, rawOfValue(field.info, value, unit), unit);
          if (!reading.ok) throw new Error(reading.problem.message);
          const off = Math.abs((reading.value as number) - value);
          expect(off).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(value)));
        },
      ),
      { numRuns: 40, seed: 7 },
    );
  });
});
