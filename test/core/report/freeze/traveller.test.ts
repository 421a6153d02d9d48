import { XMLValidator } from 'fast-xml-parser';
import { describe, expect, test } from 'vitest';
import type { FreezePlan } from '../../../../core/freeze/plans.js';
import type { Summary } from '../../../../core/job/summary.js';
import { warn } from '../../../../core/part/finding.js';
import type { View } from '../../../../core/report/format.js';
import { formatConsole } from '../../../../core/report/text-summary.js';
import { formatTraveller } from '../../../../core/report/traveller.js';
import { madeUpPlan } from '../../../helpers/made-up-plan.js';
import { hostileSummary, pictures, planSvgs, summary } from '../fixture.js';

const metric: View = { lengthUnit: 'mm', degrees: 'C' };
const inches: View = { lengthUnit: 'in', degrees: 'F' };
const svgs = {
  section: '<svg xmlns="http://www.w3.org/2000/svg"><title>cut</title></svg>',
  surface: '<svg/>',
};

/** The first part of a summary frozen by a plan, the others not. */
const frozenWith = (plan: FreezePlan, of = summary): Summary => ({
  ...of,
  parts: of.parts.map((p, i) => (i === 0 ? { ...p, freeze: plan } : p)),
});
const first = summary.parts[0]!.name;
const page = (s: Summary, view = metric): string =>
  formatTraveller(s, pictures, planSvgs, view, {}, { [first]: svgs });
const sectionOf = (whole: string): string =>
  /<section class="freeze"[\s\S]*?<\/section>/.exec(whole)?.[0] ?? '';
/** What a reader sees of it. */
const seen = (s: Summary, view = metric): string =>
  sectionOf(page(s, view))
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');

describe('will it fill, will it feed', () => {
  test('absent where nothing was calculated', () => {
    expect(sectionOf(page(summary))).toBe('');
  });

  test('stands before the work begins, well formed, of the part that was calculated alone', () => {
    const whole = page(frozenWith(madeUpPlan()));
    expect(XMLValidator.validate(whole)).toBe(true);
    expect(whole.indexOf('id="overview"')).toBeLessThan(whole.indexOf('id="freeze"'));
    expect(whole.indexOf('id="freeze"')).toBeLessThan(whole.indexOf('id="print"'));
    expect(sectionOf(whole).match(/class="freeze-part"/g)).toHaveLength(1);
    expect(sectionOf(whole)).not.toMatch(/NaN|undefined|Infinity/);
    expect(XMLValidator.validate(page(frozenWith(madeUpPlan(), hostileSummary)))).toBe(true);
  });

  test('its pictures, as given', () => {
    const given = [...sectionOf(page(frozenWith(madeUpPlan()))).matchAll(/svg\+xml;base64,([^"]+)"/g)];
    expect(given.map((m) => atob(m[1]!))).toEqual([svgs.section, svgs.surface]);
  });

  test('numbers in metric: what the plan says', () => {
    const text = seen(frozenWith(madeUpPlan()));
    for (const wanted of [
      'castings full after 1.9 s',
      '× 0.8',
      'under the × 2.0 it should have',
      // 18 + 9 + 6 mm³
      'voids it may leave 33 mm³ in 3 places that freeze cut off',
      'feed metal wanted 1.9 cm³ cup and sprue can give only 1.8 cm³',
      'castings solid after 8 min 55 s',
      'quench not before 20 min, all under 480 °C',
      'hottest 1107 °C at most 1200 °C',
      '11 % of the castings',
      'Poured at 1140 °C into a flask at 537 °C, 1 min after the kiln',
      '162,176 cells of 1.06 mm',
    ])
      expect(text.replaceAll('\u00A0', ' ')).toContain(wanted);
  });

  test('and in inches and °F: 1 mm is 1/25.4 in, 1 °C/mm is 1.8 × 25.4 °F/in', () => {
    const text = seen(frozenWith(madeUpPlan()), inches).replaceAll('\u00A0', ' ');
    expect(text).toContain(`hottest ${(1107 * 1.8 + 32).toFixed(0)} °F`);
    expect(text).toContain(`cells of ${(1.06 / 25.4).toFixed(3)} in`);
    expect(text).toContain(`${(0.25 * 1.8 * 25.4).toFixed(0)} °F/in`);
    expect(text).toContain(`voids it may leave ${(33 / 25.4 ** 3).toFixed(4)} in³`);
    expect(text).not.toMatch(/\d (?:mm|°C|cm³)/);
  });

  test('late places by number, thin ones by letter, the worst first, the rest counted', () => {
    const marks = (late: number, thin: number): string =>
      [...sectionOf(page(frozenWith(madeUpPlan(late, thin)))).matchAll(/class="(?:ring|square)">(\w)</g)]
        .map((m) => m[1])
        .join('');
    expect(marks(3, 2)).toBe('123AB');
    expect(marks(0, 0)).toBe('');
    expect(marks(9, 8)).toBe('1234ABCD');
    expect(seen(frozenWith(madeUpPlan(9, 8)))).toContain('5 lesser places not shown.');
    expect(seen(frozenWith(madeUpPlan(0, 0)))).toContain('No place of the castings freezes so cut off');
  });

  test('it says what it is worth, and sends loaded parts to a trial pour', () => {
    const text = seen(frozenWith(madeUpPlan()));
    expect(text).toContain('a calculation, not a promise');
    expect(text).toMatch(/carries load.*trial pour/);
  });

  test('the metal’s level against time: a line through every reading', () => {
    const chart = /<svg class="chart level-chart"[\s\S]*?<\/svg>/.exec(page(frozenWith(madeUpPlan())))![0];
    expect(/class="line" d="([^"]+)"/.exec(chart)![1]!.split(/[ML]/).filter(Boolean)).toHaveLength(5);
    const still = madeUpPlan();
    expect(page(frozenWith({ ...still, fill: { ...still.fill, history: [] } }))).not.toContain(
      'level-chart"',
    );
  });

  test('its findings stand with the part’s, in the reader’s units', () => {
    const finding = warn('cut-off-at-gate', 'A place 12.7 mm up freezes last.', 'Widen the gate.');
    const whole = page(frozenWith({ ...madeUpPlan(), findings: [finding] }), inches);
    expect(whole).toContain('12.7\u00A0mm (0.5');
    expect(whole).toContain('cut-off-at-gate');
  });
});

describe('console', () => {
  test('a part’s filling and freezing, in 80 columns', () => {
    for (const view of [metric, inches]) {
      const text = formatConsole(frozenWith(madeUpPlan()), view);
      for (const line of text.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
      const told = text.replace(/\s+/g, ' ');
      expect(told).toContain(`Freezing ${first}: full in 1.9 s`);
      expect(told).toContain('0.8 times as long liquid as it needs to fill, too little');
      expect(told).toContain(`may leave voids of ${view === metric ? '33 mm³' : '0.0020 in³'} in all`);
    }
  });

  test('nothing where nothing was calculated', () => {
    expect(formatConsole(summary, metric)).not.toContain('Freezing');
  });
});
