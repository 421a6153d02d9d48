import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxSides, checkSize, guessUnit, scaleExactMesh, scaleTo } from '../../../../core/mesh/size/index.js';
import type { ExactMesh } from '../../../../core/solid/types.js';

const boxOf = (x: number, y: number, z: number): ExactMesh => ({
  positions: Float64Array.of(1, 1, 1, 1 + x, 1, 1, 1, 1 + y, 1, 1, 1, 1 + z),
  triangles: Uint32Array.of(0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3),
});

describe('the unit of a file that names none', () => {
  it.each([
    [[40, 25, 12], 'mm', 1],
    // As no part of 2 mm is cast, but one of 2 inches is.
    [[2, 1, 0.5], 'in', 25.4],
    [[0.3, 0.2, 0.1], 'in', 25.4],
    [[0.05, 0.04, 0.03], 'm', 1000],
  ] as const)('%j is taken as %s', (size, unit, factor) => {
    const guess = guessUnit(size);
    expect(guess.best).toMatchObject({ unit, factor, plausible: true });
    expect(guess.readings).toHaveLength(5);
    expect(guess.reason).toContain('The file names no unit.');
  });

  it('says in words what it takes and what else it could be', () => {
    expect(guessUnit([2, 1, 0.5])).toMatchObject({
      sure: false,
      reason:
        'The file names no unit. Taken as inches it is 50.8 × 25.4 × 12.7 mm; in centimetres it would be 20 × 10 × 5 mm, which could be too.',
    });
    expect(guessUnit([60, 30, 20])).toMatchObject({
      sure: true,
      reason:
        'The file names no unit. Taken as millimetres it is 60 × 30 × 20 mm; in no other unit is its longest side from 5 to 500 mm.',
    });
  });

  it('does not guess where nothing fits', () => {
    expect(guessUnit([0.0001, 0.0001, 0.0001]).best).toBeNull();
    expect(guessUnit([3000, 10, 10])).toMatchObject({
      best: null,
      reason: expect.stringContaining('Name the unit, or a length to scale to.'),
    });
    expect(guessUnit([Number.POSITIVE_INFINITY, 1, 1]).best).toBeNull();
    expect(guessUnit([0, 0, 0]).best).toBeNull();
  });

  it('never takes what is not of a size that is cast', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (longest) => {
        const { best } = guessUnit([longest / 2, longest, longest / 3]);
        if (best) expect(best.size[1] >= 5 && best.size[1] <= 500).toBe(true);
        // Units lie no further apart than 5 to 500 mm does: all from 5/1000 to 500 units fit one.
        else expect(longest < 5 / 1000 || longest > 500).toBe(true);
      }),
    );
  });
});

describe('the absurd is refused, with what would be right', () => {
  it('takes what can be', () => {
    expect(checkSize([40, 25, 12])).toBeNull();
    expect(checkSize([1, 0.5, 0.5])).toBeNull();
    expect(checkSize([2000, 10, 10])).toBeNull();
  });

  it('names the other readings', () => {
    expect(checkSize([0.04, 0.02, 0.01])).toEqual({
      code: 'too-small',
      count: 1,
      message:
        'The longest side is 0.04 mm; at least 1 mm can be cast. It would be 40 mm if its numbers are metres and were taken for millimetres, or 12.2 mm if its numbers are feet and were taken for millimetres: name the right unit, or scale it to a known length.',
    });
    expect(checkSize([40_000, 20, 20])).toMatchObject({
      code: 'too-large',
      message: expect.stringContaining('40 mm if they are millimetres and were taken for metres'),
    });
    expect(checkSize([1e9, 1, 1])?.message).toMatch(/Scale it to a known length\.$/);
  });

  it('refuses what has no thickness or no end', () => {
    expect(checkSize([40, 25, 0])).toMatchObject({ code: 'no-thickness' });
    expect(checkSize([40, Number.NaN, 1])).toMatchObject({ code: 'size-not-finite' });
  });
});

describe('scaled to a known length', () => {
  it('along each side', () => {
    const mesh = boxOf(2, 1, 4);
    const factors = boxSides.map((side) => {
      const scaling = scaleTo(mesh, 80, side);
      return scaling.ok ? scaling.factor : null;
    });
    expect(factors).toEqual([40, 80, 20, 20, 40, 80]);
    expect(scaleTo(mesh, 80, 'longest')).toMatchObject({
      size: [40, 20, 80],
      reason: 'Scaled by 20, so that its longest side is 80 mm: 40 × 20 × 80 mm in all.',
    });
  });

  it('the scaled mesh has that length', () => {
    const size = fc.double({ min: 0.01, max: 50, noNaN: true });
    fc.assert(
      fc.property(size, size, size, fc.double({ min: 1, max: 300, noNaN: true }), (x, y, z, known) => {
        const mesh = boxOf(x, y, z);
        const scaling = scaleTo(mesh, known, 'longest');
        if (!scaling.ok) return;
        const { positions } = scaleExactMesh(mesh, scaling.factor);
        const sides = [0, 1, 2].map((k) => {
          const along = positions.filter((_, i) => i % 3 === k);
          return Math.max(...along) - Math.min(...along);
        });
        expect(Math.max(...sides)).toBeCloseTo(known, 6);
      }),
    );
  });

  it('refuses a length that is none, a side that is none, and what it would make', () => {
    expect(scaleTo(boxOf(1, 1, 1), 0, 'x')).toMatchObject({ ok: false, fault: { code: 'bad-length' } });
    expect(scaleTo(boxOf(1, 1, 1), Number.NaN, 'x')).toMatchObject({
      ok: false,
      fault: { code: 'bad-length' },
    });
    expect(scaleTo(boxOf(1, 1, 0), 5, 'z')).toMatchObject({ ok: false, fault: { code: 'no-side' } });
    expect(scaleTo({ positions: new Float64Array(0) }, 5, 'z')).toMatchObject({
      ok: false,
      fault: { code: 'no-side' },
    });
    expect(scaleTo(boxOf(1000, 1, 1), 10, 'z')).toMatchObject({
      ok: false,
      fault: {
        code: 'too-large',
        message: expect.stringContaining(
          'With its length along z scaled to 10 mm the mesh is 10000 × 10 × 10 mm.',
        ),
      },
    });
  });
});
