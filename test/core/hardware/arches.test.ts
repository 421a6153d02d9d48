import { describe, expect, it } from 'vitest';
import { archLoad } from '../../../core/hardware/index.js';

describe('arch on built-in legs', () => {
  it('half ring without legs: 0.459 F, 0.151 F R, 0.111 F R (Roark, circular arches, from memory)', () => {
    const a = archLoad(1, 1);
    expect(a.thrust).toBeCloseTo(0.459, 3);
    expect(a.crown).toBeCloseTo(0.151, 3);
    expect(a.foot).toBeCloseTo(0.111, 3);
  });

  it('any legs: the feet do not turn or spread, summed over short pieces of the bar', () => {
    for (const [r, leg] of [
      [10, 0],
      [10, 6],
      [8, 30],
    ] as const) {
      const force = 700;
      const { crown, thrust, foot, flank } = archLoad(force, r, leg);
      const n = 40_000;
      let [turn, spread, least] = [0, 0, 0];
      const add = (depth: number, out: number, ds: number): number => {
        const moment = crown + thrust * depth - (force / 2) * out;
        turn += moment * ds;
        spread += moment * depth * ds;
        least = Math.min(least, moment);
        return moment;
      };
      for (let i = 0; i < n; i++) {
        const angle = (((i + 0.5) / n) * Math.PI) / 2;
        add(r * (1 - Math.cos(angle)), r * Math.sin(angle), ((r * Math.PI) / 2) * (1 / n));
      }
      for (let i = 0; i < n && leg > 0; i++) add(r + ((i + 0.5) / n) * leg, r, leg / n);
      const scale = force * r * (r + leg);
      expect(Math.abs(turn) / scale).toBeLessThan(1e-6);
      expect(Math.abs(spread) / (scale * (r + leg))).toBeLessThan(1e-6);
      expect(-least / flank).toBeCloseTo(1, 6);
      expect(Math.abs(crown + thrust * (r + leg) - (force / 2) * r)).toBeCloseTo(foot, 6);
    }
  });
});
