import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findAlloy } from '../../../core/foundry/alloys/index.js';
import {
  filletRadius,
  finFindings,
  finLimit,
  junctionCircle,
  leastFin,
  leastWall,
  sectionUniformity,
} from '../../../core/hardware/casting-rules.js';
import { cleatFastener, cleatLength, hornCleatRule, lineForCleat } from '../../../core/hardware/cleats.js';
import { handleRoom, leastHandleDepth, leastHandleWidth, recessRoom } from '../../../core/hardware/hands.js';
import { lineLoad, ropeBreakingStrength, ropeFibres, ropeTable } from '../../../core/hardware/ropes.js';

describe('hands', () => {
  it('more fingers want more room; gloves more than bare; a large finger always goes in', () => {
    for (const room of [handleRoom, recessRoom]) {
      for (const cover of ['bare', 'gloved'] as const) {
        for (const n of [1, 2, 3, 4] as const) {
          const r = room(n, cover);
          expect(r.depth).toBeGreaterThan(leastHandleDepth(cover));
          expect(r.width).toBeGreaterThan(leastHandleWidth(n, cover));
          expect(room(n, 'gloved').width).toBeGreaterThan(room(n, 'bare').width);
          if (n < 4) expect(room((n + 1) as 2 | 3 | 4, cover).width).toBeGreaterThan(r.width);
        }
      }
    }
    expect(handleRoom(3).width).toBe(88);
  });
});

describe('rope', () => {
  it('gives the table back, and rises all the way from 2 to 40 mm', () => {
    for (const fibre of ropeFibres) {
      for (const [d, n] of ropeTable[fibre]) expect(ropeBreakingStrength(fibre, d)).toBeCloseTo(n, 6);
      for (let d = 2; d < 40; d += 0.1) {
        expect(ropeBreakingStrength(fibre, d + 0.1)).toBeGreaterThan(ropeBreakingStrength(fibre, d));
      }
    }
  });
  it('nylon is the strongest, manila the weakest', () => {
    for (const d of [6, 10, 16, 24]) {
      const [nylon, polyester, , manila] = ropeFibres.map((f) => ropeBreakingStrength(f, d)) as [
        number,
        number,
        number,
        number,
      ];
      expect(nylon).toBeGreaterThan(polyester);
      expect(polyester).toBeGreaterThan(manila);
    }
  });
  it('the working share is the caller’s to choose; nought is no rope', () => {
    expect(lineLoad('nylon', 10, 1 / 10)).toBeCloseTo(lineLoad('nylon', 10) / 2, 9);
    expect(() => ropeBreakingStrength('nylon', 0)).toThrow('over 0');
  });
});

describe('cleats', () => {
  it('a line and its cleat find each other; the horns leave room for the line; the parts fit in the whole (seed 6)', () => {
    fc.assert(
      fc.property(fc.double({ min: 3, max: 30, noNaN: true }), (d) => {
        expect(lineForCleat(cleatLength(d))).toBeCloseTo(d, 9);
        const rule = hornCleatRule(d);
        expect(rule.hornClearance.root).toBeGreaterThanOrEqual(1.5 * d);
        expect(rule.hornClearance.tip).toBeGreaterThan(rule.hornClearance.root);
        expect(rule.hornClearance.root + rule.hornDiameter.root).toBeLessThanOrEqual(rule.overallHeight);
        expect(rule.hornDiameter.tip).toBeLessThan(rule.hornDiameter.root);
        expect(rule.fastenerSpan).toBeLessThan(rule.baseLength);
        expect(rule.baseLength).toBeLessThan(rule.length);
      }),
      { seed: 6 },
    );
  });
  it('bolts and screws at least half the line', () => {
    expect(cleatFastener('bolt', 'metric', 12).name).toBe('M6');
    expect(cleatFastener('bolt', 'inch', 12.7).name).toBe('1/4in');
    expect(cleatFastener('wood-screw', 'inch', 9.5).diameter).toBeGreaterThanOrEqual(4.75);
  });
});

describe('casting rules', () => {
  it('fillets: least below usual below most, from a hair to a block', () => {
    for (const [a, b] of [
      [1, 1],
      [3, 12],
      [12, 3],
      [20, 20],
    ] as const) {
      const r = filletRadius(a, b);
      expect(r.least).toBeLessThanOrEqual(r.usual);
      expect(r.usual).toBeLessThanOrEqual(r.most);
      expect(filletRadius(b, a)).toEqual(r);
    }
  });
  it('a T’s circle touches the far side and both fillets, whose centres are a/2 + r and t + r away', () => {
    for (const [t, a, r] of [
      [5, 5, 2],
      [8, 4, 3],
      [10, 12, 1],
    ] as const) {
      const radius = junctionCircle(t, a, r) / 2;
      expect(Math.hypot(a / 2 + r, t + r - radius)).toBeCloseTo(radius + r, 9);
    }
  });
  it('mould fins: none below the least, deeper the thicker, more where held on two edges', () => {
    expect(finLimit(leastFin - 0.01)).toBe(0);
    for (let t = leastFin; t < 10; t += 0.1) {
      expect(finLimit(t + 0.1)).toBeGreaterThan(finLimit(t));
      expect(finLimit(t, 'two-edges')).toBeGreaterThanOrEqual(finLimit(t));
    }
    expect(finFindings(3, 6, 'in the slot')).toEqual([]);
    expect(finFindings(3, 7, 'in the slot', 'one-edge', 'slot')).toEqual([
      {
        severity: 'warn',
        code: 'mould-fin-thin',
        message: "The mould's fin in the slot is 3 mm thick and 7 mm deep; this thick it holds to 6 mm.",
        remedy: 'Widen the gap, make it shallower or fill it and cut it in the metal.',
        parameters: ['slot'],
      },
    ]);
    expect(finFindings(1, 1, 'between knuckles')[0]?.message).toContain('under 1.5 mm none holds');
  });
  it('walls by the alloy; uniformity is thickest over thinnest', () => {
    expect(leastWall(findAlloy('tin-bronze')!)).toBe(findAlloy('tin-bronze')!.minimumSection);
    expect(leastWall()).toBe(1);
    expect(sectionUniformity([4, 6, 5])).toBe(1.5);
    expect(() => sectionUniformity([])).toThrow('no section');
  });
});
