import { beforeAll, describe, expect, it } from 'vitest';
import { formatSheet } from '../../../../core/report/drawing/index.js';
import { type SpaceDimension, spaceDimensions } from '../../../../core/report/drawing/space-dimensions.js';
import { distanceApart } from '../../../../core/report/drawing/space-lanes.js';
import { loadKernel } from '../../../../core/solid/index.js';
import type { Box, Kernel, Vec3 } from '../../../../core/solid/types.js';
import { parts } from '../../../../generators/index.js';
import { type Drawn, drawnOf, textsOf } from '../../../helpers/drawn.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const castings = parts.flatMap((part) =>
  [['usual', {}] as const, ...Object.entries(part.presets ?? {})].flatMap(([set, parameters]) =>
    (part.pieces ?? [undefined]).map((piece) => ({
      title: [part.name, set, piece?.name].filter(Boolean).join(', '),
      part,
      parameters,
      piece: piece?.name,
    })),
  ),
);

const pointsOf = (d: SpaceDimension): readonly Vec3[] => {
  if (d.kind === 'length') return [d.from, d.to, d.lineFrom, d.lineTo];
  return d.kind === 'leader' ? [d.at, d.textAt] : [d.corner, ...d.arc];
};

/** Beyond one and the same face of the box. */
const clearOf = ({ min, max }: Box, points: readonly Vec3[]): boolean =>
  [0, 1, 2].some((k) => points.every((p) => p[k]! < min[k]!) || points.every((p) => p[k]! > max[k]!));

const distance = (a: Vec3, b: Vec3): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

const shown = ({ drawn, subject, bounds }: Drawn, unit: 'mm' | 'in') =>
  spaceDimensions(drawn, subject.dimensions, bounds, unit);

describe.each(castings)('sizes in space of $title', ({ part, parameters, piece }) => {
  it('stand clear of the part, measure what they say, and say what the sheet says', () => {
    const made = drawnOf(kernel, part, parameters, { tolerance: 0.05, piece });
    if (!made) throw new Error('refused');
    const all = shown(made, 'mm');
    expect(all.length).toBeGreaterThan(1);
    for (const d of all) for (const p of pointsOf(d)) expect(p.every(Number.isFinite)).toBe(true);
    const lengths = all.filter((d) => d.kind === 'length');
    for (const d of lengths) {
      expect(clearOf(made.bounds, [d.lineFrom, d.lineTo]), d.text).toBe(true);
      const number = /[\d.]+/.exec(d.text.replace(/^\d+ × (?=[ØR])/, ''))?.[0];
      expect(Math.abs(distance(d.lineFrom, d.lineTo) - Number(number)), d.text).toBeLessThan(0.006);
    }
    for (const d of all) if (d.kind === 'leader') expect(clearOf(made.bounds, [d.textAt]), d.text).toBe(true);
    lengths.forEach((a, i) => {
      for (const b of lengths.slice(i + 1))
        expect(
          distanceApart([a.lineFrom, a.lineTo], [b.lineFrom, b.lineTo]),
          `${a.text} by ${b.text}`,
        ).toBeGreaterThan(1);
    });

    // The words of the sheet in both units, none twice.
    for (const unit of ['mm', 'in'] as const) {
      const sheet = formatSheet(made.subject, made.drawn, { lengthUnit: unit, degrees: 'C' });
      const words = textsOf(sheet).map((t) => t.words);
      const all = shown(made, unit);
      for (const { text } of all) expect(words).toContain(text);
      const spans = all.flatMap((d) => {
        if (d.kind !== 'length') return [];
        const axis = [0, 1, 2].findIndex((k) => Math.abs(d.lineTo[k]! - d.lineFrom[k]!) > 1e-6);
        const ends = [d.from[axis]!, d.to[axis]!].sort((a, b) => a - b).map((v) => v.toFixed(3));
        return [`${d.text} ${axis} ${ends.join(' ')}`];
      });
      expect(new Set(spans).size).toBe(spans.length);
    }
  });
});

describe('where the lines stand', () => {
  it('a shorter one stands nearer than a longer one on its side', () => {
    const part = parts.find((p) => p.name === 'butt-hinge')!;
    const made = drawnOf(kernel, part, {}, { tolerance: 0.05, piece: part.pieces![0]!.name })!;
    const { min } = made.bounds;
    const left = shown(made, 'mm').filter((d) => d.kind === 'length' && d.lineFrom[0] < min[0]);
    const outward = left.map((d) => (d.kind === 'length' ? min[0] - d.lineFrom[0] : 0));
    const spans = left.map((d) => (d.kind === 'length' ? distance(d.lineFrom, d.lineTo) : 0));
    expect(left.length).toBeGreaterThan(0);
    spans.forEach((span, i) => {
      spans.forEach((other, j) => {
        if (span < other - 1e-9) expect(outward[i]!).toBeLessThanOrEqual(outward[j]! + 1e-9);
      });
    });
  });
});
