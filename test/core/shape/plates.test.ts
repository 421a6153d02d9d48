import { beforeAll, describe, expect, it } from 'vitest';
import { bevelEdge, roundEdge } from '../../../core/shape/edge-profile.js';
import { holeCutter, placeTool } from '../../../core/shape/hole.js';
import { offsetOutline } from '../../../core/shape/offset-outline.js';
import {
  circleOutline,
  drawOutline,
  obroundOutline,
  outlineArea,
  polygonOutline,
} from '../../../core/shape/outline.js';
import { plateSolid, recessCutter } from '../../../core/shape/plate.js';
import { rectangleOutline, roundCorners } from '../../../core/shape/round-corners.js';
import { loadKernel } from '../../../core/solid/index.js';
import type { Kernel, Solid } from '../../../core/solid/types.js';
import { expectSound } from '../../helpers/expect-sound.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const within = (value: number, exact: number, share = 1e-3): void =>
  expect(Math.abs(value / exact - 1)).toBeLessThan(share);
const volumeOf = (make: () => Solid): number =>
  kernel.scope(() => {
    const solid = make();
    expectSound(solid.mesh());
    return solid.volume();
  });

/** Steiner's formula: a convex outline moved out by d has area A + L d + π d² (rounded corners: all arcs). */
describe('outlines', () => {
  it('area and offset of rectangle, circle and obround by Steiner’s formula', () => {
    for (const [outline, area, perimeter] of [
      [rectangleOutline([3, 4], 40, 20, 6), 800 - (4 - Math.PI) * 36, 120 - (8 - 2 * Math.PI) * 6],
      [circleOutline([1, 2], 7), Math.PI * 49, 14 * Math.PI],
      [
        obroundOutline([0, 0], [10, 5], 4),
        Math.PI * 16 + 8 * Math.hypot(10, 5),
        8 * Math.PI + 2 * Math.hypot(10, 5),
      ],
    ] as const) {
      expect(outlineArea(outline)).toBeCloseTo(area, 9);
      for (const d of [-3, -0.5, 0.5, 12])
        expect(outlineArea(offsetOutline(outline, d))).toBeCloseTo(area + perimeter * d + Math.PI * d * d, 8);
    }
  });

  it('arcs that an inset uses up leave sharp corners', () => {
    const inset = offsetOutline(rectangleOutline([0, 0], 40, 20, 2), -3);
    expect(inset.map((p) => p.kind)).toEqual(['line', 'line', 'line', 'line']);
    expect(outlineArea(inset)).toBeCloseTo(34 * 14, 9);
  });

  it('lines that an inset uses up leave their neighbours meeting: a chamfered square', () => {
    const c = 1;
    const outline = polygonOutline([
      [c, 0],
      [20, 0],
      [20, 20],
      [0, 20],
      [0, c],
    ]);
    // The chamfer is c√2 long and loses 2 d tan(π/8) at an inset of d: it is gone beyond d = c(1 + 1/√2)…
    expect(offsetOutline(outline, -1)).toHaveLength(5);
    const inset = offsetOutline(outline, -3);
    expect(inset).toHaveLength(4);
    expect(outlineArea(inset)).toBeCloseTo(14 * 14, 9);
  });

  it('inner corners: an L with a fillet', () => {
    const sharp = polygonOutline([
      [0, 0],
      [30, 0],
      [30, 10],
      [10, 10],
      [10, 30],
      [0, 30],
    ]);
    const filleted = roundCorners(sharp, (_, turn) => (turn < 0 ? 4 : 0));
    expect(outlineArea(filleted)).toBeCloseTo(500 + (1 - Math.PI / 4) * 16, 9);
    const moved = offsetOutline(filleted, 1);
    expect(outlineArea(moved)).toBeCloseTo(32 * 12 + 12 * 20 + (1 - Math.PI / 4) * 9, 9);
    expect(() => offsetOutline(filleted, -6)).toThrow();
  });

  it('corners between lines and arcs', () => {
    // A half disc with its two corners rounded.
    const half = drawOutline([-10, 0], [{ to: [10, 0] }, { to: [-10, 0], centre: [0, 0] }]);
    expect(outlineArea(half)).toBeCloseTo(50 * Math.PI, 9);
    const rounded = roundCorners(half, 2);
    expect(rounded).toHaveLength(4);
    // Offsetting in by 2 and out again with round joints gives the same: Steiner on the inner shape.
    const inner = offsetOutline(half, -2);
    const reach = Math.sqrt(64 - 4);
    const lengths = 2 * reach + 8 * (Math.PI - 2 * Math.asin(2 / 8));
    expect(outlineArea(rounded)).toBeCloseTo(outlineArea(inner) + 2 * lengths + 4 * Math.PI, 8);
  });
});

