import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Pace, pixelRatio, restTime } from '../../../gallery/page/view/software-drawing.js';

describe('pixels of the view', () => {
  it('are at most two a CSS pixel, and follow the movement on slow machines alone', () => {
    expect([1, 1.5, 3].map((device) => pixelRatio(false, true, device))).toEqual([1, 1.5, 2]);
    expect(pixelRatio(false, true, Number.NaN)).toBe(1);
    expect(pixelRatio(true, true, 3)).toBeLessThan(1);
    expect(pixelRatio(true, false, 1)).toBeGreaterThan(1);
  });
});

describe('the pace', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('tells the beginning and the end of a movement, once each', () => {
    const told: boolean[] = [];
    const pace: Pace = new Pace(() => told.push(pace.isMoving));
    for (let i = 0; i < 5; i++) {
      pace.move();
      vi.advanceTimersByTime(100);
    }
    expect(told).toEqual([true]);
    vi.advanceTimersByTime(restTime);
    expect(told).toEqual([true, false]);
  });

  it('is silent once stopped', () => {
    const told: boolean[] = [];
    const pace: Pace = new Pace(() => told.push(pace.isMoving));
    pace.move();
    pace.stop();
    vi.advanceTimersByTime(2 * restTime);
    expect(told).toEqual([true]);
  });
});
