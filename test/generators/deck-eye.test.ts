import { describe, expect, it } from 'vitest';
import { noStock, type Stock } from '../../core/part/stock.js';
import { inspectMesh } from '../../core/solid/inspect.js';
import type { Vec3 } from '../../core/solid/types.js';
import { checkEye } from '../../generators/deck-eye/checks.js';
import { deckEyeParameters } from '../../generators/deck-eye/parameters.js';
import { deckEyeSizes } from '../../generators/deck-eye/sizes.js';
import deckEye from '../../generators/deck-eye.js';
import { flangeScrews } from '../../generators/hardware/flange.js';
import { seatOf } from '../../generators/hardware/screw-field.js';
import { apart } from '../helpers/stray-from.js';
import { build, expectMetalUnder, gapAt, sizeOf, someStock, tolerance, tryBuild } from './fitting-probe.js';
import { overHeads } from './flange-probe.js';
import { bounds } from './hatch-pull-probe.js';

const eye = (given: Record<string, unknown> = {}, stock?: Stock) => build(deckEye, given, stock);
const sizesOf = (given: object) => deckEyeSizes(deckEyeParameters.parse(given));

describe('deck eye: sizes', () => {
  it('usual sizes bear their line, ring and lug, metric and inch', () => {
    for (const kind of ['ring', 'lug'])
      for (const series of ['metric', 'inch'])
        for (const line of [4, 6, 8, 10, 12.7, 16, 20, 24]) {
          const p = deckEyeParameters.parse({ line, series, eye: kind });
          const found = checkEye(p, deckEyeSizes(p), someStock)
            .filter((f) => f.severity !== 'note')
            .map((f) => f.message);
          expect({ kind, series, line, found }).toEqual({ kind, series, line, found: [] });
        }
  });

  it('a line finds twice its diameter, a shackle stock rod and the lug between its arms', () => {
    const ring = sizesOf({ line: 10 }).eye;
    expect(ring.kind === 'ring' && ring.opening).toBe(20);
    const lug = sizesOf({ line: 10, eye: 'lug' }).eye;
    if (lug.kind !== 'lug') throw new Error('no lug');
    expect(lug.pin).toBe(8);
    expect(lug.hole).toBe(8.5);
    // Bow shackles are 1.4 to 1.5 pins wide inside (makers' lists, from memory).
    expect(lug.thickness).toBeLessThan(1.3 * lug.pin);
    expect(sizesOf({ line: 10, eye: 'lug', pullShare: 0.6 }).eye).toMatchObject({ pin: 8 });
  });
});

describe('deck eye: dimensions measured on the mesh', () => {
  for (const given of [{}, { line: 12.7, series: 'inch' }, { eye: 'lug' }, { eye: 'lug', line: 14 }])
    for (const stock of [noStock, { ...someStock, bore: 0.2 }])
      it(`${JSON.stringify(given)}, ${stock === noStock ? 'part' : 'casting'}`, () => {
        const built = eye(given, stock);
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
        const [x, y] = flangeScrews(s.flange)[0]!;
        if (s.eye.kind === 'ring') near('t', gapAt(mesh, 2, [0.013, 0.017, -t / 2]));
        if (s.eye.kind === 'ring') {
          near('w_o', gapAt(mesh, 0, [0.013, 0.017, -s.eye.centre]));
          near('h_o', gapAt(mesh, 2, [0.013, 0.017, -s.eye.centre]));
          near('d_b', gapAt(mesh, 1, [0.013, 0.017, -(s.eye.centre + s.eye.opening / 2 + s.eye.bar / 2)]));
        } else {
          const beside = s.eye.hole / 2 + 1;
          near('t_l', gapAt(mesh, 1, [beside, 0.013, -s.eye.centre - 0.017]));
          if (sizeOf(built, 'd_p') > 0) {
            near('d_p', gapAt(mesh, 0, [0.013, 0.017, -s.eye.centre]));
            const over = gapAt(mesh, 2, [0.013, 0.017, -(s.eye.centre + s.eye.radius - 1)]);
            near('r_l', over + sizeOf(built, 'd_p') / 2);
          }
        }
        if (sizeOf(built, 'd_h') > 0) {
          const seat = seatOf(s.flange.screw);
          near('d_h', gapAt(mesh, 0, [x + 0.01, y + 0.01, -0.5 * (t - seat.coneDepth)]));
        }
      });
});

