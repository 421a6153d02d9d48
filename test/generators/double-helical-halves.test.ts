import { beforeAll, describe, expect, it } from 'vitest';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel } from '../../core/solid/types.js';
import { type BuiltStates, buildStates } from '../helpers/built-states.js';
import { areaOf, type Flat, horizontal, type Loop, radii, section } from '../helpers/sections.js';
import { polarOf, turnBetween } from '../helpers/turn-between.js';
import type { WeldedMesh } from '../helpers/welded-mesh.js';

/** The two halves of a double-helical gear as slices of its mesh show them. */
let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const thorough = process.env.PATTERNWRIGHT_FIGURES !== undefined;
const deg = Math.PI / 180;
const tolerance = 0.005;
const [teeth, faceWidth, apex] = [18, 30, 15];
const pitch = (2 * Math.PI) / teeth;
const stock = { flank: 0.12, tip: 0.12, face: 0.3 };
const growth = 1.018;

interface HalvesCase {
  readonly apex: 'sharp' | 'rounded' | 'gap' | 'staggered';
  readonly lowerHand: 'left' | 'right';
  /** Height over which the halves pass into each other or are parted, mm. */
  readonly width: number;
}

const cases: Readonly<Record<string, HalvesCase>> = {
  'sharp, lower half left': { apex: 'sharp', lowerHand: 'left', width: 0 },
  'sharp, lower half right': { apex: 'sharp', lowerHand: 'right', width: 0 },
  'rounded over 6 mm': { apex: 'rounded', lowerHand: 'right', width: 6 },
  'parted by 4 mm': { apex: 'gap', lowerHand: 'left', width: 4 },
  'parted by 4 mm and staggered': { apex: 'staggered', lowerHand: 'right', width: 4 },
};

const built = new Map<string, BuiltStates>();
function statesOf(title: string): BuiltStates {
  const c = cases[title] as HalvesCase;
  const known =
    built.get(title) ??
    buildStates(
      kernel,
      'double-helical-gear',
      {
        ...{ module: 2, teeth, profileShift: 0.2, helixAngle: 28 * deg, faceWidth, bore: 0 },
        ...{ apex: c.apex, lowerHand: c.lowerHand, ...(c.width > 0 ? { apexWidth: c.width } : {}) },
      },
      { stock, growth, tolerance },
    );
  built.set(title, known);
  return known;
}

const outlineAt = (mesh: WeldedMesh, z: number): Loop =>
  section(mesh, horizontal(z)).reduce((a, b) => (areaOf(b) > areaOf(a) ? b : a));
const tipAt = (mesh: WeldedMesh, z: number): number => Math.max(...radii(outlineAt(mesh, z)));

/** Turn of each slice against the first, added up from one to the next by best agreement. */
function turnsAt(mesh: WeldedMesh, heights: readonly number[]): number[] {
  const polar = heights.map((z) => polarOf(outlineAt(mesh, z), 4096));
  const turns = [0];
  for (let i = 1; i < polar.length; i++) {
    const step = turnBetween(polar[i - 1] as Float64Array, polar[i] as Float64Array, 0.45 * pitch);
    turns.push((turns.at(-1) as number) + step.turn);
  }
  return turns;
}

const evenly = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));

/** Least-squares line through turns at heights. */
function lineThrough(heights: readonly number[], turns: readonly number[]) {
  const n = heights.length;
  const mean = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0) / n;
  const [z, t] = [mean(heights), mean(turns)];
  const slope =
    heights.reduce((sum, h, i) => sum + (h - z) * ((turns[i] as number) - t), 0) /
    heights.reduce((sum, h) => sum + (h - z) ** 2, 0);
  return { slope, at: (height: number): number => t + slope * (height - z) };
}

/** How far the sides of one outline lie from the other, mm. */
function apart(one: Loop, other: Loop): number {
  let worst = 0;
  one.forEach(([x0, y0], i) => {
    const [x1, y1] = one[(i + 1) % one.length] as Flat;
    for (const [x, y] of [
      [x0, y0],
      [(x0 + x1) / 2, (y0 + y1) / 2],
    ] as const) {
      let nearest = Infinity;
      other.forEach(([a, b], k) => {
        const [c, d] = other[(k + 1) % other.length] as Flat;
        const [u, v] = [c - a, d - b];
        const f = Math.min(1, Math.max(0, ((x - a) * u + (y - b) * v) / (u * u + v * v || 1)));
        nearest = Math.min(nearest, Math.hypot(x - a - f * u, y - b - f * v));
      });
      worst = Math.max(worst, nearest);
    }
  });
  return worst;
}

