import type { Vec2 } from '../../solid/types.js';
import type { Edge } from './drawn-part.js';

/** Distance of the lines, mm on paper (ISO 128-3: to suit the size of the areas). */
const usualSpacing = 2.2;
/** Sections narrower than this on paper are hatched more closely. */
const narrow = 10;

/**
 * Hatching at 45° of what the edges enclose, by the even-odd rule: pieces of parallel lines, rising to the right on
 * a sheet whose y runs down.
 */
export function hatchLines(edges: readonly Edge[]): readonly Edge[] {
  if (edges.length === 0) return [];
  // Turned coordinates: s along a line, t across the lines.
  const turned = edges.map(([a, b]) => [turn(a), turn(b)] as const);
  const across = turned.flatMap(([a, b]) => [a[1], b[1]]);
  const [low, high] = [least(across), -least(across.map((t) => -t))];
  const spacing = high - low < narrow ? usualSpacing * 0.6 : usualSpacing;
  const lines: Edge[] = [];
  for (let k = Math.floor(low / spacing); k <= Math.ceil(high / spacing); k++) {
    // Off the round numbers that corners lie on.
    const t = (k + 0.4127) * spacing;
    const cuts = turned
      .filter(([a, b]) => a[1] > t !== b[1] > t)
      .map(([a, b]) => a[0] + ((t - a[1]) / (b[1] - a[1])) * (b[0] - a[0]))
      .sort((p, q) => p - q);
    for (let i = 0; i + 1 < cuts.length; i += 2) {
      const [from, to] = [cuts[i] as number, cuts[i + 1] as number];
      if (to - from > 0.15) lines.push([turnBack([from, t]), turnBack([to, t])]);
    }
  }
  return lines;
}

const turn = ([x, y]: Vec2): Vec2 => [(x - y) * Math.SQRT1_2, (x + y) * Math.SQRT1_2];
const turnBack = ([s, t]: Vec2): Vec2 => [(s + t) * Math.SQRT1_2, (t - s) * Math.SQRT1_2];
const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b), Infinity);
