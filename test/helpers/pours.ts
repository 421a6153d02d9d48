import fc from 'fast-check';
import { faults, type MeasuredSize, type PourRecord } from '../../core/log/record.js';

/** Standard normal, by Box and Muller. */
export const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

const nasty = [
  '"',
  "'",
  ',',
  ';',
  '=',
  '+',
  '-',
  '@',
  '\t',
  '\n',
  '＝',
  'é',
  '💧',
  ' ',
  '\u2028',
  'a',
  '1',
  '\\',
  '|',
];
const unit = fc.oneof(fc.constantFrom(...nasty), fc.string({ minLength: 1, maxLength: 1, unit: 'grapheme' }));

const isLine = (text: string): boolean =>
  text !== '' && text === text.trim() && text.length <= 200 && !/[\p{Cc}\p{Cs}]/u.test(text);
const line = fc
  .array(unit, { minLength: 1, maxLength: 12 })
  .map((c) => c.join(''))
  .filter(isLine);
const notes = fc
  .array(unit, { maxLength: 30 })
  .map((c) => c.join(''))
  .filter((text) => !/[\p{Cc}\p{Cs}]/u.test(text.replace(/[\n\t]/g, '')));
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map((x) => x + 0);

const withoutAbsent = <T extends object>(o: T): T =>
  Object.fromEntries(Object.entries(o).filter(([, v]) => v !== undefined)) as T;
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });

const size = fc
  .record({
    name: line,
    axis: fc.constantFrom('xy' as const, 'z' as const),
    nominal: maybe(between(0.1, 5000)),
    pattern: maybe(between(0.1, 5000)),
    casting: maybe(between(0.1, 5000)),
    removed: maybe(between(-20, 20)),
  })
  .filter((s) => s.nominal !== undefined || s.pattern !== undefined || s.casting !== undefined)
  .map((s) => withoutAbsent(s) as MeasuredSize);

/** Every legal record: hostile text, all numbers, settings or none. */
export const anyPour: fc.Arbitrary<PourRecord> = fc
  .record({
    id: fc.uuid(),
    date: fc
      .date({ min: new Date('1990-01-01'), max: new Date('2090-12-31'), noInvalidDate: true })
      .map((d) => d.toISOString().slice(0, 10)),
    job: maybe(line),
    part: maybe(line),
    flask: maybe(line),
    alloy: line,
    investment: line,
    settings: fc
      .record({
        metalTemperature: maybe(between(100, 2500)),
        flaskTemperature: maybe(between(0, 1500)),
        burnoutHold: maybe(fc.integer({ min: 0, max: 604_800 })),
        growth: maybe(between(1, 1.1)),
        plastic: maybe(line),
        printerCorrection: maybe(fc.record({ xy: between(0.8, 1.25), z: between(0.8, 1.25) })),
      })
      .map(withoutAbsent),
    sizes: fc.array(size, { maxLength: 4 }),
    faults: fc.subarray([...faults]),
    notes,
  })
  .map((r) => withoutAbsent(r) as PourRecord);
