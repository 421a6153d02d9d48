/** What the front loses on its way: M. C. Flemings, Solidification Processing, 1974, ch. 7, and thin places. */
import { describe, expect, test } from 'vitest';
import { fillMould } from '../../../../core/freeze/fill/fill-mould.js';
import { boxMould, type CellBox, cellAt, plainFlow } from './boxes.js';

/** A level channel of `across` × `high` cells of 1 mm from under the sprue, all of it stopping after `stops` s. */
const channel = (across: number, high: number, length: number, stops: number): readonly CellBox[] => [
  { role: 'casting', from: [0, 0, 0], to: [length, across, high], stops },
  { role: 'gating', from: [0, 0, high], to: [1, across, 40] },
];

describe('fluidity: metal in a level channel of one section runs x = v t_stop', () => {
  test.each([1, 3])('a channel 1 mm high, %d wide: where it stops', (across) => {
    const [length, stops] = [400, 0.8];
    const p = boxMould([length, across, 40], 1, channel(across, 1, length, stops), plainFlow(40, 1, 0.3));
    const { spent, plan } = fillMould(p);
    const speed = plan.flow.first / across;
    const entry = spent[cellAt(p, 0, 0, 0)]!;
    let reach = 0;
    while (reach < length && spent[cellAt(p, reach, 0, 0)]! - entry <= 1) reach++;
    expect(Math.abs(reach - speed * stops)).toBeLessThanOrEqual(1.5);
    expect(reach).toBeLessThan(length);
  });
  test.each([
    [1, 1],
    [3, 1],
    [1, 3],
    [3, 3],
  ])('%d × %d mm: the margin of all of it is v t_stop over its length', (across, high) => {
    for (const length of [50, 200, 400]) {
      const stops = 2;
      const boxes = channel(across, high, length, stops);
      const p = boxMould([length, across, 40], 1, boxes, plainFlow(40, high, 0.3));
      const { plan } = fillMould(p);
      const speed = plan.flow.first / (across * high);
      expect(plan.margin / ((speed * stops) / length)).toBeGreaterThan(0.96);
      expect(plan.margin / ((speed * stops) / length)).toBeLessThan(1.04);
    }
  });

  test('against the closed formula for a mould that insulates, heat flowing into half of space', () => {
    // Flemings: metal stops when a share f of it is solid, t = (π/4) (ρ f L a/(2 (T_m − T_0)))²/(k ρ c)_mould for a
    // round or square channel of side a: a²/(4 a) = a/4 its volume over its wall. Bronze in plaster, figures from memory.
    const [side, f] = [4, 0.3];
    const [density, latent, difference] = [8e-3, 200, 600];
    const mould = 0.35e-3 * 1.1e-3 * 0.84;
    const stops = ((Math.PI / 4) * ((density * f * latent * side) / 4 / difference) ** 2) / mould;
    const length = 300;
    const p = boxMould(
      [length, 1, 12],
      side,
      [
        { role: 'casting', from: [0, 0, 0], to: [length, 1, 1], stops },
        { role: 'gating', from: [0, 0, 1], to: [1, 1, 12] },
      ],
      plainFlow(12 * side, side, 2),
    );
    const { spent, plan } = fillMould(p);
    const speed = plan.flow.first / side ** 2;
    const entry = spent[cellAt(p, 0, 0, 1)]!;
    let reach = 0;
    while (reach < length && spent[cellAt(p, reach, 0, 0)]! - entry <= 1) reach++;
    const printed = (speed * Math.PI * (density * f * latent * side) ** 2) / (64 * difference ** 2 * mould);
    expect((reach * side) / printed).toBeCloseTo(1, 1);
    expect(reach).toBeLessThan(length);
  });
});

