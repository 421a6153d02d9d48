import type { FillPlan } from '../../freeze/plans.js';
import { maths } from '../../maths/maths.js';
import { roundStepOver } from '../../units/round-step.js';
import { decimals, type Format } from '../format.js';
import { type Html, html } from '../html.js';

const width = 360;
const height = 84;
const left = 34;
const right = 8;
const top = 16;
const bottom = 24;

const round = (v: number): number => Math.round(v * 10) / 10;

/** How the metal rises in the mould, as a small inline SVG; a dashed line where the castings are full. */
export function levelChart(fill: FillPlan, f: Format): Html {
  const length = f.view.lengthUnit === 'mm' ? 1 : 1 / 25.4;
  const points = fill.history.map(({ time, level }) => [time, level * length] as const);
  const end = Math.max(...points.map(([t]) => t), 1e-3);
  const highest = Math.max(...points.map(([, l]) => l), 1e-3);
  if (points.length < 2 || !Number.isFinite(end + highest)) return html``;
  const x = (t: number): number => round(left + (t / end) * (width - left - right));
  const y = (l: number): number => round(height - bottom - (l / highest) * (height - top - bottom));
  const [timeStep, levelStep] = [roundStepOver(end / 8), roundStepOver(highest / 4)];
  const marks = (last: number, step: number): readonly number[] =>
    Array.from({ length: Math.floor(last / step + 1e-9) + 1 }, (_, i) => i * step);
  const places = (step: number): number => Math.max(0, -Math.floor(maths.log10(step) + 1e-9));
  return html`<svg class="chart level-chart" viewBox="0 0 ${width} ${height}" role="img" aria-label="Level of the metal against time">
${marks(end, timeStep).map((t) => html`<path class="grid" d="M${x(t)} ${y(0)}V${y(highest)}"/><text class="tick" x="${x(t)}" y="${y(0) + 11}" text-anchor="middle">${t === 0 ? '0' : decimals(t, places(timeStep))}</text>`)}
${marks(highest, levelStep)
  .slice(1)
  .map(
    (l) =>
      html`<path class="grid" d="M${x(0)} ${y(l)}H${x(end)}"/><text class="tick" x="${left - 4}" y="${y(l) + 3}" text-anchor="end">${decimals(l, places(levelStep))}</text>`,
  )}
<path class="line" d="${points.map(([t, l], i) => `${i === 0 ? 'M' : 'L'}${x(t)} ${y(l)}`).join('')}"/>
<path class="full" d="M${x(Math.min(end, fill.castings))} ${y(0)}V${y(highest)}"/>
<text class="tick" x="0" y="9">level, ${f.lengthUnit}; dashed: castings full</text>
<text class="tick" x="${width - right}" y="${height - 2}" text-anchor="end">seconds from the first metal</text>
</svg>`;
}
