import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, expect, test } from 'vitest';
import { startCrew } from '../../cli/freeze-crew.js';
import { gridOf, stretchedEdges } from '../../core/freeze/grid.js';
import { type HeatField, startField, stepField } from '../../core/freeze/heat-field.js';
import type { HeatProblem } from '../../core/freeze/heat-problem.js';
import { atDone, atFirst, atLimit, atNext } from '../../core/freeze/kernel/layout.js';
import { bronze, plaster } from '../helpers/freeze-problems.js';

const crews = [1, 2, 5].map((hands) => startCrew(hands));
afterAll(() => {
  for (const crew of crews) crew.close();
});

/** A ball in a drum of mould. */
const ball = (radius: number): HeatProblem => {
  const edges = stretchedEdges([-30, 30], [-12, 12], 0.8);
  const grid = gridOf(edges, edges, stretchedEdges([-20, 25], [-12, 12], 0.8));
  const [nx, ny] = grid.counts;
  const middle = (axis: 0 | 1 | 2, i: number): number =>
    (grid.edges[axis][i]! + grid.edges[axis][i + 1]!) / 2;
  const at = (c: number): [number, number, number] => [
    middle(0, c % nx),
    middle(1, Math.floor(c / nx) % ny),
    middle(2, Math.floor(c / (nx * ny))),
  ];
  const cells = new Float32Array(grid.size);
  const share = cells.map((_, c) => Math.min(1, Math.max(0, radius + 0.5 - Math.hypot(...at(c)))));
  return {
    grid,
    share,
    present: Uint8Array.from(cells, (_, c) => (Math.hypot(at(c)[0], at(c)[1]) < 28 ? 1 : 0)),
    metal: bronze,
    mould: plaster,
    contactResistance: 100,
    surroundings: { temperature: 25, convection: 1e-5, emissivity: 0.8 },
    start: share.map((s) => 400 + 650 * s),
  };
};

const carry = (field: HeatField): HeatField => {
  for (let n = 0; n < 12; n++) stepField(field, 0.05 * (n + 1));
  return field;
};

test('with one, two and five further hands the same to the last bit', () => {
  const alone = carry(startField(ball(10)));
  for (const crew of crews) {
    const { temperature, content, lost } = carry(startField(ball(10), { crew }));
    expect(lost).toBe(alone.lost);
    expect(Buffer.from(content).equals(Buffer.from(alone.content))).toBe(true);
    expect(Buffer.from(temperature).equals(Buffer.from(alone.temperature))).toBe(true);
  }
});

test('a crew goes from field to field and back', () => {
  const [crew] = crews;
  const fields = [6, 8, 10].map((radius) => [
    startField(ball(radius), { crew: crew! }),
    startField(ball(radius)),
  ]);
  for (let n = 0; n < 4; n++)
    for (const [shared, alone] of fields) {
      carry(shared!);
      carry(alone!);
      expect(shared!.lost).toBe(alone!.lost);
    }
});

test('hands work by themselves: a sweep laid out for them is done without the caller', async () => {
  const field = startField(ball(10), { crew: crews[0]! });
  stepField(field, 0.5);
  const words = new Int32Array(field.content.buffer);
  const limit = Atomics.load(words, atLimit / 4);
  const before = field.content.slice();
  expect(Atomics.load(words, atNext / 4)).toBe(limit);
  // The last axis, z, once more: a unit for every y.
  const units = field.problem.grid.counts[1];
  Atomics.store(words, atFirst / 4, limit);
  Atomics.store(words, atLimit / 4, limit + units);
  Atomics.notify(words, atLimit / 4);
  for (let n = 0; n < 2000 && Atomics.load(words, atDone / 4) < limit + units; n++) await pause(10);
  expect(Atomics.load(words, atDone / 4)).toBe(limit + units);
  expect(field.content).not.toEqual(before);
});
