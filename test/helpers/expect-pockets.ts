import { expect } from 'vitest';
import { findPockets } from '../../core/foundry/air/pockets.js';
import type { Mesh, Vec3 } from '../../core/solid/types.js';
import { type VoxelPocket, voxelFlood } from './voxel-flood.js';

/**
 * Each pocket of the search is one of the flood's and the other way round, at the same top and level and of the same
 * volume: within a quarter of a cell on the pocket's boundary, and the layer within which the saddle is met. Both shrink
 * with the cells. Smaller pockets than `least` are left out, but one of the flood's as large must lie within its own
 * error of the threshold.
 */
export function expectAsFlooded(
  mesh: Mesh,
  {
    openHeight,
    cell,
    up = [0, 0, 1],
    least = 50,
  }: { openHeight: number; cell: number; up?: Vec3; least?: number },
): { readonly count: number; readonly volume: number; readonly flooded: number } {
  const length = Math.hypot(...up);
  const height = (p: Vec3): number => p.reduce((s, c, k) => s + (c * up[k]!) / length, 0);
  const { pockets } = findPockets(mesh, { openHeight: openHeight - 1e-3, up, least });
  const errorOf = (q: VoxelPocket): number => cell * (q.faces / 4 + q.footprint) + cell ** 3;
  const left = new Set(voxelFlood(mesh, { openHeight, cell, up }).pockets);
  const sums = { count: pockets.length, volume: 0, flooded: 0 };
  for (const p of pockets) {
    const likeness = (q: { at: Vec3; level: number; volume: number }): number =>
      Math.hypot(height(q.at) - height(p.at), q.level - height(p.saddle)) +
      0.2 * Math.hypot(...q.at.map((c, k) => c - p.at[k]!)) +
      Math.abs(Math.cbrt(q.volume) - Math.cbrt(p.volume));
    const [match] = [...left].sort((a, b) => likeness(a) - likeness(b));
    if (!match) {
      expect(p.volume, `a pocket at ${p.at} that cells do not show`).toBeLessThan(least + 20 * cell ** 2);
      continue;
    }
    left.delete(match);
    sums.volume += p.volume;
    sums.flooded += match.volume;
    const where = `pocket at ${p.at}, ${p.volume} mm³, flooded ${match.volume}`;
    expect(Math.abs(match.volume - p.volume), where).toBeLessThan(errorOf(match));
    expect(Math.abs(height(match.at) - height(p.at)), where).toBeLessThan(2 * cell);
    expect(Math.abs(match.level - height(p.saddle)), where).toBeLessThan(2 * cell);
  }
  for (const q of left) expect(q.volume, `cells show a pocket at ${q.at}`).toBeLessThan(least + errorOf(q));
  return sums;
}
