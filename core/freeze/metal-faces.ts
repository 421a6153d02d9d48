import type { HeatProblem } from './heat-problem.js';

/** Faces where at least half metal meets less than half. */
export interface MetalFaces {
  readonly metal: Int32Array;
  readonly mould: Int32Array;
  /** Of the way from the mould cell's middle to the metal cell's: how far the mould's face is, as resistance, 0 to 1. */
  readonly toMetal: Float32Array;
}

export function metalFaces(problem: HeatProblem): MetalFaces {
  let count = 0;
  eachFace(problem, () => count++);
  const [metal, mould, toMetal] = [new Int32Array(count), new Int32Array(count), new Float32Array(count)];
  count = 0;
  eachFace(problem, (m, w, part) => {
    metal[count] = m;
    mould[count] = w;
    toMetal[count++] = part;
  });
  return { metal, mould, toMetal };
}

function eachFace(problem: HeatProblem, see: (metal: number, mould: number, toMetal: number) => void): void {
  const { grid, share, present, contactResistance } = problem;
  const { counts, edges } = grid;
  const [nx, ny, nz] = counts;
  const steps = [1, nx, nx * ny] as const;
  const inMetal = 1 / problem.metal.conductivity.solid;
  const inMould = 1 / problem.mould.conductivity;
  const half = (axis: 0 | 1 | 2, n: number): number => (edges[axis][n + 1]! - edges[axis][n]!) / 2;
  const visit = (axis: 0 | 1 | 2, n: number, c: number): void => {
    const next = c + steps[axis];
    const solid = share[c]! >= 0.5;
    if (solid === share[next]! >= 0.5 || present?.[c] === 0 || present?.[next] === 0) return;
    const [h, w] = solid ? [half(axis, n), half(axis, n + 1)] : [half(axis, n + 1), half(axis, n)];
    const mouldWay = w * inMould;
    const part = mouldWay / (mouldWay + h * inMetal + contactResistance);
    see(solid ? c : next, solid ? next : c, part);
  };
  let c = 0;
  for (let k = 0; k < nz; k++)
    for (let j = 0; j < ny; j++)
      for (let i = 0; i < nx; i++, c++) {
        if (i + 1 < nx) visit(0, i, c);
        if (j + 1 < ny) visit(1, j, c);
        if (k + 1 < nz) visit(2, k, c);
      }
}
