import { beforeAll, describe, expect, it } from 'vitest';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel } from '../../core/solid/types.js';
import { sizeBetweenBalls } from '../helpers/ball-gauge.js';
import { buildStates, measuredStates } from '../helpers/built-states.js';
import { type Flat, type Loop, type Plane, section } from '../helpers/sections.js';
import { boxOf, type WeldedMesh } from '../helpers/welded-mesh.js';

/** Every size of the inspection sheets of ring gear and rack, found on the meshes of part, casting and pattern. */
let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const deg = Math.PI / 180;
const tolerance = 0.003;
const stock = { flank: 0.12, tip: 0.15, face: 0.3, mating: 0.4 };
const growth = 1.0182;

const lengthsOf = (points: WeldedMesh['points'], of: (x: number, y: number) => number): number[] =>
  Array.from({ length: points.length / 3 }, (_, i) =>
    of(points[3 * i] as number, points[3 * i + 1] as number),
  );

const rings: Readonly<Record<string, Record<string, unknown>>> = {
  'ring 48': { module: 2, teeth: 48, faceWidth: 10, addendum: 0.8, thinning: 0.05 },
  'ring 51, x −0.2': { module: 2, teeth: 51, faceWidth: 10, addendum: 0.8, profileShift: -0.2 },
  'helical ring 44 of 20°': { module: 2, teeth: 44, faceWidth: 12, addendum: 0.8, helixAngle: 20 * deg },
};

describe('ring gears', () => {
  it.each(Object.entries(rings))('%s', (_, parameters) => {
    const { rows, meshes } = buildStates(kernel, 'ring-gear', parameters, { stock, growth, tolerance });
    const teeth = parameters.teeth as number;
    const pin = rows.find((r) => r.symbol.startsWith('M_'))?.symbol as string;
    const helical = parameters.helixAngle !== undefined;
    expect(rows.map((r) => r.symbol)).toEqual([
      ...['d_a', 'd_f', pin, 'D_o', 'b', 'd', 'd_b'],
      ...(helical ? ['p_z', 'p_x'] : []),
      'τ',
    ]);
    for (const state of measuredStates) {
      const mesh = meshes[state];
      const radii = lengthsOf(mesh.points, Math.hypot);
      const outside = radii.reduce((a, b) => Math.max(a, b));
      const inner = radii.filter((r) => r < outside - 1);
      const box = boxOf(mesh);
      const found: Record<string, number> = {
        D_o: 2 * outside,
        d_a: 2 * inner.reduce((a, b) => Math.min(a, b)),
        d_f: 2 * inner.reduce((a, b) => Math.max(a, b)),
        b: (box.max[2] as number) - (box.min[2] as number),
        [pin]: sizeBetweenBalls(mesh, teeth, Number(pin.slice(2))),
      };
      for (const [symbol, size] of Object.entries(found)) {
        const row = rows.find((r) => r.symbol === symbol);
        // A ball sinks by the chord over the sine of half its wedge, which is 14° at least in these rings.
        const within = symbol === pin ? (2 * tolerance) / Math.sin(14 * deg) : 2 * tolerance;
        expect(Math.abs(size - (row?.[state] as number)), `${symbol} of ${state}`).toBeLessThan(within);
      }
      // Calculated sizes: d = z m / cos β and d_b = d cos α_t, the same with stock, grown with the pattern.
      const d = (2 * teeth) / Math.cos((parameters.helixAngle as number | undefined) ?? 0);
      const grown = state === 'pattern' ? growth : 1;
      expect(rows.find((r) => r.symbol === 'd')?.[state]).toBeCloseTo(d * grown, 9);
    }
  });
});

const racks: Readonly<Record<string, Record<string, unknown>>> = {
  'rack of 16': { module: 2, teeth: 16, faceWidth: 12, thinning: 0.06 },
  'rack of 20°': { module: 2, teeth: 20, faceWidth: 14, helixAngle: 20 * deg },
  'rack of 14.5°': { module: 3, teeth: 8, faceWidth: 10, pressureAngle: 14.5 * deg },
};