describe('plates', () => {
  it('a disc with a rounded edge: Pappus', () => {
    const [R, r, h] = [20, 3, 8];
    // The rounding takes a square less a quarter disc off; the centroid of the quarter disc is 4r/3π from its centre.
    const cut = r * r * (R - r / 2) - ((Math.PI * r * r) / 4) * (R - r + (4 * r) / (3 * Math.PI));
    const volume = volumeOf(() =>
      plateSolid(kernel, { outline: circleOutline([0, 0], R), z0: 0, z1: h, topEdge: roundEdge(r) }, 0.01),
    );
    within(volume, Math.PI * R * R * h - 2 * Math.PI * cut);
  });

  it('a rectangle with corners smaller than its rounding, and with bevels', () => {
    const outline = rectangleOutline([0, 0], 40, 20, 1);
    const round = volumeOf(() =>
      plateSolid(kernel, { outline, z0: 0, z1: 8, topEdge: roundEdge(3), bottomEdge: bevelEdge(1) }, 0.01),
    );
    // Without the corners' arcs: mitred rounding, ∫ (40 − 2i)(20 − 2i) dz, i = 3 − √(9 − z²).
    const [a, q] = [3 * 3 * (1 - Math.PI / 4), 9 * 3 - (2 * Math.PI * 9 * 3) / 4 + (9 - 9 / 3) * 3];
    const square = 800 * 8 - 2 * 60 * a + 4 * q - (2 * 60 * 0.5 - 4 / 3);
    expect(round).toBeLessThan(square);
    within(round, square, 2e-3);
  });

  it('stock: a plate with round edges grows into its parallel body', () => {
    const [R, r, h, s] = [20, 3, 8, 0.6];
    const plate = (R: number, r: number, z0: number, z1: number): Solid =>
      plateSolid(
        kernel,
        { outline: circleOutline([0, 0], R), z0, z1, topEdge: roundEdge(r), bottomEdge: roundEdge(r) },
        0.01,
      );
    const [grown, direct] = [
      volumeOf(() =>
        plateSolid(
          kernel,
          {
            outline: circleOutline([0, 0], R),
            z0: 0,
            z1: h,
            topEdge: roundEdge(r),
            bottomEdge: roundEdge(r),
          },
          0.01,
          { side: s, top: s, bottom: s },
        ),
      ),
      volumeOf(() => plate(R + s, r + s, -s, h + s)),
    ];
    expect(grown).toBeCloseTo(direct, 6);
  });

  it('a recess: straight wall, floor fillet and rounded rim; stock makes it smaller', () => {
    const recess = {
      outline: rectangleOutline([0, 0], 60, 30, 8),
      face: 0,
      depth: 12,
      floorFillet: 3,
      rim: roundEdge(1.5),
    };
    const block = (s: number): Solid => kernel.box([-40, -25, -20], [40, 25, s]);
    const part = volumeOf(() => block(0).subtract(recessCutter(kernel, recess, 0.01)));
    const cast = volumeOf(() =>
      block(0.5).subtract(recessCutter(kernel, recess, 0.01, { side: 0.5, top: 0.5, bottom: 0.5 })),
    );
    expect(cast).toBeGreaterThan(part + 80 * 50 * 0.5);
  });
});

describe('holes', () => {
  const plate = (f = 0): Solid => kernel.box([-20, -20, -6 - f], [20, 20, f]);
  const at90 = Math.PI / 2;
  it('a countersunk hole through a plate: cylinder and frustum', () => {
    const volume = volumeOf(() =>
      plate().subtract(
        holeCutter(
          kernel,
          { kind: 'countersunk', diameter: 5, depth: 6, headDiameter: 10, angle: at90 },
          0.002,
        )!,
      ),
    );
    const hole = Math.PI * 2.5 * 2.5 * 3.5 + (Math.PI / 3) * 2.5 * (25 + 12.5 + 6.25);
    within(1600 * 6 - volume, hole);
  });
  it('the cast countersink stands in by its stock along the cone’s normal', () => {
    const [s, f] = [0.4, 0.8];
    const volume = volumeOf(() =>
      plate(f).subtract(
        holeCutter(
          kernel,
          { kind: 'countersunk', diameter: 5, depth: 6, headDiameter: 10, angle: at90 },
          0.002,
          { bore: s, face: f, farFace: f },
        )!,
      ),
    );
    const mouth = 5 + f - s * Math.SQRT2;
    const r = 2.5 - s;
    const deep = mouth - r;
    const hole =
      Math.PI * r * r * (6 + 2 * f - deep) + (Math.PI / 3) * deep * (mouth * mouth + mouth * r + r * r);
    within(1600 * (6 + 2 * f) - volume, hole);
  });
  it('counterbore, blind hole with a drill point, dimple; a hole that stock fills', () => {
    const cut = (hole: Parameters<typeof holeCutter>[1]): number =>
      9600 - volumeOf(() => plate().subtract(holeCutter(kernel, hole, 0.0005)!));
    within(
      cut({ kind: 'counterbored', diameter: 5, depth: 6, boreDiameter: 9, boreDepth: 3 }),
      Math.PI * (6.25 * 3 + 20.25 * 3),
    );
    const angle = (118 * Math.PI) / 180;
    within(
      cut({ kind: 'plain', diameter: 4, depth: 3, through: false, pointAngle: angle }),
      Math.PI * 4 * (3 + 2 / Math.tan(angle / 2) / 3),
    );
    within(cut({ kind: 'dimple', diameter: 3, angle: at90 }), (Math.PI / 3) * 1.5 ** 3);
    kernel.scope(() =>
      expect(
        holeCutter(kernel, { kind: 'plain', diameter: 2, depth: 5 }, 0.01, {
          bore: 0.9,
          face: 0,
          farFace: 0,
        }),
      ).toBeNull(),
    );
  });
  it('a tool lies along any direction', () => {
    const volume = volumeOf(() => {
      const tool = holeCutter(kernel, { kind: 'plain', diameter: 4, depth: 40 }, 0.002)!;
      return kernel
        .sphere([0, 0, 0], 15, 0.003)
        .subtract(
          placeTool(tool, [-12, 12, -12].map((v) => v * 1.1) as [number, number, number], [-1, 1, -1]),
        );
    });
    const h = 2 * Math.sqrt(225 - 4);
    within(volume, (Math.PI / 6) * h ** 3);
  });
});
