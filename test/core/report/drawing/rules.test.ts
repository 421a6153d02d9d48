import { beforeAll, describe, expect, test } from 'vitest';
import { noStock } from '../../../../core/part/stock.js';
import type { Edge, Stroke } from '../../../../core/report/drawing/drawn-part.js';
import { drawPart } from '../../../../core/report/drawing/drawn-part.js';
import { hatchLines } from '../../../../core/report/drawing/hatch.js';
import { textWidth, wrapWidth } from '../../../../core/report/drawing/text-width.js';
import { mainFrame, onView, viewBeside } from '../../../../core/report/drawing/view-frame.js';
import { loadKernel } from '../../../../core/solid/index.js';
import type { Kernel, Solid, Vec2 } from '../../../../core/solid/types.js';
import { findPart } from '../../../../generators/index.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

describe('width of text', () => {
  // Adobe Font Metrics of Helvetica, thousandths of the size (from memory).
  test.each([
    ['0', 556],
    ['W', 944],
    ['M', 833],
    [' ', 278],
    ['i', 222],
    ['.', 278],
    ['m', 833],
    ['A', 667],
  ])('%s is at least as wide as in Helvetica and little more', (letter, afm) => {
    const width = textWidth(letter, 1000);
    expect(width).toBeGreaterThanOrEqual(afm);
    expect(width).toBeLessThan(1.06 * afm);
  });

  test('lines are broken no wider than asked, and nothing is lost', () => {
    const text = 'As cast, where left rough: ISO 8062-3 Donaudampfschifffahrtsgesellschaft';
    const lines = wrapWidth(text, 20, 3);
    expect(Math.max(...lines.map((l) => textWidth(l, 3)))).toBeLessThanOrEqual(20);
    expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
  });
});

describe('first-angle projection (ISO 5456-2)', () => {
  test('seen from the left it stands right, from above below, from below above, from the right left', () => {
    const main = mainFrame('-y');
    expect([main.right, main.up]).toEqual([
      [1, 0, 0],
      [0, 0, 1],
    ]);
    expect(viewBeside(main, '-x').cell).toEqual({ column: 1, row: 0 });
    expect(viewBeside(main, '+x').cell).toEqual({ column: -1, row: 0 });
    expect(viewBeside(main, '+z').cell).toEqual({ column: 0, row: 1 });
    expect(viewBeside(main, '-z').cell).toEqual({ column: 0, row: -1 });
  });

  test('points line up between views: across with the views above and below, in height with those beside', () => {
    const p = [3, 5, 7] as const;
    for (const from of ['-y', '+x', '+z', '-z'] as const) {
      const main = mainFrame(from);
      const [u, v] = onView(main, p);
      for (const other of ['+x', '-x', '+y', '-y', '+z', '-z'] as const) {
        const { frame, cell } = viewBeside(main, other);
        if (cell.row !== 0) expect(onView(frame, p)[0]).toBeCloseTo(u, 12);
        if (cell.row === 0) expect(onView(frame, p)[1]).toBeCloseTo(v, 12);
        // Right-handed: right × up looks to the eye.
        const [r, up, t] = [frame.right, frame.up, frame.toward];
        expect(r[1] * up[2] - r[2] * up[1]).toBeCloseTo(t[0], 12);
        expect(r[0] * up[1] - r[1] * up[0]).toBeCloseTo(t[2], 12);
      }
    }
  });
});