describe('deck eye: stock', () => {
  for (const given of [{}, { eye: 'lug' }])
    it(`is a true offset of skin, underside and holes: ${JSON.stringify(given)}`, () => {
      const s = sizesOf(given);
      const part = eye(given);
      const cast = eye({ ...given, holes: 'cored' }, someStock);
      const seat = seatOf(s.flange.screw);
      const lug = s.eye.kind === 'lug' ? s.eye : null;
      const onSkin = ([x, y, z]: Vec3): boolean =>
        z < -1 &&
        flangeScrews(s.flange).every(([a, b]) => Math.hypot(x - a, y - b) > seat.mouthDiameter / 2 + 0.7) &&
        (lug === null || Math.hypot(x, z + lug.centre) > lug.hole / 2 + 0.7);
      const skin = apart(part.mesh, cast.mesh, onSkin);
      // A fitted mesh is held to the tolerance at its edges' middles and triangles' centres; between them, half as much more.
      expect(skin.least).toBeGreaterThan(someStock.skin - 1.5 * tolerance);
      expect(skin.most).toBeLessThan(someStock.skin + 1.5 * tolerance);
      expect(bounds(cast.mesh).max[2] - bounds(part.mesh).max[2]).toBeCloseTo(someStock.mating, 5);
      if (lug !== null) {
        const inHole: Vec3 = [0.013, 0.017, -lug.centre];
        const narrower = gapAt(part.mesh, 0, inHole) - gapAt(cast.mesh, 0, inHole);
        expect(Math.abs(narrower / 2 - someStock.bore)).toBeLessThan(tolerance);
      }
      expect([inspectMesh(part.mesh).genus, inspectMesh(cast.mesh).genus]).toEqual([3, 3]);
    });

  it('a pin hole too thin for a core is left solid, dimpled from both sides', () => {
    const given = { line: 4, eye: 'lug' };
    const cast = eye(given, { ...someStock, bore: 1.4 });
    expect(cast.findings.map((f) => f.code)).toContain('pin-hole-drilled');
    expect(sizeOf(cast, 'd_p')).toBe(0);
    expect(inspectMesh(cast.mesh).genus).toBe(0);
  });
});

describe('deck eye: screws', () => {
  for (const given of [{ opening: 80, bar: 8 }, { eye: 'lug' }])
    it(`nothing is over their heads: ${JSON.stringify(given)}`, () => {
      const { mesh } = eye(given);
      const { flange } = sizesOf(given);
      expect(overHeads(mesh, flange)).toBe(0);
    });
});

describe('deck eye: gate and vents', () => {
  for (const given of [{}, { line: 14 }, { eye: 'lug' }])
    it(`stand on the flat underside: ${JSON.stringify(given)}`, () => {
      const built = eye(given, { ...someStock, bore: 0.1 });
      expect(built.vents).toHaveLength(2);
      expectMetalUnder(built);
    });
});

describe('deck eye: findings', () => {
  const cases: [string, Record<string, unknown>, Stock?][] = [
    ['stop eye-closed-by-stock', { opening: 6, fillet: 1.5 }, { ...noStock, skin: 2 }],
    ['stop fillet-fills-eye', { fillet: 9 }],
    ['stop lug-hole-through-edge', { eye: 'lug', lugRadius: 5 }],
    ['warn wall-at-pin-thin', { eye: 'lug', lugRadius: 6.5 }],
    ['stop fillet-filled-by-stock', { fillet: 1 }, { ...noStock, skin: 0.9 }],
    ['stop fillet-reaches-pin-hole', { eye: 'lug', fillet: 10 }],
    ['warn fillet-small', { fillet: 1 }],
    ['stop base-small-for-foot', { baseLength: 40, baseWidth: 30 }],
    ['stop base-wide', { baseWidth: 120 }],
    ['stop screws-over-edge', { baseWidth: 14, bar: 4 }],
    ['stop screws-meet', { fasteners: '4', baseWidth: 28, screw: 'M8', bar: 8 }],
    ['stop screws-in-foot', { baseLength: 62 }],
    ['warn screws-in-fillet', { baseLength: 86 }],
    ['stop countersink-through-plate', { baseThickness: 3 }],
    ['warn eye-tight-for-line', { opening: 13, fillet: 3 }],
    ['note bar-thin-for-bend', {}],
    ['warn lug-thick-for-shackle', { eye: 'lug', lugThickness: 12 }],
    ['warn sections-uneven', { bar: 20, baseThickness: 7 }],
    ['warn too-light', { bar: 6 }],
    ['note allowable-load', {}],
    ['note pull-in-plane', {}],
  ];
  for (const [code, given, stock] of cases)
    it(`${code}: ${JSON.stringify(given)}`, () => {
      const p = deckEyeParameters.parse(given);
      const found = checkEye(p, deckEyeSizes(p), stock ?? noStock);
      expect(found.map((f) => `${f.severity} ${f.code}`)).toContain(code);
      for (const f of found) {
        expect(`${f.message} ${f.remedy}`).not.toMatch(/NaN|undefined|Infinity|-\d/);
        for (const name of f.parameters ?? []) expect(Object.keys(deckEye.parameters.shape)).toContain(name);
      }
    });

  it('a stop refuses the part', () => {
    expect('solid' in tryBuild(deckEye, { fillet: 9 })).toBe(true);
  });
});
