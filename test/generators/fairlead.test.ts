import { describe, expect, it } from 'vitest';
import { noStock, type Stock } from '../../core/part/stock.js';
import { inspectMesh } from '../../core/solid/inspect.js';
import type { Vec3 } from '../../core/solid/types.js';
import { checkFairlead } from '../../generators/fairlead/checks.js';
import { fairleadParameters } from '../../generators/fairlead/parameters.js';
import { fairleadSizes, lipRadius, sidePull } from '../../generators/fairlead/sizes.js';
import fairlead from '../../generators/fairlead.js';
import { flangeScrews } from '../../generators/hardware/flange.js';
import { seatOf } from '../../generators/hardware/screw-field.js';
import { apart } from '../helpers/stray-from.js';
import { build, expectMetalUnder, gapAt, sizeOf, someStock, tolerance, tryBuild } from './fitting-probe.js';
import { overHeads } from './flange-probe.js';
import { bounds } from './hatch-pull-probe.js';

const lead = (given: Record<string, unknown> = {}, stock?: Stock) => build(fairlead, given, stock);
const sizesOf = (given: object) => fairleadSizes(fairleadParameters.parse(given));

describe('fairlead: sizes', () => {
  it('usual sizes bear their line and bend it gently, closed and open, metric and inch', () => {
    for (const style of ['closed', 'open'])
      for (const series of ['metric', 'inch'])
        for (const line of [4, 6, 8, 10, 12.7, 16, 20, 24]) {
          const p = fairleadParameters.parse({ line, series, style });
          const s = fairleadSizes(p);
          const found = checkFairlead(p, s, someStock)
            .filter((f) => f.severity !== 'note')
            .map((f) => f.message);
          expect({ style, series, line, found }).toEqual({ style, series, line, found: [] });
          // A lip's section is an ellipse: its radius at the vertex is a²/b. The line bends over 4 of its diameters (Cordage Institute, from memory).
          expect(lipRadius(s)).toBeCloseTo((s.depth / 2) ** 2 / (s.thickness / 2), 9);
          expect(2 * lipRadius(s)).toBeGreaterThan(4 * line - 1e-9);
        }
  });

  it('a line turning through 60° pulls with its own force, through 90° with √2 of it (statics)', () => {
    const pull = (turn: number): number =>
      sidePull(fairleadParameters.parse({ turn: (turn * Math.PI) / 180 }));
    expect(pull(90) / pull(60)).toBeCloseTo(Math.SQRT2, 9);
  });
});

describe('fairlead: dimensions measured on the mesh', () => {
  for (const given of [{}, { style: 'open' }, { line: 12.7, series: 'inch', style: 'open' }])
    for (const stock of [noStock, { ...someStock, bore: 0.2 }])
      it(`${JSON.stringify(given)}, ${stock === noStock ? 'part' : 'casting'}`, () => {
        const built = lead(given, stock);
        const { mesh } = built;
        const s = sizesOf(given);
        const { min, max } = bounds(mesh);
        const near = (symbol: string, value: number): void =>
          expect({ symbol, off: Math.abs(value - sizeOf(built, symbol)) < 2 * tolerance, value }).toEqual({
            symbol,
            off: true,
            value,
          });
        const t = s.flange.thickness;
        near('H', max[2] - min[2]);
        near('l_b', max[0] - min[0]);
        near('b_b', max[1] - min[1]);
        expect(max[2]).toBeCloseTo(stock.mating, 5);
        near('w_o', gapAt(mesh, 0, [0.013, 0.017, -s.centre]));
        near('b_l', gapAt(mesh, 0, [s.halfWidth, 0.017, -s.centre]));
        near('c_l', gapAt(mesh, 1, [s.halfWidth, 0.017, -s.centre]));
        if (s.open) {
          // The least distance of the tips, wherever it is.
          const heights = Array.from({ length: 400 }, (_, i) => min[2] + ((i + 0.5) / 400) * s.thickness);
          near('g', Math.min(...heights.map((z) => gapAt(mesh, 0, [0.013, 0.017, z]))));
        } else near('h_o', gapAt(mesh, 2, [0.013, 0.017, -s.centre]));
        const [x, y] = flangeScrews(s.flange)[0]!;
        if (sizeOf(built, 'd_h') > 0) {
          const seat = seatOf(s.flange.screw);
          near('d_h', gapAt(mesh, 0, [x + 0.01, y + 0.01, -0.5 * (t - seat.coneDepth)]));
        }
      });
});