const square = (x0: number, y0: number, x1: number, y1: number): readonly Edge[] => {
  const corners: Vec2[] = [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
  return corners.map((p, i) => [p, corners[(i + 1) % 4] as Vec2]);
};

describe('hatching', () => {
  test('lies at 45°, inside the area, evenly', () => {
    const lines = hatchLines([...square(0, 0, 60, 40), ...square(20, 10, 40, 30)]);
    let length = 0;
    for (const [[ax, ay], [bx, by]] of lines) {
      expect(Math.abs(bx - ax)).toBeCloseTo(Math.abs(by - ay), 9);
      expect((bx - ax) * (by - ay)).toBeLessThan(0);
      for (const s of [0.05, 0.5, 0.95]) {
        const [x, y] = [ax + s * (bx - ax), ay + s * (by - ay)];
        expect(x > 0 && x < 60 && y > 0 && y < 40).toBe(true);
        expect(x > 20 && x < 40 && y > 10 && y < 30).toBe(false);
      }
      length += Math.hypot(bx - ax, by - ay);
    }
    // Lines 2.2 mm apart over 60 × 40 less 20 × 20.
    expect(length * 2.2).toBeGreaterThan(0.95 * 2000);
    expect(length * 2.2).toBeLessThan(1.05 * 2000);
  });
});

/** Total length of the thick lines of each view. */
function lengths(make: (k: Kernel) => Solid, from: '-y' | '+z', cut?: number): number {
  return kernel.scope(() => {
    const drawing = { views: [{ from, ...(cut === undefined ? {} : { cut }) }] };
    const { views } = drawPart({ solid: make(kernel), drawing }, kernel, 0.01);
    return views[0]!.strokes.reduce((sum, s) => sum + strokeLength(s), 0);
  });
}

/** Lines of the view from the front whose middle lies inside a window. */
function strokesInside(make: (k: Kernel) => Solid, [u0, u1]: Vec2, [v0, v1]: Vec2): number {
  return kernel.scope(() => {
    const { views } = drawPart({ solid: make(kernel), drawing: { views: [{ from: '-y' }] } }, kernel, 0.01);
    const middles = views[0]!.strokes.flatMap((s) =>
      'points' in s
        ? s.points.slice(1).map(([u, v], i) => [(u + s.points[i]![0]) / 2, (v + s.points[i]![1]) / 2])
        : [],
    );
    return middles.filter(([u = 0, v = 0]) => u > u0 && u < u1 && v > v0 && v < v1).length;
  });
}

const strokeLength = (s: Stroke): number =>
  'points' in s
    ? s.points.slice(1).reduce((sum, [x, y], i) => {
        const [a, b] = s.points[i] as Vec2;
        return sum + Math.hypot(x - a, y - b);
      }, 0)
    : 2 * Math.PI * s.radius;

describe('edges of a solid', () => {
  test('a cuboid from the front is its outline, seen once from each of its two ends', () => {
    const drawn = lengths((k) => k.box([0, 0, 0], [60, 30, 20]), '-y');
    // The far edges lie behind the near ones and are at most drawn over them.
    expect(drawn).toBeGreaterThanOrEqual(160 - 1e-6);
    expect(drawn).toBeLessThanOrEqual(320 + 1e-6);
  });

  test('a slot in the back is hidden from the front and shown from above', () => {
    const slotted = (k: Kernel) => k.box([0, 0, 0], [60, 30, 20]).subtract(k.box([20, 20, 5], [40, 31, 15]));
    const plain = (k: Kernel) => k.box([0, 0, 0], [60, 30, 20]);
    expect(lengths(slotted, '-y')).toBeCloseTo(lengths(plain, '-y'), 6);
    const open = (k: Kernel) => k.box([0, 0, 0], [60, 30, 20]).subtract(k.box([20, 10, 5], [40, 20, 21]));
    expect(lengths(open, '+z') - lengths(plain, '+z')).toBeGreaterThan(2 * (20 + 10) - 0.5);
  });

  test('a cylinder lying down shows its two sides and ends, no facets; a bore in it a circle', () => {
    const upright = (k: Kernel) => k.frustum([0, 0], 0, 10, 40, 10, 0.01);
    // Sides 40 each; the ends 20 each, front and back halves over each other.
    const side = lengths(upright, '-y');
    expect(side).toBeGreaterThan(119);
    expect(side).toBeLessThan(161);
    const bored = (k: Kernel) => upright(k).subtract(k.frustum([0, 0], -1, 4, 41, 4, 0.01));
    // Nothing of the bore shows inside the outline from the side.
    expect(strokesInside(bored, [-9.9, 9.9], [0.1, 39.9])).toBe(0);
    const rings = lengths(bored, '+z') - lengths(upright, '+z');
    expect(rings).toBeGreaterThan(0.99 * 2 * Math.PI * 4);
  });

  test('a bevel of 20° on a flat face is an edge', () => {
    const roof = (k: Kernel) =>
      k
        .extrude(
          [
            [
              [0, 0],
              [40, 0],
              [40, 10],
              [20, 10 + 20 * Math.tan((20 * Math.PI) / 180)],
              [0, 10 + 20 * Math.tan((20 * Math.PI) / 180)],
            ],
          ],
          0,
          30,
        )
        .rotate('x', Math.PI / 2);
    const box = (k: Kernel) => k.box([0, 0, 0], [40, 30, 10]);
    expect(lengths(roof, '+z')).toBeGreaterThan(lengths(box, '+z') / 2 + 29);
  });
});

/** Lengths inside the hatched area along level lines of the view. */
const inside = (edges: readonly Edge[], v: number): number => {
  const cuts = edges
    .filter(([a, b]) => a[1] > v !== b[1] > v)
    .map(([a, b]) => a[0] + ((v - a[1]) / (b[1] - a[1])) * (b[0] - a[0]))
    .sort((p, q) => p - q);
  return cuts.reduce((sum, u, i) => sum + (i % 2 === 1 ? u - (cuts[i - 1] as number) : 0), 0);
};

describe('the half section of a gear is that of its mesh', () => {
  test.each([
    ['solid', { bore: 12 }],
    ['web and hub', { bore: 14, webThickness: 8, hub: 'one' }],
    ['hubs on both sides, keyed', { bore: 14, hub: 'both', boreShape: 'keyed' }],
    ['flat bore', { bore: 14, boreShape: 'flat', hub: 'lower' }],
    ['hexagon', { bore: 14, boreShape: 'hexagon', webThickness: 6 }],
    ['square', { bore: 14, boreShape: 'square' }],
    ['no bore', { bore: 0, hub: 'one' }],
  ])('%s', (_, parameters) => {
    const part = findPart('spur-gear');
    if (!part) throw new Error('no spur gear');
    kernel.scope(() => {
      const built = part.build(part.parameters.parse({ teeth: 40, ...parameters }), noStock, {
        kernel,
        tolerance: 0.01,
      });
      if (built.solid === null || !built.drawing) throw new Error('refused');
      const own = drawPart(built, kernel, 0.01).views[0]!;
      const cut = drawPart(
        { solid: built.solid, drawing: { views: [{ from: '+x', up: '+y', cut: 0 }] } },
        kernel,
        0.01,
      ).views[0]!;
      const root = built.dimensions.find((d) => d.symbol === 'd_f')!.value / 2;
      for (let v = 0.37; v < root - 0.05; v += 0.73) {
        // The mesh is 0.01 mm true; where a fillet runs out that is up to a tenth along the level line.
        const difference = Math.abs(inside(own.hatched, v) - inside(cut.hatched, v));
        expect(difference, `at ${v} mm`).toBeLessThan(0.12);
      }
    });
  });
});
