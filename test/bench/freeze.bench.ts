/**
 * How fast a mould freezes: `npm run bench`. Cells × sweeps a second against what the machine's memory lets through,
 * in one thread and with all. Not among the tests: it takes a minute or two, and wants a quiet machine.
 */
import { availableParallelism } from 'node:os';
import { afterAll, test } from 'vitest';
import { startCrew } from '../../cli/freeze-crew.js';
import { mixedStart, runFreeze } from '../../core/freeze/freeze.js';
import { startField, stepField } from '../../core/freeze/heat-field.js';
import type { HeatProblem } from '../../core/freeze/heat-problem.js';
import { type BlockInput, blockGrid, cellEdge, insideCylinder } from '../../core/freeze/mould-block.js';
import { fillShares } from '../../core/freeze/voxels.js';
import { loadKernel } from '../../core/solid/kernel.js';
import type { Kernel, Mesh } from '../../core/solid/types.js';
import { bronze, plaster } from '../helpers/freeze-problems.js';

/** Bytes a sweep must move of a cell: its share and heat content read, its content written; metal's, what stands at its face. */
const mouldBytes = 12;
const metalBytes = 4;
/** And once a step its temperature written. */
const tellBytes = 4 / 3;

const crew = startCrew();
afterAll(() => crew.close());

/** As large and as toothed as the demo's main wheel, with a sprue; its teeth are straight waves. */
function wheel(kernel: Kernel): Mesh {
  const [teeth, radius, width] = [41, 45, 24];
  const outline = Array.from({ length: 8 * teeth }, (_, i): [number, number] => {
    const a = (2 * Math.PI * i) / (8 * teeth);
    const r = radius + 2 * Math.max(-1, Math.min(1, 1.6 * Math.cos(teeth * a)));
    return [r * Math.cos(a), r * Math.sin(a)];
  });
  return kernel.scope(() => {
    const half = kernel.extrude([outline], -width / 2, width / 2);
    const web = kernel.frustum([0, 0], -width, 36, -4.5, 36, 0.02);
    const upper = kernel.frustum([0, 0], 4.5, 36, width, 36, 0.02);
    const hub = kernel.frustum([0, 0], -width / 2, 16, width / 2, 16, 0.02);
    const bore = kernel.frustum([0, 0], -width, 8, width, 8, 0.02);
    const sprue = kernel.frustum([24, 0], 0, 8, width / 2 + 40, 8, 0.02);
    return kernel.union([half.subtract(web, upper), hub.subtract(bore), sprue]).mesh();
  });
}

function problemOf(input: BlockInput, level: 'coarse' | 'fine'): HeatProblem {
  const grid = blockGrid(input, cellEdge(input, level));
  const share = fillShares(input.gated, grid, level === 'fine' ? 2 : 4);
  return {
    grid,
    share,
    present: insideCylinder(grid),
    metal: bronze,
    mould: plaster,
    contactResistance: 100,
    surroundings: { temperature: 20, convection: 1e-5, emissivity: 0.9 },
    start: mixedStart({ share, metal: bronze, mould: plaster }, 1150, 480),
  };
}

/** GB/s: the best of some copies of an array far larger than any cache, read and write counted. */
function measureBandwidth(): number {
  const [from, to] = [new Float32Array(2 ** 26).fill(1), new Float32Array(2 ** 26)];
  let best = 0;
  for (let n = 0; n < 8; n++) {
    const begun = performance.now();
    to.set(from);
    best = Math.max(best, (2 * to.byteLength) / (performance.now() - begun) / 1e6);
  }
  return best;
}

const say = (text: string): void => void process.stdout.write(`${text}\n`);

test('freezing of a wheel', async () => {
  const kernel = await loadKernel();
  const gated = wheel(kernel);
  const input: BlockInput = {
    gated,
    standing: gated,
    mould: { kind: 'flask', insideDiameter: 130, floor: 15 },
  };
  const bandwidth = measureBandwidth();
  say(
    `memory: ${bandwidth.toFixed(1)} GB/s by a plain copy, one thread; ${availableParallelism()} processors`,
  );
  for (const level of ['coarse', 'fine'] as const) {
    const problem = problemOf(input, level);
    const { grid, share } = problem;
    const metal = share.reduce((sum, s) => sum + (s > 0 ? 1 : 0), 0);
    const bytes = mouldBytes + tellBytes + (metalBytes * metal) / grid.size;
    say(`${level}: ${grid.counts.join(' × ')} = ${grid.size} cells, ${metal} with metal`);
    for (const [threads, more] of [
      [1, {}],
      [1 + crew.hands, { crew }],
    ] as const) {
      const field = startField(problem, more);
      for (let n = 0; n < 4; n++) stepField(field, 0.2);
      let best = Number.POSITIVE_INFINITY;
      for (let n = 0; n < 12; n++) {
        const begun = performance.now();
        stepField(field, 0.5);
        best = Math.min(best, performance.now() - begun);
      }
      const rate = (3 * grid.size) / (best / 1e3);
      const moved = (rate * bytes) / 1e9;
      say(
        `  ${threads} thread(s): step ${best.toFixed(1)} ms, ${(rate / 1e6).toFixed(0)} million cells × sweeps/s, ` +
          `${(1e9 / rate).toFixed(2)} ns each; at least ${moved.toFixed(1)} GB/s, ` +
          `${((100 * moved) / bandwidth).toFixed(0)} % of the copy's; bound ${((bandwidth * 1e3) / bytes).toFixed(0)} million/s`,
      );
      const begun = performance.now();
      const { total, steps, imbalance, field: last } = runFreeze(problem, more);
      const seconds = (performance.now() - begun) / 1e3;
      say(
        `  ${threads} thread(s): frozen in ${total.toFixed(1)} s; ${steps} steps in ${seconds.toFixed(2)} s, ` +
          `${((seconds * 1e9) / steps / 3 / grid.size).toFixed(2)} ns all in; field ${(last.kernel.bytes / 2 ** 20).toFixed(0)} MiB, ` +
          `process ${(process.memoryUsage().rss / 2 ** 20).toFixed(0)} MiB; imbalance ${imbalance.toExponential(1)}`,
      );
    }
  }
});
