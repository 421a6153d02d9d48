/**
 * What the kernel is held against: the same scheme, line by line in double precision. Transient conduction with freezing
 * on a block of cells: implicit along one axis after the other (locally one-dimensional; N. N. Yanenko, The Method of
 * Fractional Steps, 1971), so stable at any step. The unknown is each cell's heat content, changed by fluxes alone: what
 * leaves one cell enters the next, so heat is kept to rounding.
 */
import { faceResistances } from '../../core/freeze/faces.js';
import type { HeatProblem } from '../../core/freeze/heat-problem.js';
import {
  type FreezingMetal,
  heatLaw,
  lawHeat,
  type MouldSubstance,
  mix,
} from '../../core/freeze/substance.js';
import { PlainLineSolver } from './plain-line-solver.js';

/** The heat law's pieces by cell. */
export interface CellHeat {
  readonly solidus: number;
  readonly liquidus: number;
  /** J/(mm³·K) by cell. */
  readonly below: Float64Array;
  readonly within: Float64Array;
  readonly above: Float64Array;
}

function cellHeat(share: Float32Array, metal: FreezingMetal, mould: MouldSubstance): CellHeat {
  const law = heatLaw(metal, mould);
  const by = (own: number): Float64Array => Float64Array.from(share, (s) => mix(law, s, own));
  const { solidus, liquidus } = law;
  return { solidus, liquidus, below: by(law.below), within: by(law.within), above: by(law.above) };
}

export interface PlainField {
  readonly problem: HeatProblem;
  readonly heat: CellHeat;
  /** By axis: mm²·K/W at the face above each cell. */
  readonly faces: readonly Float32Array[];
  /** °C */
  readonly temperature: Float64Array;
  /** J/mm³ over the solidus. */
  readonly content: Float64Array;
  /** s since the start. */
  time: number;
  /** J given to the surroundings since the start. */
  lost: number;
  /** Which way round the axes are taken next. */
  turn: number;
}

export function startPlainField(problem: HeatProblem): PlainField {
  const heat = cellHeat(problem.share, problem.metal, problem.mould);
  const temperature = Float64Array.from(problem.start);
  const content = temperature.map((t, cell) =>
    lawHeat(heatLaw(problem.metal, problem.mould), problem.share[cell]!, t),
  );
  const faces = faceResistances(problem);
  return { problem, heat, faces, temperature, content, time: 0, lost: 0, turn: 0 };
}

/** J in all cells that are there, over the solidus. */
export function heatInPlainField({ problem: { grid, present }, content }: PlainField): number {
  const [nx, ny] = grid.counts;
  const [ex, ey, ez] = grid.edges;
  let sum = 0;
  for (let c = 0; c < grid.size; c++) {
    if (present && present[c] === 0) continue;
    const [i, j, k] = [c % nx, Math.floor(c / nx) % ny, Math.floor(c / (nx * ny))];
    sum += content[c]! * (ex[i + 1]! - ex[i]!) * (ey[j + 1]! - ey[j]!) * (ez[k + 1]! - ez[k]!);
  }
  return sum;
}

/** Carries the field on by `seconds`, in place. */
export function stepPlainField(field: PlainField, seconds: number): void {
  const axes = field.turn % 2 === 0 ? ([0, 1, 2] as const) : ([2, 1, 0] as const);
  const { shut = [], grid } = field.problem;
  for (const axis of axes)
    if (grid.counts[axis] > 1 || !shut.includes(axis)) sweep(field, axis, seconds, conductivities(field));
  field.turn++;
  field.time += seconds;
}

/** W/(mm·K) by cell: of metal and mould side by side. */
function conductivities({ problem: { share, metal, mould }, heat, temperature }: PlainField): Float64Array {
  const { solid, liquid } = metal.conductivity;
  const range = heat.liquidus - heat.solidus;
  const k = new Float64Array(share.length);
  for (let c = 0; c < k.length; c++) {
    const s = share[c]!;
    if (s === 0) {
      k[c] = mould.conductivity;
      continue;
    }
    const molten = Math.min(1, Math.max(0, (temperature[c]! - heat.solidus) / range));
    const own = solid + molten * (liquid - solid);
    k[c] = s === 1 ? own : s * own + (1 - s) * mould.conductivity;
  }
  return k;
}

/** Carries heat along one axis, every line of cells that are there by itself. */
function sweep(field: PlainField, axis: 0 | 1 | 2, seconds: number, conductivity: Float64Array): void {
  const { grid, present, surroundings, shut = [] } = field.problem;
  const { counts, edges } = grid;
  const strides = [1, counts[0], counts[0] * counts[1]] as const;
  const [u, v] = axis === 0 ? ([1, 2] as const) : axis === 1 ? ([0, 2] as const) : ([0, 1] as const);
  const line = new PlainLineSolver(
    field,
    seconds,
    conductivity,
    field.faces[axis]!,
    edges[axis],
    strides[axis],
    shut.includes(axis),
    field.problem.exposed?.[axis] ?? 1,
  );
  const n = counts[axis];
  for (let q = 0; q < counts[v]; q++)
    for (let p = 0; p < counts[u]; p++) {
      const first = p * strides[u] + q * strides[v];
      const area = (edges[u][p + 1]! - edges[u][p]!) * (edges[v][q + 1]! - edges[v][q]!);
      if (!present) {
        field.lost += area * line.solve(first, 0, n, surroundings);
        continue;
      }
      for (let from = 0; from < n; ) {
        while (from < n && present[first + from * strides[axis]] === 0) from++;
        let to = from;
        while (to < n && present[first + to * strides[axis]] !== 0) to++;
        if (to > from) field.lost += area * line.solve(first, from, to - from, surroundings);
        from = to;
      }
    }
}