describe('no false alarm, no missed one', () => {
  /** A block 20 mm on edge that stops after `stops` s, with a fin on it, 1 mm thick, 6 high. */
  const block = (stops: number, skin?: number): readonly CellBox[] => [
    skin
      ? { role: 'casting', from: [0, 0, 0], to: [20, 20, 20], stops: skin, share: 0.4 }
      : { role: 'casting', from: [0, 0, 0], to: [20, 20, 20], stops },
    { role: 'casting', from: [1, 1, 0], to: [19, 19, 19], stops },
    { role: 'casting', from: [4, 10, 20], to: [14, 11, 26], stops: 4 },
    { role: 'gating', from: [17, 2, 20], to: [19, 4, 40] },
  ];
  const fill = (boxes: readonly CellBox[], area: number) =>
    fillMould(boxMould([22, 20, 40], 1, boxes, plainFlow(40, 20, area)));
  test('a thin fin on a thick block is not charged with the block’s time', () => {
    const { plan } = fill(block(300), 0.5);
    // The block takes long to fill, longer than the fin to freeze.
    expect(plan.castings).toBeGreaterThan(4);
    expect(plan.margin).toBeGreaterThan(4);
    expect(plan.thinPlaces).toEqual([]);
  });
  test('nor by a skin of cells that are mostly mould and freeze at once', () => {
    const whole = fill(block(300), 0.5).plan.margin;
    const skinned = fill(block(300, 0.5), 0.5).plan.margin;
    expect(skinned / whole).toBeGreaterThan(0.5);
  });
  test('a fin that itself takes longer to fill than to freeze is told: where, how thick, how much', () => {
    // 12 mm³/s into a fin of 60 mm³ that stops after 4 s.
    const { plan } = fill(block(3000), 0.02);
    expect(plan.thinPlaces).toHaveLength(1);
    const [fin] = plan.thinPlaces;
    expect(fin!.at[2]).toBeGreaterThan(20);
    expect(fin!.margin).toBe(plan.margin);
    expect(fin!.margin).toBeLessThan(2);
    expect(fin!.volume).toBeGreaterThan(10);
    expect(fin!.volume).toBeLessThanOrEqual(60);
    expect(fin!.thickness).toBeGreaterThan(0.6);
    expect(fin!.thickness).toBeLessThan(1.2);
  });
  test('a fin along the whole height of a block ages as its level rises: time to fill over time to freeze', () => {
    const boxes: readonly CellBox[] = [
      { role: 'casting', from: [0, 0, 0], to: [8, 8, 20] },
      { role: 'casting', from: [8, 4, 0], to: [14, 5, 20], stops: 4 },
      { role: 'gating', from: [2, 2, 20], to: [4, 4, 40] },
    ];
    const { plan } = fill(boxes, 1);
    const time = plan.castings - plan.history[1]!.time;
    expect(plan.marginAt[0]).toBeGreaterThan(8);
    expect(plan.marginAt[2]).toBeGreaterThan(18);
    expect(plan.margin / (4 / time)).toBeGreaterThan(0.95);
    expect(plan.margin / (4 / time)).toBeLessThan(1.2);
  });
  test('a bridge between a thick and a thin riser takes the fresher metal, whichever side it is on', () => {
    const bridge = (mirror: boolean): number => {
      const x = (from: number, to: number): readonly [number, number] =>
        mirror ? [9 - to, 9 - from] : [from, to];
      const box = (from: number, to: number, low: number, high: number, stops: number): CellBox => {
        const [a, b] = x(from, to);
        return { role: 'casting', from: [a, 0, low], to: [b, 1, high], stops };
      };
      const [g, h] = x(1, 2);
      const p = boxMould(
        [9, 1, 12],
        1,
        [
          box(0, 5, 0, 6, 1000),
          box(5, 9, 0, 1, 1000),
          box(7, 8, 1, 6, 0.5),
          box(5, 7, 4, 5, 1000),
          { role: 'gating', from: [g, 0, 6], to: [h, 1, 12] },
        ],
        plainFlow(12, 6, 0.05),
      );
      const { spent } = fillMould(p);
      const [at] = x(6, 7);
      const [thin] = x(7, 8);
      // The thin riser's own metal is worse by far.
      expect(spent[cellAt(p, thin, 0, 4)]).toBeGreaterThan(10 * spent[cellAt(p, at, 0, 4)]!);
      return spent[cellAt(p, at, 0, 4)]!;
    };
    expect(bridge(true) / bridge(false)).toBeCloseTo(1, 0);
  });
  test('faster never worse; the same mould mirrored or turned is the same to a layer', () => {
    const margins = [0.02, 0.1, 0.5].map((area) => fill(block(3000), area).plan.margin);
    expect([...margins].sort((a, b) => a - b)).toEqual(margins);
    const mirrored = block(3000).map((b) => ({
      ...b,
      from: [22 - b.to[0], 20 - b.to[1], b.from[2]] as const,
      to: [22 - b.from[0], 20 - b.from[1], b.to[2]] as const,
    }));
    expect(fill(mirrored, 0.1).plan.margin / margins[1]!).toBeCloseTo(1, 1);
  });
  test('cells half as long change little', () => {
    const finer = block(3000).map((b) => ({
      ...b,
      from: b.from.map((v) => 2 * v) as unknown as typeof b.from,
      to: b.to.map((v) => 2 * v) as unknown as typeof b.to,
    }));
    for (const area of [0.02, 0.1]) {
      const coarse = fill(block(3000), area).plan;
      const fine = fillMould(boxMould([44, 40, 80], 0.5, finer, plainFlow(40, 20, area))).plan;
      expect(fine.castings / coarse.castings).toBeCloseTo(1, 2);
      expect(fine.margin / coarse.margin).toBeGreaterThan(0.85);
      expect(fine.margin / coarse.margin).toBeLessThan(1.15);
    }
  });
  test('thickness of leaning and of upright walls alike: twice the volume over the walls', () => {
    // A leaning plate of 4 cells’ run, thick √2 × 3/… : cells i + k from 10 to 13.
    const boxes: CellBox[] = [{ role: 'gating', from: [0, 0, 20], to: [20, 20, 24] }];
    for (let k = 0; k < 20; k++)
      for (let i = 0; i < 20; i++)
        if (i + k >= 17 && i + k < 21)
          boxes.push({ role: 'casting', from: [i, 0, k], to: [i + 1, 20, k + 1], stops: 1e-3 });
    const { plan } = fillMould(boxMould([20, 20, 24], 1, boxes, plainFlow(24, 20, 5)));
    const [plate] = plan.thinPlaces;
    // 4 cells along a row across a lean of 45°.
    expect(plate!.thickness / (4 / Math.SQRT2)).toBeGreaterThan(0.85);
    expect(plate!.thickness / (4 / Math.SQRT2)).toBeLessThan(1.15);
  });
});
