/**
 * Cases whose answer the handbooks give: junctions (E. Heuvers' inscribed circles: the place where the largest circle fits
 * freezes last, and as the square of its diameter), feeders (J. B. Caine; R. Wlodawer: modulus 1.2 times the casting's),
 * feeding distances of steel in sand (H. F. Bishop and W. S. Pellini, 1950: end effect of a plate 2.5 T, of a feeder 2 T);
 * all from memory.
 */
import { describe, expect, test } from 'vitest';
import { type FreezeResult, mixedStart, runFreeze } from '../../../core/freeze/freeze.js';
import { type Grid, gridOf, stretchedEdges } from '../../../core/freeze/grid.js';
import type { FreezingMetal, MouldSubstance } from '../../../core/freeze/substance.js';
import { one, sand } from '../../helpers/freeze-run.js';

/** 0.3 % carbon steel, from memory. */
const steel: FreezingMetal = {
  density: 7e-3,
  solidus: 1440,
  liquidus: 1505,
  latentHeat: 270,
  specificHeat: { solid: 0.7, liquid: 0.8 },
  conductivity: { solid: 0.03, liquid: 0.03 },
};

type Span = readonly [number, number];
type Brick = readonly [x: Span, y: Span, z?: Span];

/** What is frozen: metal in bricks, in two directions or three, in mould that reaches far. mm, s. */
interface Frozen extends FreezeResult {
  readonly grid: Grid;
  readonly share: Float32Array;
  readonly middle: (cell: number) => readonly [number, number, number];
  /** Time to freeze of the cell about a point. */
  readonly at: (x: number, y: number, z?: number) => number;
  /** Where the last metal freezes: the mean of all cells within a hundredth of the total. */
  readonly last: readonly [number, number, number];
}

function freeze(bricks: readonly Brick[], step: number, far: number, mould: MouldSubstance = sand): Frozen {
  const flat = bricks.every((b) => b[2] === undefined);
  const axis = (a: 0 | 1 | 2): Float64Array => {
    if (a === 2 && flat) return one;
    const [low, high] = [Math.min(...bricks.map((b) => b[a]![0])), Math.max(...bricks.map((b) => b[a]![1]))];
    return stretchedEdges([low - far, high + far], [low - 2 * step, high + 2 * step], step);
  };
  const grid = gridOf(axis(0), axis(1), axis(2));
  const [nx, ny] = grid.counts;
  const middle = (c: number): readonly [number, number, number] => {
    const i = [c % nx, Math.floor(c / nx) % ny, Math.floor(c / (nx * ny))] as const;
    return [0, 1, 2].map(
      (a) => (grid.edges[a as 0]![i[a as 0]!]! + grid.edges[a as 0]![i[a as 0]! + 1]!) / 2,
    ) as [number, number, number];
  };
  // Bricks lie on the cells' edges.
  const share = Float32Array.from({ length: grid.size }, (_, c) => {
    const p = middle(c);
    return bricks.some((b) => b.every((span, a) => !span || (p[a]! > span[0] && p[a]! < span[1]))) ? 1 : 0;
  });
  const result = runFreeze({
    grid,
    share,
    metal: steel,
    mould,
    contactResistance: 0,
    surroundings: { temperature: 25, convection: 0, emissivity: 0 },
    shut: flat ? [2] : [],
    start: mixedStart({ share, metal: steel, mould }, 1550, 25),
  });
  expect(result.imbalance).toBeLessThan(1e-3);
  const sum = [0, 0, 0];
  let count = 0;
  for (const [c, t] of result.solidAt.entries())
    if (t > 0.99 * result.total) {
      for (const [a, v] of middle(c).entries()) sum[a]! += v;
      count++;
    }
  const index = (edges: Float64Array, v: number): number => edges.findLastIndex((e) => e <= v);
  return {
    ...result,
    grid,
    share,
    middle,
    at: (x, y, z = 0.5) =>
      result.solidAt[
        index(grid.edges[0], x) + nx * (index(grid.edges[1], y) + ny * index(grid.edges[2], z))
      ]!,
    last: sum.map((v) => v / count) as [number, number, number],
  };
}

describe('junctions of walls 20 mm thick (Heuvers)', () => {
  const wall = 20;
  const plate = freeze(
    [
      [
        [-100, 100],
        [0, wall],
      ],
    ],
    2,
    80,
  );
  const alone = plate.at(1, 9);
  // Between the flange's face and both inner corners: r² = (T/2)² + (T − r)²; between both faces and the inner corner.
  const inT = (5 / 8) * wall;
  const inL = (wall * Math.SQRT2) / (1 + Math.SQRT2);

  test.each([
    [
      'T',
      inT,
      [0, inT],
      [0, wall],
      [
        [
          [-100, 100],
          [0, wall],
        ],
        [
          [-10, 10],
          [0, 120],
        ],
      ],
    ],
    [
      'L',
      inL,
      [inL, inL],
      [wall, wall],
      [
        [
          [0, 120],
          [0, wall],
        ],
        [
          [0, wall],
          [0, 120],
        ],
      ],
    ],
  ] as const)(
    '%s: last about the largest circle that fits, r = %f mm; later than the plate, a T as (D/T)² within 10 %%, an L by less',
    (name, radius, middle, crotch, bricks) => {
      const junction = freeze(bricks, 2, 80);
      const ratio = junction.total / alone;
      console.log(
        `${name}: last at ${junction.last.slice(0, 2).map((v) => v.toFixed(1))}, circle ${middle.map((v) => v.toFixed(1))} r ${radius.toFixed(1)}; ${ratio.toFixed(3)} of the plate's time, (D/T)² ${(((2 * radius) / wall) ** 2).toFixed(3)}`,
      );
      // Sharp inner corners keep their sand hot: from the circle's middle towards them, no farther than half a wall beyond.
      const [x, y] = junction.last;
      expect(Math.hypot(x - middle[0], y - middle[1])).toBeLessThan(1.2 * radius);
      expect(Math.hypot(x - crotch[0], y - crotch[1])).toBeLessThan(wall / 2);
      const byCircle = ((2 * radius) / wall) ** 2;
      expect(ratio).toBeLessThan(1.1 * byCircle);
      // The circle does not see that an L's outer corner cools from two sides.
      expect(ratio).toBeGreaterThan(name === 'T' ? 0.9 * byCircle : 1.05);
    },
  );
});

