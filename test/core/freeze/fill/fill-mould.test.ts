import { describe, expect, test } from 'vitest';
import { ventBackPressure } from '../../../../core/foundry/gating/vents.js';
import { fillMould } from '../../../../core/freeze/fill/fill-mould.js';
import { flowAt } from '../../../../core/freeze/fill/flow.js';
import { boxMould, type CellBox, cellAt, gravity, plainFlow } from './boxes.js';

const seconds = (r: ReturnType<typeof fillMould>): number => r.plan.castings - r.plan.history[1]!.time;

/** A block 50 × 50 × 100 mm from 0 up, with a sprue down beside it to `gate`, a layer of cells. */
const beside = (gate: number): readonly CellBox[] => [
  { role: 'casting', from: [0, 0, 0], to: [10, 10, 20] },
  { role: 'gating', from: [11, 0, gate], to: [12, 1, 30] },
  { role: 'gating', from: [10, 0, gate], to: [11, 1, gate + 1] },
];
const onTop: readonly CellBox[] = [
  { role: 'casting', from: [0, 0, 0], to: [10, 10, 20] },
  { role: 'gating', from: [4, 4, 20], to: [5, 5, 30] },
];

describe('time to fill a block of 250 cm³ through a gate of 60 mm² (Groover; Rao; Campbell)', () => {
  const area = 60;
  const [base, height] = [2500, 100];
  test('from the top: t = V/(A √(2 g h))', () => {
    const r = fillMould(boxMould([12, 10, 30], 5, onTop, plainFlow(150, 100, area)));
    expect(seconds(r) / ((base * height) / (area * Math.sqrt(2 * gravity * 50)))).toBeCloseTo(1, 4);
    expect(r.plan.flow.first).toBeCloseTo(r.plan.flow.last, 6);
  });
  test('from the bottom: t = 2 A_m/(A_g √(2 g)) (√h_t − √(h_t − h_m))', () => {
    const r = fillMould(boxMould([12, 10, 30], 5, beside(0), plainFlow(150, 0, area)));
    const printed =
      ((2 * base) / (area * Math.sqrt(2 * gravity))) * (Math.sqrt(150) - Math.sqrt(150 - height));
    expect(seconds(r) / printed).toBeCloseTo(1, 4);
    expect(r.plan.flow.last / r.plan.flow.first).toBeCloseTo(Math.sqrt(50 / 150), 2);
  });
  test('from the parting line: the lower half as from the top, the upper as from the bottom', () => {
    // The gate's cells lie over z = 50.
    const r = fillMould(boxMould([12, 10, 30], 5, beside(10), plainFlow(150, 50, area)));
    const lower = (base * 50) / (area * Math.sqrt(2 * gravity * 100));
    const upper = ((2 * base) / (area * Math.sqrt(2 * gravity))) * (Math.sqrt(100) - Math.sqrt(50));
    expect(seconds(r) / (lower + upper)).toBeCloseTo(1, 3);
  });
  test('from the bottom to the cup’s own level: t = 2 A_m √h_t/(A_g √(2 g)), though the flow ends at nothing', () => {
    const boxes: readonly CellBox[] = [
      { role: 'casting', from: [0, 0, 0], to: [10, 10, 30] },
      ...beside(0).slice(1),
    ];
    const r = fillMould(boxMould([12, 10, 30], 5, boxes, plainFlow(150, 0, area)));
    expect(seconds(r) / (((2 * base) / (area * Math.sqrt(2 * gravity))) * Math.sqrt(150))).toBeCloseTo(1, 3);
    expect(r.plan.unreached).toBe(0);
  });
  test('a pourer slower than the sprue: the castings take the time he does, until the head gives less', () => {
    const free = fillMould(boxMould([12, 10, 30], 5, beside(0), plainFlow(150, 0, area))).plan;
    const slow = { ...plainFlow(150, 0, area), pourTime: 8 };
    const r = fillMould(boxMould([12, 10, 30], 5, beside(0), slow));
    expect(seconds(r)).toBeCloseTo(8, 4);
    expect(r.plan.flow.first).toBeCloseTo((base * height) / 8, 2);
    expect(r.plan.flow.last).toBeCloseTo((base * height) / 8, 2);
    const vents = [
      {
        name: 'v',
        diameter: 2,
        path: [
          [0, 0, 0],
          [0, 0, 60],
        ] as const,
      },
    ];
    const vented = fillMould(boxMould([12, 10, 30], 5, beside(0), { ...slow, pourTime: 60, vents })).plan;
    expect(vented.backPressure).toBeCloseTo(ventBackPressure(vents, (base * height) / 60), 6);
    const fast = fillMould(boxMould([12, 10, 30], 5, beside(0), { ...slow, pourTime: 0.1 })).plan;
    expect(fast).toEqual(free);
  });
  test('what stands over the cup’s level stays empty', () => {
    const r = fillMould(boxMould([12, 10, 30], 5, beside(0), plainFlow(70, 0, area)));
    expect(r.plan.unreached).toBeCloseTo(base * 30, 6);
    expect(r.filledAt[0]).toBeLessThan(60);
  });
});

