import type { BurnoutPlan } from '../foundry/plans.js';
import type { Format } from './format.js';
import { type Html, html } from './html.js';

const width = 720;
const height = 270;
const left = 52;
const right = 14;
const top = 26;
const bottom = 40;
/** Room a temperature beside the line takes. */
const levelWidth = 56;
const levelHeight = 14;

const round = (n: number): number => Math.round(n * 10) / 10;

/** The least of 1, 2, 5 × 10ⁿ (or of `steps`) that divides `span` into at most `most` pieces. */
const niceStep = (span: number, most: number, steps: readonly number[]): number =>
  steps.find((s) => span / s <= most) ?? steps.at(-1) ?? 1;

/** Corner points of a programme: seconds from the start, °C. */
export function burnoutCurve(plan: BurnoutPlan): readonly (readonly [number, number])[] {
  const points: [number, number][] = [];
  let time = 0;
  for (const s of plan.segments) {
    points.push([time, s.from]);
    time += s.ramp;
    points.push([time, s.to]);
    time += s.soak;
    points.push([time, s.to]);
  }
  return points.filter(([t, c], i) => i === 0 || t !== points[i - 1]?.[0] || c !== points[i - 1]?.[1]);
}

/**
 * Kiln temperature against time as an inline SVG, black lines only, axes in hours and the reader's degrees.
 * Figures in circles are the segments' numbers, set on their ramps; the mould's core is dashed, where known.
 */
export function burnoutChart(plan: BurnoutPlan, f: Format): Html {
  const curve = burnoutCurve(plan);
  const degrees = (c: number): number => (f.view.degrees === 'C' ? c : (c * 9) / 5 + 32);
  const hours = Math.max(1, ...curve.map(([t]) => t / 3600));
  const hourStep = niceStep(hours, 14, [1, 2, 3, 4, 6, 12, 24, 48, 120]);
  const hourEnd = Math.ceil(hours / hourStep - 1e-9) * hourStep;
  const hottest = Math.max(100, ...curve.map(([, c]) => degrees(c)));
  const degreeStep = niceStep(hottest, 8, [50, 100, 200, 250, 500, 1000]);
  const degreeEnd = Math.ceil((hottest * 1.06) / degreeStep) * degreeStep;
  const x = (h: number): number => round(left + (h / hourEnd) * (width - left - right));
  const y = (d: number): number => round(height - bottom - (d / degreeEnd) * (height - top - bottom));
  const range = (end: number, step: number): number[] =>
    Array.from({ length: Math.round(end / step) + 1 }, (_, i) => i * step);

  const grid = [
    ...range(hourEnd, hourStep).map(
      (h) => html`<path class="grid" d="M${x(h)} ${y(0)}V${y(degreeEnd)}"/>
<text class="tick" x="${x(h)}" y="${y(0) + 15}" text-anchor="middle">${h}</text>`,
    ),
    ...range(degreeEnd, degreeStep).map(
      (d) => html`<path class="grid" d="M${x(0)} ${y(d)}H${x(hourEnd)}"/>
<text class="tick" x="${left - 6}" y="${y(d) + 4}" text-anchor="end">${d}</text>`,
    ),
  ];
  const path = (points: readonly (readonly [number, number])[]): string =>
    points.map(([t, c], i) => `${i === 0 ? 'M' : 'L'}${x(t / 3600)} ${y(degrees(c))}`).join('');
  const { core = [] } = plan;

  // A level that is written already beside it is not written again; another so near stands a line higher.
  let last: { readonly x: number; readonly y: number; readonly text: string } | undefined;
  const level = (at: number, c: number): Html => {
    const text = f.temperature(c);
    const place = { x: at, y: y(degrees(c)) - 7, text };
    const near =
      last !== undefined && place.x - last.x < levelWidth && Math.abs(place.y - last.y) < levelHeight;
    if (near && last?.text === text) return html``;
    last = near && last !== undefined ? { ...place, y: last.y - levelHeight } : place;
    return html`<text class="level" x="${last.x}" y="${round(last.y)}" text-anchor="middle">${text}</text>`;
  };
  let time = 0;
  const marks = plan.segments.map((s, i) => {
    const middle = (time + s.ramp / 2) / 3600;
    const hold = (time + s.ramp + s.soak / 2) / 3600;
    time += s.ramp + s.soak;
    const cx = x(middle);
    const cy = y(degrees((s.from + s.to) / 2));
    return html`<circle class="mark" cx="${cx}" cy="${cy}" r="9"/>
<text class="number" x="${cx}" y="${cy + 4}" text-anchor="middle">${i + 1}</text>
${s.soak > 0 && level(x(hold), s.to)}`;
  });

  return html`<svg class="chart" viewBox="0 0 ${width} ${height}" role="img" aria-label="Kiln temperature against time">
<style>.chart text{font-family:inherit}.chart .grid{fill:none;stroke:#999;stroke-width:.6}.chart .line{fill:none;stroke:#000;stroke-width:2.6;stroke-linejoin:round}.chart .core{fill:none;stroke:#000;stroke-width:1.4;stroke-dasharray:5 3}.chart .tick{font-size:12px}.chart .level{font-size:12.5px;font-weight:bold;paint-order:stroke;stroke:#fff;stroke-width:4px;stroke-linejoin:round}.chart .axis{font-size:12px}.chart .mark{fill:#fff;stroke:#000;stroke-width:1.3}.chart .number{font-size:11.5px;font-weight:bold}</style>
${grid}
${core.length > 0 && html`<path class="core" d="${path(core)}"/>`}
<path class="line" d="${path(curve)}"/>
${marks}
<text class="axis" x="${(left + width - right) / 2}" y="${height - 6}" text-anchor="middle">hours from the start</text>
<text class="axis" x="4" y="14">${f.degreeUnit}</text>
${core.length > 0 && html`<text class="axis" x="${width - right}" y="14" text-anchor="end">full line: kiln and the mould's skin; dashed: the mould's core</text>`}
</svg>`;
}