describe('plate 40 mm thick, feeder a square bar on its middle: last metal', () => {
  const size = 40;
  // Modulus of the plate T/2; of a bar that stands on it, without the face it stands on, a third of its side.
  const lastWith = (ratio: number): readonly [number, number, number] => {
    const half = (3 * ratio * size) / 4;
    const plate: Brick = [
      [-160, 160],
      [0, size],
    ];
    const feeder: Brick = [
      [-half, half],
      [size, size + 2 * half],
    ];
    return freeze(ratio > 0 ? [plate, feeder] : [plate], 4, 160).last;
  };
  test.each([
    [0, 'in the middle of the plate', 0, size],
    [0.8, 'still in the plate, under the feeder', 0, size],
    [1.2, 'in the feeder', size, 4 * size],
  ])('of %f times the modulus: %s', (ratio, _, low, high) => {
    const [x, y] = lastWith(ratio);
    console.log(`feeder of ${ratio}: last at ${x.toFixed(1)}, ${y.toFixed(1)}`);
    expect(Math.abs(x)).toBeLessThan(4);
    expect(y).toBeGreaterThan(low);
    expect(y).toBeLessThan(high);
    if (ratio === 0) expect(Math.abs(y - size / 2)).toBeLessThan(2.1);
  });
});

describe('steel plate in sand: where it feeds by Niyama’s limit, G/√Ṫ = 0.775 √(K·s)/mm (1 °C½ min½/cm)', () => {
  const t = 20;
  const plate: Brick = [
    [0, 300],
    [0, t],
  ];
  /** Distances along the middle, in T, that reach the limit without a break from where they begin. */
  const reach = (run: Frozen, from: number): number => {
    const [nx] = run.grid.counts;
    const row = run.grid.edges[1].findLastIndex((e) => e <= t / 2 - 1);
    for (let i = run.grid.edges[0].findLastIndex((e) => e <= from + 1); i < nx; i++) {
      const c = i + nx * row;
      if (run.gradient[c]! / Math.sqrt(run.coolingRate[c]!) < Math.sqrt(60) / 10)
        return (run.grid.edges[0][i]! - from) / t;
    }
    return Number.POSITIVE_INFINITY;
  };
  test('end effect of 2.5 T (Bishop and Pellini), from 2.2 to 3.2 T', () => {
    const end = reach(freeze([plate], 2, 80), 0);
    console.log(`plate's end feeds over ${end.toFixed(2)} T`);
    expect(end).toBeGreaterThan(2.2);
    expect(end).toBeLessThan(3.2);
  });
  test('effect of a feeder 3 T wide and as high, 2 T by the same, from 1.4 to 2.4 T', () => {
    const feeder: Brick = [
      [-3 * t, 0],
      [0, 3 * t],
    ];
    const run = freeze([plate, feeder], 2, 80);
    const fed = reach(run, 0);
    console.log(`feeder feeds over ${fed.toFixed(2)} T`);
    expect(fed).toBeGreaterThan(1.4);
    expect(fed).toBeLessThan(2.4);
  });
  test('a square bar feeds less far than a plate, and no farther than Bishop and Pellini’s 6 √T inches in all (30 √T mm)', () => {
    const square: Span = [0, t];
    const bar: Brick = [[0, 10 * t], square, square];
    // An odd number of cells across: one lies on the axis, where heat flows along the bar alone.
    const h = t / 9;
    const feeder: Brick = [
      [-22 * h, 0],
      [-7 * h, 16 * h],
      [-7 * h, 16 * h],
    ];
    const along = (run: Frozen): number => {
      const [nx, ny] = run.grid.counts;
      const [row, layer] = [1, 2].map((a) => run.grid.edges[a as 1].findLastIndex((e) => e <= t / 2 - 1)) as [
        number,
        number,
      ];
      const begin = run.grid.edges[0].findLastIndex((e) => e <= 1);
      for (let i = begin; i < nx; i++) {
        const c = i + nx * (row + ny * layer);
        if (run.gradient[c]! / Math.sqrt(run.coolingRate[c]!) < Math.sqrt(60) / 10)
          return run.grid.edges[0][i]! / t;
      }
      return Number.POSITIVE_INFINITY;
    };
    const end = along(freeze([bar], h, 60));
    const fed = along(freeze([bar, feeder], h, 60));
    console.log(`bar's end feeds over ${end.toFixed(2)} T, a feeder over ${fed.toFixed(2)} T`);
    expect(end).toBeGreaterThan(1.2);
    expect(end).toBeLessThan(2.3);
    expect(fed).toBeGreaterThan(0.5);
    expect(fed).toBeLessThan(1.6);
    expect((end + fed) * t).toBeLessThan(30 * Math.sqrt(t));
  });
});
