/** Keyways looked up by bore, against the tables of the standards as printed elsewhere. */
import { describe, expect, it } from 'vitest';
import { keywayFor } from '../../core/gear/keyways.js';
import { thinKeywayFor } from '../../core/gear/thin-keyways.js';

describe('ISO/R 773 (DIN 6885-1), hardware reference page and gear-unit catalogue page (seen)', () => {
  it.each([
    [7, 2, 2, 1.2, 1.0],
    [10, 3, 3, 1.8, 1.4],
    [12, 4, 4, 2.5, 1.8],
    [15, 5, 5, 3.0, 2.3],
    [20, 6, 6, 3.5, 2.8],
    [25, 8, 7, 4.0, 3.3],
    [35, 10, 8, 5.0, 3.3],
    [40, 12, 8, 5.0, 3.3],
    [50, 14, 9, 5.5, 3.8],
    [55, 16, 10, 6.0, 4.3],
    [60, 18, 11, 7.0, 4.4],
    [70, 20, 12, 7.5, 4.9],
    [80, 22, 14, 9.0, 5.4],
    [95, 25, 14, 9.0, 5.4],
  ])('bore %i: %i × %i, t₁ %d, t₂ %d', (bore, width, height, shaftDepth, hubDepth) => {
    expect(keywayFor(bore, 'metric')).toEqual({ width, height, shaftDepth, hubDepth });
  });
  it('limits belong to the smaller key: "over" 22 "up to" 30', () => {
    expect(keywayFor(22, 'metric')!.width).toBe(6);
    expect(keywayFor(22.01, 'metric')!.width).toBe(8);
    expect(keywayFor(6, 'metric')).toBeUndefined();
  });
});

describe('ANSI B17.1, square keys (from memory)', () => {
  it.each([
    ['3/8', 3 / 8, 3 / 32],
    ['1/2', 1 / 2, 1 / 8],
    ['3/4', 3 / 4, 3 / 16],
    ['1', 1, 1 / 4],
    ['1 5/16', 1.3125, 5 / 16],
    ['1 1/2', 1.5, 3 / 8],
    ['2', 2, 1 / 2],
    ['2 1/2', 2.5, 5 / 8],
    ['3', 3, 3 / 4],
  ])('bore %s in: key %d, %d in, half of it in the hub', (_, bore, key) => {
    const keyway = keywayFor(bore * 25.4, 'inch')!;
    expect(keyway.width / 25.4).toBeCloseTo(key, 12);
    expect(keyway.hubDepth / 25.4).toBeCloseTo(key / 2, 12);
  });
});

describe('ISO 2491, thin keys (from memory)', () => {
  it.each([
    [15, 5, 3, 1.8, 1.4],
    [20, 6, 4, 2.5, 1.8],
    [25, 8, 5, 3.0, 2.3],
    [35, 10, 6, 3.5, 2.8],
    [40, 12, 6, 3.5, 2.8],
    [48, 14, 6, 3.5, 2.8],
    [55, 16, 7, 4.0, 3.3],
    [60, 18, 7, 4.0, 3.3],
    [70, 20, 8, 5.0, 3.3],
    [80, 22, 9, 5.5, 3.8],
    [90, 25, 9, 5.5, 3.8],
    [100, 28, 10, 6.0, 4.3],
  ])('bore %i: %i × %i, t₁ %d, t₂ %d', (bore, width, height, shaftDepth, hubDepth) => {
    expect(thinKeywayFor(bore)).toEqual({ width, height, shaftDepth, hubDepth });
  });
  it('goes less deep than the full keyway and has clearance over the key like it', () => {
    for (let bore = 13; bore <= 95; bore++) {
      const [full, thin] = [keywayFor(bore, 'metric')!, thinKeywayFor(bore)!];
      expect(thin.width).toBe(full.width);
      expect(thin.hubDepth).toBeLessThan(full.hubDepth);
      const over = thin.shaftDepth + thin.hubDepth - thin.height;
      expect(over).toBeGreaterThan(0.15);
      expect(over).toBeLessThan(0.35);
    }
    expect(thinKeywayFor(12)).toBeUndefined();
    expect(thinKeywayFor(111)).toBeUndefined();
  });
});
