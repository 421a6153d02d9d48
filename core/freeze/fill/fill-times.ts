import { cellRole } from '../cast-fields.js';
import { CellSizes } from '../cell-walk.js';
import type { FillPlan } from '../plans.js';
import { type Cavity, isMetal } from './cavity.js';
import type { FillOrder } from './fill-order.js';
import { type Flow, type FlowProblem, flowAt } from './flow.js';

export interface FillTimes
  extends Pick<FillPlan, 'total' | 'castings' | 'flow' | 'backPressure' | 'history' | 'unreached'> {
  /** s by cell until metal fills it; infinite where none comes, 0 without metal. */
  readonly filledAt: Float32Array;
  /** Cells in the order in which they fill: of `FillOrder` those that the metal's level can reach. */
  readonly cells: Int32Array;
}

/** Points of the chart at most. */
const points = 64;

/** Flow at the edges of the layers, as they are come to. */
function flowByEdge(problem: FlowProblem, z: Float64Array, poured: number): (edge: number) => Flow {
  const known: (Flow | undefined)[] = Array.from({ length: z.length });
  const lowest = Math.min(...problem.branches.map((b) => b.outlet));
  const free = flowAt(problem, Number.NEGATIVE_INFINITY, poured);
  return (edge) => {
    known[edge] ??= z[edge]! <= lowest ? free : flowAt(problem, z[edge]!, poured);
    return known[edge];
  };
}

/**
 * When each cell is full, by the order in which metal takes them and the flow at the level it has come to. The level is
 * the highest layer begun, by the share of it that is full; between a layer's edges the flow's square runs straight, so
 * that with Torricelli's flow times are exact: Δt = 2 ΔV/(Q₁ + Q₂).
 */
export function fillTimes(cavity: Cavity, order: FillOrder, problem: FlowProblem): FillTimes {
  const { grid, role } = cavity;
  const z = grid.edges[2];
  const layer = grid.counts[0] * grid.counts[1];
  const sizes = new CellSizes(cavity);
  const filledAt = new Float32Array(grid.size);
  const inLayer = new Float64Array(grid.counts[2]);
  let ofCastings = 0;
  let lowest = Number.POSITIVE_INFINITY;
  for (let c = 0; c < grid.size; c++)
    if (isMetal(cavity, c)) {
      filledAt[c] = Number.POSITIVE_INFINITY;
      if (role[c] === cellRole.casting) ofCastings += sizes.metal(c);
      lowest = Math.min(lowest, z[Math.floor(c / layer)]!);
    }
  for (let n = order.gating; n < order.cells.length; n++) {
    const c = order.cells[n]!;
    inLayer[Math.floor(c / layer)]! += sizes.metal(c);
  }

  const flowOf = flowByEdge(
    problem,
    z,
    problem.pourTime ? ofCastings / problem.pourTime : Number.POSITIVE_INFINITY,
  );
  const first = flowOf(0);
  let [time, volume] = [0, 0];
  const history: { time: number; level: number; volume: number }[] = [];
  for (let n = 0; n < order.gating && first.flow > 0; n++) {
    if (n === order.cup) history.push({ time, level: 0, volume });
    const metal = sizes.metal(order.cells[n]!);
    volume += metal;
    if (n >= order.cup) time += metal / first.flow;
    filledAt[order.cells[n]!] = time;
  }
  history.push({ time, level: 0, volume });
  const between = Math.max(1, Math.ceil((order.cells.length - order.gating) / points));
  const full = new Float64Array(grid.counts[2]);
  let highest = -1;
  let [below, above] = [0, 0];
  let castings = 0;
  let last = first.flow;
  let backPressure = first.backPressure;
  let end = order.gating;
  for (; end < order.cells.length; end++) {
    const c = order.cells[end]!;
    const k = Math.floor(c / layer);
    if (k > highest) {
      highest = k;
      const [at, over] = [flowOf(k), flowOf(k + 1)];
      [below, above] = [at.flow ** 2, over.flow ** 2];
      backPressure = Math.max(backPressure, at.backPressure);
    }
    // The metal's level has come to the cup's.
    if (below === 0) break;
    const metal = sizes.metal(c);
    const from = full[highest]! / inLayer[highest]!;
    full[k]! += metal;
    const to = Math.min(1, full[highest]! / inLayer[highest]!);
    const flow =
      (Math.sqrt(below + from * (above - below)) + Math.sqrt(Math.max(0, below + to * (above - below)))) / 2;
    time += metal / flow;
    volume += metal;
    filledAt[c] = time;
    if (role[c] === cellRole.casting) {
      castings = time;
      last = flow;
    }
    if ((end - order.gating + 1) % between === 0 || end === order.cells.length - 1)
      history.push({
        time,
        level: z[k]! + (z[k + 1]! - z[k]!) * Math.min(1, full[k]! / inLayer[k]!) - lowest,
        volume,
      });
  }
  let unreached = 0;
  for (let c = 0; c < grid.size; c++)
    if (filledAt[c] === Number.POSITIVE_INFINITY) unreached += sizes.metal(c);
  return {
    filledAt,
    cells: order.cells.subarray(0, first.flow > 0 ? end : 0),
    total: time,
    castings,
    flow: { first: first.flow, last },
    backPressure,
    history,
    unreached,
  };
}