const figures = (...words: readonly unknown[]): void => {
  if (thorough) console.log(...words);
};

/** Below and above the apex and what lies round it, clear of the ends. */
const halves = (c: HalvesCase, grown = 1): readonly [number[], number[]] => [
  evenly(0.13 * grown, (apex - c.width / 2 - 0.11) * grown, 9),
  evenly((apex + c.width / 2 + 0.11) * grown, (faceWidth - 0.13) * grown, 9),
];

describe.each(Object.keys(cases))('%s', (title) => {
  const c = cases[title] as HalvesCase;
  const radius = 22;
  /** +1 where the teeth turn counter-clockwise as they rise: a right hand. */
  const lower = c.lowerHand === 'right' ? 1 : -1;

  it('lead and hand of both halves, in part, casting and pattern', () => {
    const { rows, meshes } = statesOf(title);
    for (const state of ['part', 'casting', 'pattern'] as const) {
      const lead = rows.find((row) => row.symbol === 'p_z')?.[state] as number;
      halves(c, state === 'pattern' ? growth : 1).forEach((heights, half) => {
        const turns = turnsAt(meshes[state], heights);
        const hand = half === 0 ? lower : -lower;
        const length = (heights.at(-1) as number) - (heights[0] as number);
        const { slope, at } = lineThrough(heights, turns);
        expect(Math.sign(slope)).toBe(hand);
        // How far the ends of the half would part, the one held.
        const off = (slope - (hand * 2 * Math.PI) / lead) * length * radius;
        expect(Math.abs(off)).toBeLessThan(tolerance / 2);
        // And straight: every slice lies on the line.
        const bend = Math.max(...heights.map((z, i) => Math.abs((turns[i] as number) - at(z)))) * radius;
        expect(bend).toBeLessThan(tolerance);
        figures(
          title,
          state,
          half,
          `lead ${((2 * Math.PI) / slope).toFixed(3)} for ${lead.toFixed(3)}, bend ${bend}`,
        );
      });
    }
  });

  it('the halves are mirror images in the apex plane, or half a pitch from it', () => {
    const mesh = statesOf(title).meshes.part;
    for (const away of [2.07, 5.3, 9.91, 14.9]) {
      const [below, above] = [outlineAt(mesh, apex - away), outlineAt(mesh, apex + away)];
      const { turn, left } = turnBetween(polarOf(below, 4096), polarOf(above, 4096), 0.6 * pitch);
      const expected = c.apex === 'staggered' ? pitch / 2 : 0;
      const off = (Math.abs(turn) - expected) * radius;
      figures(title, away, `turned ${turn}, off ${off} mm, left ${left}`);
      expect(Math.abs(off)).toBeLessThan(tolerance);
      expect(left).toBeLessThan(tolerance);
      if (c.apex !== 'staggered') expect(apart(below, above)).toBeLessThan(2 * tolerance);
    }
  });

  it('which way the apex leads: clockwise, seen from above, where the lower half is left-hand', () => {
    const mesh = statesOf(title).meshes.part;
    // One tooth, or the space beside it, followed from either end to the apex.
    const [down, up] = halves(c);
    const rise = turnsAt(mesh, down).at(-1) as number;
    const fall = -(turnsAt(mesh, up).at(-1) as number);
    // The apex stands clockwise of both ends, and so goes first when the gear turns clockwise.
    const clockwise = c.lowerHand === 'left';
    expect(rise < -pitch / 2).toBe(clockwise);
    expect(fall < -pitch / 2).toBe(clockwise);
    expect(rise > pitch / 2).toBe(!clockwise);
    expect(fall > pitch / 2).toBe(!clockwise);
  });
});

