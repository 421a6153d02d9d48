import { expect, test } from 'vitest';
import { renderPixels, renderScene } from '../../../../core/report/render/index.js';
import { loadKernel } from '../../../../core/solid/kernel.js';

const kernel = await loadKernel();
const ball = kernel.scope(() => kernel.sphere([0, 0, 0], 10, 0.05).mesh());
const size = { width: 120, height: 120, view: { azimuth: -Math.PI / 2, elevation: 0 } } as const;

test('a tint is asked at places on the surface, with the normal there: on a ball, the same direction', () => {
  let [asked, radius, lean] = [0, 0, 0];
  renderPixels(ball, {
    ...size,
    tint: (x, y, z, nx, ny, nz) => {
      const r = Math.hypot(x, y, z);
      asked++;
      radius = Math.max(radius, Math.abs(r - 10));
      lean = Math.max(lean, Math.acos(Math.min(1, (x * nx + y * ny + z * nz) / r)));
      expect(y).toBeLessThan(1);
      return undefined;
    },
  });
  // A ball fills π/4 of its square; the frame leaves 5.5 % about it.
  expect(asked).toBeGreaterThan(0.9 * (Math.PI / 4) * (120 * 0.89) ** 2);
  // A facet and a pixel, at 5.3 pixels a mm.
  expect(radius).toBeLessThan(0.3);
  expect(lean).toBeLessThan(0.12);
});

test('colours stand where their places do, and groups keep theirs', () => {
  const { pixels } = renderScene(ball, {
    ...size,
    colour: { colour: '#ffffff', finish: 'even' },
    tint: (x) => (x < 0 ? [1, 0, 0] : [0, 0, 1]),
  });
  const at = (x: number, y: number): readonly number[] => [
    ...pixels.data.slice(3 * (y * 120 + x), 3 * (y * 120 + x) + 3),
  ];
  const [left, right] = [at(40, 60), at(80, 60)];
  expect(left[0]).toBeGreaterThan(150);
  expect(left[2]).toBeLessThan(20);
  expect(right[2]).toBeGreaterThan(150);
  expect(right[0]).toBeLessThan(20);
  const grouped = renderPixels(ball, {
    ...size,
    groups: [{ start: 0, count: ball.triangles.length / 3, colour: { colour: '#ffffff', finish: 'even' } }],
    tint: () => [1, 0, 0],
  });
  expect(grouped.data[3 * (60 * 120 + 60) + 2]).toBeGreaterThan(150);
});

test('looking for a place: where it stands, and how far behind what is seen', () => {
  const { look } = renderScene(ball, size);
  const middle = look([0, 0, 0]);
  expect([middle.x, middle.y]).toEqual([expect.closeTo(60, 5), expect.closeTo(60, 5)]);
  expect(middle.behind).toBeCloseTo(10, 0);
  expect(look([0, -12, 0]).behind).toBeCloseTo(-2, 0);
  expect(look([5, 0, 0]).x).toBeGreaterThan(80);
  expect(look([0, 0, 5]).y).toBeLessThan(40);
  expect(look([40, 0, 0]).behind).toBe(Number.POSITIVE_INFINITY);
});
