import fc from 'fast-check';
import { gridOf } from '../../core/freeze/grid.js';
import type { HeatProblem } from '../../core/freeze/heat-problem.js';

/** A bronze and a plaster, all figures from memory. */
export const bronze = {
  density: 8e-3,
  solidus: 850,
  liquidus: 1000,
  latentHeat: 200,
  specificHeat: { solid: 0.38, liquid: 0.46 },
  conductivity: { solid: 0.05, liquid: 0.03 },
} as const;
export const plaster = { density: 1.1e-3, specificHeat: 0.84, conductivity: 0.35e-3 } as const;

const axis = fc.array(fc.double({ min: 0.2, max: 3, noNaN: true }), { minLength: 1, maxLength: 9 });

const edges = (lengths: readonly number[]): Float64Array => {
  let at = 0;
  return Float64Array.from([0, ...lengths.map((length) => (at += length))]);
};

/** Small blocks of any cells: metal, mould and both, some left out, hot and cold. */
export const anyHeatProblem: fc.Arbitrary<HeatProblem> = fc
  .record({
    x: axis,
    y: axis,
    z: axis,
    seed: fc.infiniteStream(fc.double({ min: 0, max: 1, noNaN: true })),
    leftOut: fc.constantFrom(0, 0, 0.2, 0.6),
    contactResistance: fc.constantFrom(0, 100, 5000),
    shut: fc.subarray([0, 1, 2] as const),
    exposed: fc.constantFrom([1, 1, 1] as const, [0.8, 0.9, 0.5] as const),
    pure: fc.boolean(),
    surroundings: fc.record({
      temperature: fc.double({ min: 0, max: 800, noNaN: true }),
      convection: fc.double({ min: 0, max: 1e-3, noNaN: true }),
      emissivity: fc.double({ min: 0, max: 1, noNaN: true }),
      metalEmissivity: fc.double({ min: 0, max: 1, noNaN: true }),
    }),
  })
  .map(({ x, y, z, seed, leftOut, pure, ...rest }) => {
    const grid = gridOf(edges(x), edges(y), edges(z));
    const next = (): number => seed.next().value as number;
    const share = new Float32Array(grid.size).map(() => Math.min(1, Math.max(0, 2 * next() - 0.5)));
    return {
      ...rest,
      grid,
      share,
      ...(leftOut > 0 && { present: new Uint8Array(grid.size).map(() => (next() < leftOut ? 0 : 1)) }),
      metal: pure ? { ...bronze, solidus: bronze.liquidus } : bronze,
      mould: plaster,
      start: share.map((s) => (s > 0 ? 800 + 400 * next() : 100 + 600 * next())),
    };
  });