describe('where the halves meet', () => {
  const sharp = 'sharp, lower half left';
  const rounded = 'rounded over 6 mm';

  /** Area of the triangles that lie level at a height, mm²: a step would have ledges. */
  const ledges = ({ points, triangles }: WeldedMesh, height: number): number => {
    let area = 0;
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => 3 * (triangles[t + k] as number)) as [number, number, number];
      if ([a, b, c].some((i) => Math.abs((points[i + 2] as number) - height) > 1e-4)) continue;
      const p = (i: number, k: number): number => points[i + k] as number;
      area +=
        Math.abs((p(b, 0) - p(a, 0)) * (p(c, 1) - p(a, 1)) - (p(b, 1) - p(a, 1)) * (p(c, 0) - p(a, 0))) / 2;
    }
    return area;
  };

  it.each([sharp, 'sharp, lower half right', rounded])('%s: no step', (title) => {
    for (const state of ['part', 'pattern'] as const) {
      const mesh = statesOf(title).meshes[state];
      const plane = state === 'pattern' ? apex * growth : apex;
      const [below, above] = [outlineAt(mesh, plane - 1e-4), outlineAt(mesh, plane + 1e-4)];
      const step = Math.max(apart(below, above), apart(above, below));
      figures(title, state, `step ${step} mm`);
      expect(step).toBeLessThan(tolerance / 10);
      expect(ledges(mesh, plane)).toBe(0);
      // A tooth's middle lies on +X there: mirrored in that direction the outline is itself.
      expect(
        apart(
          above.map(([x, y]): Flat => [x, -y]),
          above,
        ),
      ).toBeLessThan(tolerance);
    }
  });

  /** Greatest change of slope from one step to the next, in slopes of the helix, and the slope at the apex. */
  function slopesOf(title: string) {
    const mesh = statesOf(title).meshes.part;
    const heights = evenly(apex - 4.5, apex + 4.5, 25);
    const turns = turnsAt(mesh, heights);
    const slopes = turns.slice(1).map((turn, i) => (turn - (turns[i] as number)) / (9 / 24));
    const straight = Math.abs(slopes[0] as number);
    return {
      jump: Math.max(...slopes.slice(1).map((s, i) => Math.abs(s - (slopes[i] as number)))) / straight,
      middle: Math.max(Math.abs(slopes[11] as number), Math.abs(slopes[12] as number)) / straight,
      ends: Math.abs(((slopes[0] as number) + (slopes.at(-1) as number)) / straight),
    };
  }

  it('rounded: the run of the tooth turns back without a corner; sharp: with one', () => {
    const [soft, hard] = [slopesOf(rounded), slopesOf(sharp)];
    figures('slopes', soft, hard);
    // 2 slopes over the 16 steps of the rounding: an eighth each, twice that where the mesh has a layer less.
    expect(soft.jump).toBeLessThan(0.3);
    expect(soft.middle).toBeLessThan(0.2);
    expect(hard.jump).toBeGreaterThan(1.95);
    for (const { ends } of [soft, hard]) expect(ends).toBeLessThan(0.01);
  });

  it.each(['parted by 4 mm', 'parted by 4 mm and staggered'])('%s: groove and teeth', (title) => {
    const { meshes } = statesOf(title);
    const staggered = title.endsWith('staggered');
    for (const state of ['part', 'casting'] as const) {
      const mesh = meshes[state];
      // The groove's walls carry the stock of side faces.
      const half = (4 - (state === 'casting' ? 2 * stock.face : 0)) / 2;
      const [root, tip] = [Math.min(...radii(outlineAt(mesh, 3))), tipAt(mesh, 3)];
      for (const side of [1, -1]) {
        expect(tipAt(mesh, apex + side * (half - 0.001))).toBeLessThan(root);
        expect(tipAt(mesh, apex + side * (half + 0.001))).toBeGreaterThan(tip - tolerance);
      }
      expect(tipAt(mesh, apex)).toBeGreaterThan(0.8 * root);
      // Where lower and upper teeth would meet, carried on to the apex plane.
      const [down, up] = halves(cases[title] as HalvesCase);
      const [lower, upper] = [turnsAt(mesh, down), turnsAt(mesh, up)];
      const across = turnBetween(
        polarOf(outlineAt(mesh, down.at(-1) as number), 4096),
        polarOf(outlineAt(mesh, up[0] as number), 4096),
        0.6 * pitch,
      ).turn;
      const meeting =
        across +
        (lineThrough(up, upper).at(apex) - (upper[0] as number)) -
        (lineThrough(down, lower).at(apex) - (lower.at(-1) as number));
      const off = (Math.abs(meeting) - (staggered ? pitch / 2 : 0)) * 22;
      figures(title, state, `meet off by ${off} mm`);
      expect(Math.abs(off)).toBeLessThan(tolerance);
    }
  });
});