describe('racks', () => {
  it.each(Object.entries(racks))('%s', (_, parameters) => {
    const { rows, meshes } = buildStates(kernel, 'rack', parameters, { stock, growth, tolerance });
    const beta = (parameters.helixAngle as number | undefined) ?? 0;
    const pin = rows.find((r) => r.symbol.startsWith('H_'))?.symbol as string;
    const pitch = rows.find((r) => r.symbol.startsWith('P_'))?.symbol as string;
    expect(rows.map((r) => r.symbol)).toEqual([...['L', 'h_t', 'h_f', 's_n', 'h_s', pin, pitch, 'b', 'p_n']]);
    for (const state of measuredStates) {
      const mesh = meshes[state];
      const row = (symbol: string): number => rows.find((r) => r.symbol === symbol)?.[state] as number;
      const { min, max } = boxOf(mesh) as { min: number[]; max: number[] };
      // A section square to the teeth through the middle of the rack: x runs to the right, y up from the back.
      const [u, origin] = [
        [Math.cos(beta), 0, Math.sin(beta)],
        [
          ((min[0] as number) + (max[0] as number)) / 2,
          min[1],
          ((min[2] as number) + (max[2] as number)) / 2,
        ],
      ] as unknown as [Plane['u'], Plane['origin']];
      const loop = section(mesh, { origin, u, v: [0, 1, 0] })[0] as Loop;
      const ends = [Math.min(...loop.map(([x]) => x)), Math.max(...loop.map(([x]) => x))] as const;
      const seats = pinSeats(loop, Number(pin.slice(2)), ends);
      const tops = seats.map(([, y]) => y + Number(pin.slice(2)) / 2);
      const over = Number(rows.find((r) => r.symbol === pitch)?.name.split(' ')[0]);
      const found: Record<string, number> = {
        L: (max[0] as number) - (min[0] as number),
        h_t: (max[1] as number) - (min[1] as number),
        h_f: rootOf(loop, ends),
        s_n: thicknessAt(loop, row('h_t') - row('h_s')),
        [pin]: tops.reduce((a, b) => a + b) / tops.length,
        [pitch]: (seats[over] as Flat)[0] - (seats[0] as Flat)[0] + Number(pin.slice(2)),
        b: (max[2] as number) - (min[2] as number),
      };
      for (const [symbol, size] of Object.entries(found)) {
        expect(Math.abs(size - row(symbol)), `${symbol} of ${state}`).toBeLessThan(2 * tolerance);
      }
    }
  });
});

/** Lowest place of the toothed side away from the ends. */
const rootOf = (loop: Loop, [from, to]: readonly [number, number]): number =>
  Math.min(...loop.filter(([x, y]) => y > 1 && x > from + 4 && x < to - 4).map(([, y]) => y));

/** Where the outline passes a height, left to right. */
const crossings = (loop: Loop, height: number): number[] =>
  loop
    .flatMap(([x, y], i) => {
      const [u, v] = loop[(i + 1) % loop.length] as Flat;
      return y >= height === v >= height ? [] : [x + ((height - y) / (v - y)) * (u - x)];
    })
    .sort((a, b) => a - b);

/** Width of metal at a height, of the tooth nearest to the middle. */
function thicknessAt(loop: Loop, height: number): number {
  const at = crossings(loop, height);
  const teeth = Array.from(
    { length: at.length / 2 },
    (_, i) => [at[2 * i], at[2 * i + 1]] as [number, number],
  );
  const [from, to] = teeth.reduce((a, b) => (Math.abs(b[0] + b[1]) < Math.abs(a[0] + a[1]) ? b : a));
  return to - from;
}

/** Centres of pins let down into the spaces of the section, left to right. */
function pinSeats(loop: Loop, diameter: number, [from, to]: readonly [number, number]): readonly Flat[] {
  const top = Math.max(...loop.map(([, y]) => y));
  const at = crossings(loop, top - 0.6);
  const spaces = Array.from(
    { length: at.length / 2 - 1 },
    (_, i) => [at[2 * i + 1], at[2 * i + 2]] as [number, number],
  );
  return spaces
    .filter(([a, b]) => a > from + 1 && b < to - 1)
    .map(([a, b]): Flat => {
      const rest = (x: number): number => {
        let [low, high] = [top - 3 * diameter, top + diameter];
        while (high - low > 1e-7) {
          const y = (low + high) / 2;
          if (nearest(loop, [x, y]) < diameter / 2) low = y;
          else high = y;
        }
        return high;
      };
      let [left, right] = [(a + b) / 2 - 0.3, (a + b) / 2 + 0.3];
      while (right - left > 1e-6) {
        const [m, n] = [left + (right - left) / 3, right - (right - left) / 3];
        if (rest(m) < rest(n)) right = n;
        else left = m;
      }
      return [(left + right) / 2, rest((left + right) / 2)];
    });
}

const nearest = (loop: Loop, [px, py]: Flat): number =>
  Math.min(
    ...loop.map(([x, y], i) => {
      const [u, v] = loop[(i + 1) % loop.length] as Flat;
      const [dx, dy] = [u - x, v - y];
      const f = Math.min(1, Math.max(0, ((px - x) * dx + (py - y) * dy) / (dx * dx + dy * dy || 1)));
      return Math.hypot(px - x - f * dx, py - y - f * dy);
    }),
  );
