import { beforeAll, describe, expect, it } from 'vitest';
import { scaleGear, withFlankStock } from '../../core/gear/gear-states.js';
import { measureBetweenPins } from '../../core/gear/internal.js';
import { measureOverPins } from '../../core/gear/over-pins.js';
import type { GearSpec } from '../../core/gear/spec.js';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel } from '../../core/solid/types.js';
import { deg, gear } from '../core/gear/gear-cases.js';
import { parametersOf } from '../helpers/asked-pairs.js';
import { sizeBetweenBalls, sizeOverBalls, sizeOverPins, sizeOverThreeBalls } from '../helpers/ball-gauge.js';
import { buildStates, measuredStates } from '../helpers/built-states.js';
import type { GearToMeasure } from '../helpers/gear-gauge.js';

/**
 * Pins and balls laid in the spaces of meshes come to rest where they will, found by distances to triangles; what is
 * measured over them must be what the program says.
 */
let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const tolerance = 0.003;
const stock = { flank: 0.12, tip: 0.12, face: 0.3 };
const growth = 1.0182;
const faceWidth = 9;

/** A flank off by t lets a ball sink by t / sin φ, φ half the wedge it lies in: no sharper than 14° in these gears. */
const within = (2 * tolerance) / Math.sin(14 * deg);

const figures = (title: string, off: Readonly<Record<string, number>>): void => {
  if (!process.env.PATTERNWRIGHT_FIGURES) return;
  const list = Object.entries(off).map(([what, mm]) => `${what} ${(1000 * mm).toFixed(2)}`);
  console.log(`${title}: ${list.join(', ')} µm`);
};

/** The gear of a state: stock on the flanks, then all of it grown. */
const inState = (spec: GearSpec, state: (typeof measuredStates)[number]): GearSpec =>
  state === 'part'
    ? spec
    : state === 'casting'
      ? withFlankStock(spec, stock.flank)
      : scaleGear(withFlankStock(spec, stock.flank), growth);

const external: Readonly<Record<string, readonly [GearSpec, Record<string, unknown>?]>> = {
  'spur 24, thinned': [gear(2, 24, 0, 0, { thinning: 0.08 })],
  'spur 17, x 0.3': [gear(2, 17, 0.3, 0, { thinning: 0.05 })],
  'spur 31 of 14.5°, x −0.2': [gear(1.5, 31, -0.2, 0, { normalPressureAngle: 14.5 * deg, rootRadius: 0.25 })],
  'helical 24 of 20°': [gear(2, 24, 0.1, 20, { thinning: 0.06 }), { hand: 'right' }],
  'helical 15 of 30°, x 0.4, left': [gear(2, 15, 0.4, 30, { thinning: 0.04 }), { hand: 'left' }],
};

describe('over pins and balls', () => {
  it.each(Object.entries(external))('%s', (title, [spec, more]) => {
    const helical = spec.helixAngle > 0;
    const name = helical ? 'helical-gear' : 'spur-gear';
    const parameters = { ...parametersOf(spec), faceWidth, bore: 0, ...more };
    const { rows, meshes } = buildStates(kernel, name, parameters, { stock, growth, tolerance });
    const row = rows.find(({ symbol }) => symbol.startsWith('M_'));
    if (!row) throw new Error('no size over pins is listed');
    const diameter = Number(row.symbol.slice(2));
    const odd = spec.teeth % 2 === 1;
    for (const state of measuredStates) {
      const mesh: GearToMeasure = { mesh: meshes[state], teeth: spec.teeth, halves: 1 };
      const off: Record<string, number> = {};
      off.balls = sizeOverBalls(mesh, diameter) - row[state];
      // Straight pins lie across each other on an odd helical gear, where only balls serve.
      if (!helical || !odd) off.pins = sizeOverPins(mesh, diameter) - row[state];
      if (odd) {
        // Three on one circle: flat on two neighbours, half a pitch either side of the line to the third.
        const { centreDiameter } = measureOverPins(inState(spec, state), diameter);
        const size = (centreDiameter / 2) * (1 + Math.cos(Math.PI / spec.teeth)) + diameter;
        off['three balls'] = sizeOverThreeBalls(mesh, diameter) - size;
      }
      figures(`${title}, ${state}, ${row.symbol} ${row[state].toFixed(4)}`, off);
      for (const value of Object.values(off)) expect(Math.abs(value)).toBeLessThan(within);
    }
  });
});

const rings: Readonly<Record<string, readonly [GearSpec, number, Record<string, unknown>?]>> = {
  'ring 60': [gear(2, 60, 0, 0, { addendum: 0.8, rootRadius: 0.2, thinning: 0.05 }), 3.5],
  'ring 51, x −0.2': [gear(2, 51, -0.2, 0, { addendum: 0.8, rootRadius: 0.2, thinning: 0.08 }), 3.75],
  'ring 45, x 0.2': [gear(2, 45, 0.2, 0, { addendum: 0.8, rootRadius: 0.2 }), 3.25],
  'helical ring 52 of 20°, left': [
    gear(2, 52, 0, 20, { addendum: 0.8, rootRadius: 0.2, thinning: 0.06 }),
    3.25,
    { hand: 'left' },
  ],
};

describe('between balls in rings', () => {
  it.each(Object.entries(rings))('%s', (title, [spec, diameter, more]) => {
    const parameters = { ...parametersOf(spec), faceWidth, ...more };
    const { meshes } = buildStates(kernel, 'ring-gear', parameters, { stock, growth, tolerance });
    for (const state of measuredStates) {
      const size = measureBetweenPins(inState(spec, state), diameter).dimension;
      const off = sizeBetweenBalls(meshes[state], spec.teeth, diameter) - size;
      figures(`${title}, ${state}, between ${diameter} mm balls ${size.toFixed(4)}`, { off });
      expect(Math.abs(off)).toBeLessThan(within);
    }
  });
});
