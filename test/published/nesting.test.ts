/**
 * Nesting against arrangements that are known to be perfect or the best found: what share of them is reached, with no gap
 * and no margin. The bounds are what is reached, less a little. Values "from memory" are known from the literature
 * named and were not looked up; where they can be checked by reckoning, they are.
 */
import { describe, expect, test } from 'vitest';
import { type NestItem, nest } from '../../core/plate/index.js';
import { faultsOf, roundRing } from '../core/plate/plate-oracle.js';

type Point = readonly [number, number];
const bedOf = (width: number, shape: 'rectangle' | 'circle' = 'rectangle', depth = width) =>
  ({ shape, width, depth, height: 20, margin: 0, gap: 0 }) as const;
const piece = (name: string, outline: readonly Point[]): NestItem => ({
  name,
  copy: 1,
  outline: [outline],
  height: 5,
});
const rectangle = (name: string, w: number, h: number): NestItem =>
  piece(name, [
    [0, 0],
    [w, 0],
    [w, h],
    [0, h],
  ]);
const areaOf = (ring: readonly Point[]): number =>
  ring.reduce((sum, [x, y], i) => {
    const [nx, ny] = ring[(i + 1) % ring.length]!;
    return sum + (x * ny - nx * y) / 2;
  }, 0);

/** The whole lies on one bed, and truly. */
function expectOneBed(items: readonly NestItem[], bed: ReturnType<typeof bedOf>): void {
  const result = nest(items, bed);
  expect(faultsOf(items, bed, result)).toEqual([]);
  expect(result.plates.length).toBe(1);
}

describe('perfect squares and polyominoes', () => {
  test('A. J. W. Duijvestijn, 1978 (from memory): 21 unlike squares that fill one of 112', () => {
    const sides = [50, 42, 37, 35, 33, 29, 27, 25, 24, 19, 18, 17, 16, 15, 11, 9, 8, 7, 6, 4, 2];
    expect(sides.reduce((s, a) => s + a * a, 0)).toBe(112 * 112);
    const squares = sides.map((a) => rectangle(`square ${a}`, a, a));
    const tight = nest(squares, bedOf(112));
    expect(faultsOf(squares, bedOf(112), tight)).toEqual([]);
    // The perfect arrangement is one of very many: 98.0 % of it is reached, or all of it on a bed of 117.
    expect(tight.densities[0]).toBeGreaterThan(0.96);
    expectOneBed(squares, bedOf(117));
  });

  test('the twelve pentominoes fill 6 × 10 (C. and J. Haselgrove, 1960, from memory): ten at least are laid', () => {
    const tiling = tilePentominoes(6, 10);
    const items = tiling.map((cells, i) => piece(`piece ${i}`, outlineOf(cells, 10)));
    expect(items.reduce((s, i) => s + areaOf(i.outline[0]!), 0)).toBe(6000);
    const bed = bedOf(100, 'rectangle', 60);
    const result = nest(items, bed);
    expect(faultsOf(items, bed, result)).toEqual([]);
    expect(result.plates[0]!.length).toBeGreaterThanOrEqual(10);
    expectOneBed(items, bedOf(100, 'rectangle', 80));
  });

  test('240 L-trominoes fill 24 beds of 5 × 6, all alike: two make 2 × 3, and 5 × 6 is five of these', () => {
    const tromino = outlineOf(
      [
        [0, 0],
        [1, 0],
        [0, 1],
      ],
      20,
    );
    const outline = [tromino];
    const items = Array.from({ length: 240 }, (_, i) => ({ name: 'L', copy: i + 1, outline, height: 5 }));
    const bed = bedOf(120, 'rectangle', 100);
    const result = nest(items, bed);
    expect(faultsOf(items, bed, result)).toEqual([]);
    expect(result.densities).toEqual(Array.from({ length: 24 }, () => expect.closeTo(1, 9)));
    const layout = ({ x, y, turn }: (typeof result.plates)[number][number]) => `${x} ${y} ${turn}`;
    expect(new Set(result.plates.map((plate) => plate.map(layout).sort().join())).size).toBe(1);
  });

  test('the tangram: six sevenths of its square of 80, all of it in one of 87', () => {
    const shapes: readonly (readonly [string, readonly Point[]])[] = [
      [
        'large',
        [
          [0, 0],
          [4, 0],
          [2, 2],
        ],
      ],
      [
        'large too',
        [
          [0, 0],
          [2, 2],
          [0, 4],
        ],
      ],
      [
        'middle',
        [
          [4, 2],
          [4, 4],
          [2, 4],
        ],
      ],
      [
        'small',
        [
          [4, 0],
          [4, 2],
          [3, 1],
        ],
      ],
      [
        'small too',
        [
          [2, 2],
          [3, 3],
          [1, 3],
        ],
      ],
      [
        'square',
        [
          [3, 1],
          [4, 2],
          [3, 3],
          [2, 2],
        ],
      ],
      [
        'slanted',
        [
          [1, 3],
          [3, 3],
          [2, 4],
          [0, 4],
        ],
      ],
    ];
    const items = shapes.map(([name, ring]) =>
      piece(
        name,
        ring.map(([x, y]): Point => [20 * x, 20 * y]),
      ),
    );
    expect(items.reduce((s, i) => s + areaOf(i.outline[0]!), 0)).toBe(6400);
    const tight = nest(items, bedOf(80));
    expect(faultsOf(items, bedOf(80), tight)).toEqual([]);
    expect(tight.densities[0]).toBeGreaterThan(6 / 7);
    expectOneBed(items, bedOf(87));
  });
});