describe('where the metal goes', () => {
  /** Two basins with a sill between them; metal comes into the first. */
  const sill: readonly CellBox[] = [
    { role: 'casting', from: [0, 0, 0], to: [9, 1, 8] },
    { role: 'mould', from: [4, 0, 0], to: [5, 1, 5] },
    { role: 'gating', from: [0, 0, 8], to: [1, 1, 12] },
  ];
  test('a basin fills to its sill before anything comes into the next, then both rise together', () => {
    const p = boxMould([9, 1, 12], 2, sill, plainFlow(24, 16, 4));
    const { filledAt, plan } = fillMould(p);
    const at = (i: number, k: number): number => filledAt[cellAt(p, i, 0, k)]!;
    const under = (from: number, to: number, low: number, high: number): number[] => {
      const all: number[] = [];
      for (let i = from; i < to; i++) for (let k = low; k < high; k++) all.push(at(i, k));
      return all;
    };
    const firstBasin = Math.max(...under(0, 4, 0, 5));
    const secondBasin = under(5, 9, 0, 5);
    expect(Math.min(...secondBasin)).toBeGreaterThan(firstBasin);
    // The gate's own column, where metal falls, is full before.
    expect(Math.min(...under(1, 9, 6, 8))).toBeGreaterThan(Math.max(...secondBasin));
    expect(plan.unreached).toBe(0);
  });
  test('two castings with a gate each fill side by side, wherever they stand', () => {
    for (const lift of [0, 2]) {
      const boxes: readonly CellBox[] = [
        { role: 'casting', from: [0, 0, 0], to: [4, 4, 8] },
        { role: 'casting', from: [6, 0, lift], to: [10, 4, 8 + lift] },
        { role: 'gating', from: [1, 1, 8], to: [2, 2, 12] },
        { role: 'gating', from: [7, 1, 8 + lift], to: [8, 2, 12] },
        { role: 'gating', from: [1, 1, 12], to: [8, 2, 14] },
      ];
      const plain = plainFlow(28, 20, 4);
      const both = { ...plain, branches: [plain.branches[0]!, plain.branches[0]!] };
      const p = boxMould([10, 4, 14], 2, boxes, both);
      const { filledAt, plan } = fillMould(p);
      const layer = (from: number, k: number): number => {
        let last = 0;
        for (let i = 0; i < 4; i++)
          for (let j = 0; j < 4; j++) last = Math.max(last, filledAt[cellAt(p, from + i, j, k)]!);
        return last;
      };
      const one = 1 / (4 * 4 * 8);
      for (let k = 0; k < 8; k++)
        expect(Math.abs(layer(0, k) - layer(6, k + lift)) / plan.castings).toBeLessThan(3 * one);
      expect(plan.unreached).toBe(0);
      // Twice the gates, twice the flow.
      const { plan: single } = fillMould(boxMould([10, 4, 14], 2, boxes, plain));
      expect(plan.flow.first / single.flow.first).toBeCloseTo(2, 6);
    }
  });
  test('it does not come through the mould, nor from sprue to vent, and says what stays empty', () => {
    const boxes: readonly CellBox[] = [
      { role: 'casting', from: [0, 0, 0], to: [3, 3, 3] },
      { role: 'casting', from: [5, 0, 0], to: [8, 3, 3] },
      { role: 'gating', from: [1, 1, 3], to: [2, 2, 8] },
      { role: 'vent', from: [2, 1, 4], to: [3, 2, 8] },
    ];
    const p = boxMould([8, 3, 8], 2, boxes, plainFlow(16, 6, 4));
    const { filledAt, plan } = fillMould(p);
    expect(filledAt[cellAt(p, 6, 1, 1)]).toBe(Number.POSITIVE_INFINITY);
    expect(filledAt[cellAt(p, 2, 1, 5)]).toBe(Number.POSITIVE_INFINITY);
    expect(plan.unreached).toBeCloseTo((27 + 4) * 8, 6);
    expect(plan.castings).toBeGreaterThan(0);
    expect(filledAt[cellAt(p, 4, 1, 1)]).toBe(0);
  });
  test('a wall of a fifth of a cell keeps its way, a crumb makes none', () => {
    const thin = (share: number): readonly CellBox[] => [
      { role: 'casting', from: [0, 0, 0], to: [3, 3, 3] },
      { role: 'casting', from: [3, 1, 0], to: [5, 2, 3], share },
      { role: 'casting', from: [5, 0, 0], to: [8, 3, 3] },
      { role: 'gating', from: [1, 1, 3], to: [2, 2, 8] },
    ];
    const left = (share: number): number =>
      fillMould(boxMould([8, 3, 8], 2, thin(share), plainFlow(16, 6, 4))).plan.unreached;
    expect(left(0.1)).toBe(0);
    expect(left(0.001)).toBeGreaterThan(27 * 8);
  });
  test('castings, then the vent on them; the sprue before both, the cup at once', () => {
    const boxes: readonly CellBox[] = [
      { role: 'casting', from: [0, 0, 0], to: [6, 3, 3] },
      { role: 'gating', from: [1, 1, 3], to: [2, 2, 8] },
      { role: 'vent', from: [4, 1, 3], to: [5, 2, 8] },
    ];
    const p = boxMould([6, 3, 8], 2, boxes, plainFlow(16, 6, 4));
    const { filledAt, plan } = fillMould(p);
    const vent = [3, 4, 5, 6, 7].map((k) => filledAt[cellAt(p, 4, 1, k)]!);
    expect(vent[0]).toBeGreaterThan(filledAt[cellAt(p, 5, 2, 0)]!);
    expect([...vent].sort((a, b) => a - b)).toEqual(vent);
    expect(Math.max(...vent)).toBeCloseTo(plan.total, 5);
    const sprue = [7, 6, 5, 4, 3].map((k) => filledAt[cellAt(p, 1, 1, k)]!);
    expect(sprue[0]).toBe(0);
    // Each its volume over the flow.
    const flow = flowAt(p.flow, 0).flow;
    for (const [n, t] of sprue.entries()) expect(t).toBeCloseTo((n * 8) / flow, 5);
    expect(plan.history[0]).toEqual({ time: 0, level: 0, volume: 8 });
    expect(plan.history.at(-1)!.volume).toBeCloseTo((54 + 10) * 8, 6);
  });
});
