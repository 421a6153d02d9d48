import { XMLValidator } from 'fast-xml-parser';
import { describe, expect, test } from 'vitest';
import { burnoutChart, burnoutCurve } from '../../../core/report/burnout-chart.js';
import { createFormat } from '../../../core/report/format.js';
import { summary } from './fixture.js';

const plan = summary.burnout;
const c = createFormat({ lengthUnit: 'mm', degrees: 'C' });

describe('burnout curve', () => {
  test('worked by hand: 20 to 150 at 60 °C/h is 2 h 10 min, then 3 h, and so on', () => {
    const hours = burnoutCurve(plan).map(([t, temperature]) => [Math.round(t / 60) / 60, temperature]);
    const expected = [
      [0, 20],
      [130 / 60, 150],
      [310 / 60, 150],
      [442 / 60, 370],
      [562 / 60, 370],
      [742 / 60, 730],
      [982 / 60, 730],
      [1096 / 60, 540],
      [1186 / 60, 540],
    ];
    expect(hours).toEqual(expected);
  });

  test('ends at the plan’s total', () => {
    expect(burnoutCurve(plan).at(-1)?.[0]).toBeCloseTo(plan.total, 6);
  });
});

describe('burnout chart', () => {
  /** The drawn points back in hours and degrees, from the first and last grid labels. */
  const drawn = (svg: string): [number, number][] => {
    const path = /class="line" d="([^"]+)"/.exec(svg)![1]!;
    const points = path
      .split(/[ML]/)
      .slice(1)
      .map((p) => p.split(' ').map(Number) as [number, number]);
    const ticks = [...svg.matchAll(/class="tick" x="([\d.]+)" y="([\d.]+)" text-anchor="(\w+)">([\d.]+)</g)];
    const across = ticks.filter((t) => t[3] === 'middle').map((t) => [Number(t[1]), Number(t[4])] as const);
    const up = ticks.filter((t) => t[3] === 'end').map((t) => [Number(t[2]) - 4, Number(t[4])] as const);
    const back = (axis: (readonly [number, number])[], at: number): number => {
      const [a, b] = [axis[0]!, axis.at(-1)!];
      return a[1] + ((at - a[0]) * (b[1] - a[1])) / (b[0] - a[0]);
    };
    return points.map(([x, y]) => [back(across, x), back(up, y)]);
  };

  test.each([
    ['C', (t: number) => t],
    ['F', (t: number) => t * 1.8 + 32],
  ] as const)('the line read off its own axes is the programme, °%s', (degrees, scale) => {
    const svg = burnoutChart(plan, createFormat({ lengthUnit: 'mm', degrees })).text;
    const points = drawn(svg);
    const curve = burnoutCurve(plan);
    expect(points).toHaveLength(curve.length);
    curve.forEach(([t, temperature], i) => {
      expect(points[i]![0]).toBeCloseTo(t / 3600, 1);
      expect(Math.abs(points[i]![1] - scale(temperature))).toBeLessThan(scale(730) / 400);
    });
    expect(svg).toContain(`>°${degrees}</text>`);
  });

  test('well formed, soak levels and segment numbers written', () => {
    const svg = burnoutChart(plan, c).text;
    expect(XMLValidator.validate(svg)).toBe(true);
    for (const label of ['150 °C', '370 °C', '730 °C', '540 °C']) expect(svg).toContain(`>${label}</text>`);
    expect(svg.match(/class="number"/g)).toHaveLength(plan.segments.length);
  });

  test('levels side by side: the same once, others so that no two meet', () => {
    const hold = (to: number, ramp: number, soak: number) => ({
      purpose: '',
      from: to,
      to,
      rate: 100,
      ramp,
      soak,
    });
    const segments = [hold(870, 14_000, 900), hold(870, 0, 2700), hold(900, 480, 900), hold(505, 7000, 1800)];
    const svg = burnoutChart({ ...plan, segments }, c).text;
    const levels = [...svg.matchAll(/class="level" x="([\d.]+)" y="([\d.]+)"[^>]*>([^<]+)</g)].map(
      ([, x, y, text]) => ({ x: Number(x), y: Number(y), text }),
    );
    expect(levels.map((l) => l.text)).toEqual(['870 °C', '900 °C', '505 °C']);
    // 12.5 px letters: six of them are under 50 px wide.
    levels.forEach((a, i) => {
      for (const b of levels.slice(i + 1))
        expect(Math.abs(a.x - b.x) > 50 || Math.abs(a.y - b.y) > 13, `${a.text} and ${b.text}`).toBe(true);
      expect(a.y).toBeGreaterThan(12);
    });
  });

  test('an empty programme still gives axes and no broken number', () => {
    const svg = burnoutChart({ ...plan, segments: [] }, c).text;
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
    expect(XMLValidator.validate(svg)).toBe(true);
  });
});
