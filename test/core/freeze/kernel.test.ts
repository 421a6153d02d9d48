/** The kernel against the same scheme in plain double precision, line by line. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evenEdges, gridOf } from '../../../core/freeze/grid.js';
import { type HeatField, heatInField, startField, stepField } from '../../../core/freeze/heat-field.js';
import { anyHeatProblem, bronze, plaster } from '../../helpers/freeze-problems.js';
import { startPlainField, stepPlainField } from '../../helpers/plain-heat-field.js';

test('the bytes kept are what the source gives', () => {
  const folder = `${import.meta.dirname}/../../../core/freeze/kernel`;
  const made = execFileSync(process.execPath, [`${folder}/compile.js`, '--print'], { encoding: 'utf8' });
  expect(readFileSync(`${folder}/bytes.ts`, 'utf8')).toBe(made);
});

/** s; from a splash to a soak. */
const steps = [0.01, 0.01, 0.05, 0.3, 2, 10];

describe('small blocks of any cells', () => {
  test('keep to the plain scheme (seed 6)', () => {
    fc.assert(
      fc.property(anyHeatProblem, (problem) => {
        const field = startField(problem);
        const plain = startPlainField(problem);
        for (const step of steps) {
          stepField(field, step);
          stepPlainField(plain, step);
          for (let c = 0; c < problem.grid.size; c++)
            expect(Math.abs(field.content[c]! - plain.content[c]!)).toBeLessThan(1e-3);
        }
        expect(Math.abs(field.lost - plain.lost)).toBeLessThan(1e-3 * Math.abs(plain.lost) + 1e-3);
      }),
      { seed: 6, numRuns: 150 },
    );
  });

  test('keep their heat: what cells lose is what the surroundings get (seed 7)', () => {
    fc.assert(
      fc.property(anyHeatProblem, (problem) => {
        const field = startField(problem);
        const before = heatInField(field);
        const scale = field.content.reduce((sum, h) => sum + Math.abs(h), 0) + 1;
        for (const step of steps) stepField(field, step);
        expect(Math.abs(before - heatInField(field) - field.lost) / scale).toBeLessThan(1e-4);
      }),
      { seed: 7, numRuns: 150 },
    );
  });

  test('cells left out stay as they are (seed 8)', () => {
    fc.assert(
      fc.property(anyHeatProblem, (problem) => {
        const field = startField(problem);
        const before = field.content.slice();
        for (const step of steps) stepField(field, step);
        for (const [c, there] of (problem.present ?? []).entries())
          if (there === 0) expect(field.content[c]).toBe(before[c]);
      }),
      { seed: 8, numRuns: 50 },
    );
  });
});

test('many fields live side by side', () => {
  const edges = evenEdges(0, 5, 5);
  const grid = gridOf(edges, edges, edges);
  const share = new Float32Array(grid.size).fill(1);
  const start = (n: number): HeatField =>
    startField({
      grid,
      share,
      metal: bronze,
      mould: plaster,
      contactResistance: 0,
      surroundings: { temperature: 20, convection: 1e-4, emissivity: 0 },
      start: share.map(() => 900 + n),
    });
  const fields = Array.from({ length: 300 }, (_, n) => start(n));
  for (const field of fields) stepField(field, 1);
  for (const n of [0, 40, 150, 299]) {
    const alone = start(n);
    stepField(alone, 1);
    expect(fields[n]!.content).toEqual(alone.content);
  }
});