describe('fairlead: stock', () => {
  for (const given of [{}, { style: 'open' }])
    it(`is a true offset of skin and underside: ${JSON.stringify(given)}`, () => {
      const s = sizesOf(given);
      const part = lead(given);
      const cast = lead({ ...given, holes: 'cored' }, someStock);
      const seat = seatOf(s.flange.screw);
      const onSkin = ([x, y, z]: Vec3): boolean =>
        z < -1 &&
        flangeScrews(s.flange).every(([a, b]) => Math.hypot(x - a, y - b) > seat.mouthDiameter / 2 + 0.7);
      const skin = apart(part.mesh, cast.mesh, onSkin);
      // A fitted mesh is held to the tolerance at its edges' middles and triangles' centres; between them, half as much more.
      expect(skin.least).toBeGreaterThan(someStock.skin - 1.5 * tolerance);
      expect(skin.most).toBeLessThan(someStock.skin + 1.5 * tolerance);
      expect(bounds(cast.mesh).max[2] - bounds(part.mesh).max[2]).toBeCloseTo(someStock.mating, 5);
      // Two screw holes, and the opening of a closed one.
      expect(inspectMesh(part.mesh).genus).toBe(s.open ? 2 : 3);
    });
});

describe('fairlead: screws', () => {
  for (const given of [{}, { style: 'open' }])
    it(`nothing is over their heads: ${JSON.stringify(given)}`, () => {
      const { mesh } = lead(given);
      const { flange } = sizesOf(given);
      expect(overHeads(mesh, flange)).toBe(0);
    });
});

describe('fairlead: gate and vents', () => {
  for (const given of [{}, { line: 14, style: 'open' }])
    it(`stand on the flat underside: ${JSON.stringify(given)}`, () => {
      const built = lead(given, { ...someStock, bore: 0.1 });
      expect(built.vents).toHaveLength(2);
      expectMetalUnder(built);
    });
});

describe('fairlead: findings', () => {
  const cases: [string, Record<string, unknown>, Stock?][] = [
    ['stop lip-flat', { thickness: 5, depth: 40 }],
    ['stop opening-pinched', { openingWidth: 80, openingHeight: 8 }],
    ['stop gap-closed-by-stock', { style: 'open', gap: 4 }, { ...noStock, skin: 1.5 }],
    ['stop gap-wide', { style: 'open', gap: 28 }],
    ['stop fillet-filled-by-stock', { fillet: 1 }, { ...noStock, skin: 0.9 }],
    ['stop fillet-fills-opening', { fillet: 12 }],
    ['stop fillet-large', { fillet: 4, thickness: 4 }],
    ['warn fillet-small', { fillet: 1 }],
    ['stop base-small-for-foot', { baseLength: 30 }],
    ['stop base-wide', { baseWidth: 130 }],
    ['stop countersink-through-plate', { baseThickness: 2.5 }],
    ['warn opening-tight-for-line', { openingWidth: 16, openingHeight: 13 }],
    ['warn gap-tight-for-line', { style: 'open', gap: 8 }],
    ['warn lip-sharp-for-line', { depth: 9 }],
    ['note lip-sharp-for-line', { depth: 22 }],
    ['warn sections-uneven', { thickness: 20, baseThickness: 6 }],
    ['warn mould-fin-thin', { style: 'open', gap: 3, thickness: 18 }],
    ['warn too-light', { thickness: 4 }],
    ['note allowable-load', {}],
  ];
  for (const [code, given, stock] of cases)
    it(`${code}: ${JSON.stringify(given)}`, () => {
      const p = fairleadParameters.parse(given);
      const found = checkFairlead(p, fairleadSizes(p), stock ?? noStock);
      expect(found.map((f) => `${f.severity} ${f.code}`)).toContain(code);
      for (const f of found) {
        expect(`${f.message} ${f.remedy}`).not.toMatch(/NaN|undefined|Infinity|-\d/);
        for (const name of f.parameters ?? []) expect(Object.keys(fairlead.parameters.shape)).toContain(name);
      }
    });

  it('a stop refuses the part', () => {
    expect('solid' in tryBuild(fairlead, { fillet: 12 })).toBe(true);
  });
});
