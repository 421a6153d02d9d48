import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Summary } from '../../../core/job/summary.js';
import { formatConsole } from '../../../core/report/text-summary.js';
import { hostileSummary, summary } from './fixture.js';

const lines = (s: Summary, lengthUnit: 'mm' | 'in', degrees: 'C' | 'F'): string[] =>
  formatConsole(s, { lengthUnit, degrees }).split('\n');

describe.each([
  ['mm', 'C'],
  ['in', 'F'],
] as const)('console text, %s °%s', (unit, degrees) => {
  test('keeps to 80 columns and ends with one line break', () => {
    for (const s of [summary, hostileSummary]) {
      const text = lines(s, unit, degrees);
      for (const line of text) expect([...line].length, line).toBeLessThanOrEqual(80);
      expect(text.at(-1)).toBe('');
      expect(text.at(-2)).not.toBe('');
    }
  });
});

/** g of an alloy by name, worked here: castings with gating, a reserve, and what melts away. */
const charge = (alloy: string): number => {
  const inMoulds = summary.parts
    .filter((p) => p.alloy === alloy)
    .reduce((g, p) => g + p.quantity * p.mass.charge, 0);
  return (inMoulds * 1.08) / (1 - (alloy === 'tin-bronze' ? 0.02 : 0.04));
};
const poundsAndOunces = (g: number): string =>
  `${Math.floor(g / 453.59237)} lb ${((g % 453.59237) / 28.349523125).toFixed(1)} oz`;
const total = (of: (p: Summary['parts'][number]) => number): string =>
  summary.parts.reduce((sum, p) => sum + p.quantity * of(p), 0).toFixed(0);

test('metric: the numbers of the run', () => {
  const text = formatConsole(summary, { lengthUnit: 'mm', degrees: 'C' });
  const flat = text.replace(/\n {2,}/g, ' ');
  for (const wanted of [
    /laying-wheel +1 {2}tin-bronze +92\.3 × 92\.3 × 30\.0 +944 g/,
    /pull-small +7 {2}yellow-brass +31\.0 × 18\.6 × 8\.5 +147 g/,
    /plate-1 +5 patterns, 41 % of the bed inside its margin, 89\.4 mm high, 318 g\s+plastic if solid;\s+plates\/plate-1\.3mf, plates\/plate-1\.stl/,
    `Tin bronze C90500: weigh out ${charge('tin-bronze').toFixed(0)} g (${poundsAndOunces(charge('tin-bronze'))}), pour at 1150 °C`,
    `Yellow brass C85700: weigh out ${charge('yellow-brass').toFixed(0)} g (${poundsAndOunces(charge('yellow-brass'))}), pour at 1080 °C`,
    `Investment  ${total((p) => p.flask!.weigh.powder)} g powder, ${total((p) => p.flask!.weigh.water)} g water for 14 flasks; working time 9 min`,
    /Burnout +19 h 46 min, hottest 730 °C, flasks at 540 °C/,
    /Findings +1 stop, 4 warnings, 2 notes/,
    /stop +laying-wheel: The web of laying-wheel is 1\.10 mm thick/,
    /Take care: /,
    /Computed advice, not a guarantee:\s+makers' datasheets,\s+local codes/,
  ])
    if (typeof wanted === 'string') expect(flat).toContain(wanted);
    else expect(text).toMatch(wanted);
  expect(text.indexOf('stop  ')).toBeLessThan(text.indexOf('warn  '));
});

test('inches and °F', () => {
  const text = formatConsole(summary, { lengthUnit: 'in', degrees: 'F' });
  expect(text).toMatch(/laying-wheel +1 {2}tin-bronze +3\.63 × 3\.63 × 1\.18 +2 lb 1\.3 oz/);
  expect(text).toContain(`weigh out ${poundsAndOunces(charge('tin-bronze'))} (`);
  expect(text).toContain('pour at 2102 °F');
  expect(text).toMatch(/hottest 1346 °F, flasks at 1004 °F/);
});

test('a line never breaks between a number and its unit', () => {
  expect(formatConsole(summary, { lengthUnit: 'mm', degrees: 'C' })).not.toMatch(
    /\d\n +(°|(g|mm|min|h|lb|oz)\b)/,
  );
});

test('nothing a terminal would obey', () => {
  const text = formatConsole(hostileSummary, { lengthUnit: 'mm', degrees: 'C' });
  expect(text.replaceAll('\n', '')).not.toMatch(/\p{Cc}|\p{Cs}|\p{Bidi_Control}/u);
});

test('of very many parts a screenful is told, and where the rest is', () => {
  const [first] = summary.parts;
  const many: Summary = {
    ...summary,
    parts: Array.from({ length: 10_000 }, (_, i) => ({ ...first!, name: `wheel-${i}` })),
    plates: Array.from({ length: 900 }, (_, i) => ({ ...summary.plates[0]!, name: `plate-${i + 1}` })),
  };
  const text = lines(many, 'mm', 'C');
  expect(text.length).toBeLessThan(400);
  expect(text).toContain('  and 9940 more, in the traveller');
  expect(text.join('\n')).toContain('and 840 more plates, in the traveller');
  // What they all have is one line, with how many.
  expect(text.join(' ')).toMatch(/stop +wheel-0, wheel-1, wheel-2 and 9997 more: The web of laying-wheel/);
});

test('no findings, no cautions', () => {
  const quiet: Summary = {
    ...summary,
    parts: [summary.parts[4]!],
    findings: [],
    cautions: [],
    pour: [],
    burnout: { ...summary.burnout, findings: [] },
  };
  const text = formatConsole(quiet, { lengthUnit: 'mm', degrees: 'C' });
  expect(text).toContain('Findings    none');
  expect(text).not.toContain('Take care');
});

test('any names and titles: 80 columns and no control characters, seed 11', () => {
  const word = fc.string({ unit: 'grapheme', maxLength: 120 });
  fc.assert(
    fc.property(word, word, word, (title, part, message) => {
      const s: Summary = {
        ...summary,
        job: { ...summary.job, title },
        parts: summary.parts.map((p) => ({ ...p, name: part, alloy: part })),
        findings: [{ severity: 'warn', code: 'x', message, remedy: title }],
      };
      for (const line of lines(s, 'in', 'F')) {
        expect([...line].length).toBeLessThanOrEqual(80);
        expect(line).not.toMatch(/\p{Cc}/u);
      }
    }),
    { seed: 11, numRuns: 200 },
  );
});