describe('equal circles', () => {
  // Largest radius for n circles in a square of side 1; the first ones in closed form, the rest from memory
  // (R. Peikert et al., "Packing circles in a square", 1992).
  test.each([
    [4, 1 / 4, 0.995],
    [5, (Math.SQRT2 - 1) / 2, 0.995],
    [7, 0.174458, 0.995],
    [10, 0.148204, 0.985],
    [13, 0.133994, 0.995],
    [20, 0.111382, 0.995],
    [30, 0.091671, 0.99],
  ])('%i in a square: all are laid at that share of the largest radius', (n, largest, share) => {
    const outline = [roundRing(0, 0, 200 * largest * share)];
    const circles = Array.from({ length: n }, (_, i) => ({ name: 'disc', copy: i + 1, outline, height: 5 }));
    expectOneBed(circles, bedOf(200));
    // And what is said to be the largest is not beaten by two hundredths.
    const beyond = [roundRing(0, 0, 200 * largest * 1.02)];
    expect(
      nest(
        circles.map((c) => ({ ...c, outline: beyond })),
        bedOf(200),
      ).plates.length,
    ).toBeGreaterThan(1);
  });

  test.each([
    [7, 1 / 3, 0.99],
    [19, 1 / (1 + Math.SQRT2 + Math.sqrt(6)), 0.99],
  ])(
    '%i in a circle (S. Kravitz, 1967): all are laid at that share of the largest radius',
    (n, largest, share) => {
      const outline = [roundRing(0, 0, 100 * largest * share)];
      const circles = Array.from({ length: n }, (_, i) => ({
        name: 'disc',
        copy: i + 1,
        outline,
        height: 5,
      }));
      expectOneBed(circles, bedOf(200, 'circle'));
    },
  );
});

describe('sheets cut up at random, seeded, to be laid again', () => {
  test.each([1, 2, 3])(
    'into 20 rectangles by straight cuts, seed %i: nine tenths of a sheet and more',
    (seed) => {
      const items = cutUp(20, seed, false).map((ring, i) => piece(`piece ${i}`, ring));
      const tight = nest(items, bedOf(200));
      expect(faultsOf(items, bedOf(200), tight)).toEqual([]);
      expect(tight.densities[0]).toBeGreaterThan(0.9);
      expectOneBed(items, bedOf(Math.ceil(200 / Math.sqrt(0.88))));
    },
  );

  test.each([1, 2])(
    'into 8 polygons by cuts at any angle, each turned, seed %i: seven tenths at once',
    (seed) => {
      const items = cutUp(8, seed, true).map((ring, i) => piece(`piece ${i}`, ring));
      expect(items.reduce((s, i) => s + areaOf(i.outline[0]!), 0)).toBeCloseTo(40_000, 6);
      const tight = nest(items, bedOf(200), { rounds: 60 });
      expect(faultsOf(items, bedOf(200), tight)).toEqual([]);
      expect(tight.densities[0]).toBeGreaterThan(0.7);
    },
  );

  test('three sheets of 15 rectangles each: three beds and a quarter of one', () => {
    const items = [4, 5, 6].flatMap((seed) =>
      cutUp(15, seed, false).map((ring, i) => piece(`${seed} ${i}`, ring)),
    );
    const result = nest(items, bedOf(200));
    expect(faultsOf(items, bedOf(200), result)).toEqual([]);
    expect(result.plates.length).toBe(4);
    expect(result.densities[3]!).toBeLessThan(0.25);
  });
});

/** A square of 200 cut in two, the largest piece of what there is again and again. */
function cutUp(count: number, seed: number, anyAngle: boolean): readonly (readonly Point[])[] {
  let state = seed;
  // Lehmer's generator with 48271 (S. Park, K. Miller, 1993).
  const random = (): number => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
  for (let i = 0; i < 5; i++) random();
  let pieces: (readonly Point[])[] = [
    [
      [0, 0],
      [200, 0],
      [200, 200],
      [0, 200],
    ],
  ];
  while (pieces.length < count) {
    pieces = [...pieces].sort((a, b) => areaOf(b) - areaOf(a));
    const [ring, ...others] = pieces as [readonly Point[], ...(readonly Point[])[]];
    const xs = ring.map((p) => p[0]);
    const ys = ring.map((p) => p[1]);
    const isWide = Math.max(...xs) - Math.min(...xs) > Math.max(...ys) - Math.min(...ys);
    const angle = anyAngle ? 2 * Math.PI * random() : isWide ? 0 : Math.PI / 2;
    const [nx, ny] = [Math.round(1e6 * Math.cos(angle)) / 1e6, Math.round(1e6 * Math.sin(angle)) / 1e6];
    const along = ring.map(([x, y]) => nx * x + ny * y);
    const [low, high] = [Math.min(...along), Math.max(...along)];
    const cut = low + (0.3 + 0.4 * random()) * (high - low);
    const at = anyAngle ? cut : Math.round(cut);
    const side = (sign: number): Point[] =>
      ring.flatMap((a, i): Point[] => {
        const b = ring[(i + 1) % ring.length]!;
        const da = sign * (nx * a[0] + ny * a[1] - at);
        const db = sign * (nx * b[0] + ny * b[1] - at);
        const t = da / (da - db);
        return [
          ...(da >= 0 ? [a] : []),
          ...(da * db < 0 ? [[a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])] as const] : []),
        ];
      });
    pieces = [...others, side(1), side(-1)];
  }
  if (!anyAngle) return pieces;
  return pieces.map((ring) => {
    const turn = 2 * Math.PI * random();
    return ring.map(
      ([x, y]): Point => [x * Math.cos(turn) - y * Math.sin(turn), x * Math.sin(turn) + y * Math.cos(turn)],
    );
  });
}

/** Some tiling of rows × cols by the twelve pentominoes, turned and turned over as it needs, found by backtracking. */
function tilePentominoes(rows: number, cols: number): readonly (readonly Point[])[] {
  const forms = [
    'F .XX XX. .X.',
    'I XXXXX',
    'L X. X. X. XX',
    'N .X .X XX X.',
    'P XX XX X.',
    'T XXX .X. .X.',
    'U X.X XXX',
  ]
    .concat(['V X.. X.. XXX', 'W X.. XX. .XX', 'X .X. XXX .X.', 'Y .X XX .X .X', 'Z XX. .X. .XX'])
    .map((text) =>
      text
        .split(' ')
        .slice(1)
        .flatMap((row, y) => [...row].flatMap((c, x): Point[] => (c === 'X' ? [[x, y]] : []))),
    );
  const ways = forms.map((cells) => {
    const kept = new Map<string, readonly Point[]>();
    for (let k = 0; k < 8; k++) {
      let turned = cells.map(([x, y]): Point => (k < 4 ? [x, y] : [-x, y]));
      for (let q = 0; q < k % 4; q++) turned = turned.map(([x, y]): Point => [-y, x]);
      // Seen from its first cell in the order of filling: column by column.
      const sorted = [...turned].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
      const form = sorted.map(([x, y]): Point => [x - sorted[0]![0], y - sorted[0]![1]]);
      kept.set(JSON.stringify(form), form);
    }
    return [...kept.values()];
  });
  const grid = new Int8Array(rows * cols).fill(-1);
  const used = new Set<number>();
  const solve = (): boolean => {
    const first = grid.indexOf(-1);
    if (first < 0) return true;
    const [x0, y0] = [Math.floor(first / rows), first % rows];
    for (let f = 0; f < ways.length; f++) {
      if (used.has(f)) continue;
      for (const way of ways[f]!) {
        const places = way.map(([x, y]) =>
          x + x0 < cols && y + y0 >= 0 && y + y0 < rows ? (x + x0) * rows + y + y0 : -1,
        );
        if (places.some((p) => p < 0 || grid[p] !== -1)) continue;
        for (const p of places) grid[p] = f;
        used.add(f);
        if (solve()) return true;
        for (const p of places) grid[p] = -1;
        used.delete(f);
      }
    }
    return false;
  };
  expect(solve()).toBe(true);
  return forms.map((_, f) =>
    [...grid].flatMap((v, i): Point[] => (v === f ? [[Math.floor(i / rows), i % rows]] : [])),
  );
}

/** The outline of joined unit cells, times `scale`, counter-clockwise. */
function outlineOf(cells: readonly Point[], scale: number): readonly Point[] {
  const has = (x: number, y: number): boolean => cells.some((c) => c[0] === x && c[1] === y);
  const next = new Map<string, Point>();
  for (const [x, y] of cells) {
    if (!has(x, y - 1)) next.set(`${x} ${y}`, [x + 1, y]);
    if (!has(x + 1, y)) next.set(`${x + 1} ${y}`, [x + 1, y + 1]);
    if (!has(x, y + 1)) next.set(`${x + 1} ${y + 1}`, [x, y + 1]);
    if (!has(x - 1, y)) next.set(`${x} ${y + 1}`, [x, y]);
  }
  const ring: Point[] = [];
  let at: Point = next.values().next().value!;
  for (let i = 0; i < next.size; i++) {
    ring.push([scale * at[0], scale * at[1]]);
    at = next.get(`${at[0]} ${at[1]}`)!;
  }
  return ring;
}
