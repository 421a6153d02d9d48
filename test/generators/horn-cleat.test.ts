import { describe, expect, it } from 'vitest';
import { noStock, type Stock } from '../../core/part/stock.js';
import { inspectMesh } from '../../core/solid/inspect.js';
import type { Vec3 } from '../../core/solid/types.js';
import { checkCleat } from '../../generators/horn-cleat/checks.js';
import { neckSection } from '../../generators/horn-cleat/loads.js';
import { hornCleatParameters } from '../../generators/horn-cleat/parameters.js';
import { hornCleatSizes } from '../../generators/horn-cleat/sizes.js';
import hornCleat from '../../generators/horn-cleat.js';
import { apart } from '../helpers/stray-from.js';
import {
  build,
  expectMetalUnder,
  gapAt,
  placesOf,
  sizeOf,
  someStock,
  tolerance,
  tryBuild,
} from './fitting-probe.js';
import { bounds } from './hatch-pull-probe.js';

const cleat = (given: Record<string, unknown> = {}, stock?: Stock) => build(hornCleat, given, stock);
const codes = (given: Record<string, unknown>, stock?: Stock): string[] =>
  tryBuild(hornCleat, given, stock).findings.map((f) => `${f.severity} ${f.code}`);
const sizesOf = (given: object) => hornCleatSizes(hornCleatParameters.parse(given));

describe('horn cleat: sizes by the usual rules', () => {
  it('is sixteen line diameters long: an inch for each sixteenth of line (riggers’ rule)', () => {
    for (const line of [6, 10, 14]) expect(sizesOf({ line }).length).toBeCloseTo(16 * line, 9);
    const inches = sizesOf({ series: 'inch', line: 25.4 / 2 });
    expect(inches.length / 25.4).toBeCloseTo(8, 9);
    expect(inches.fasteners).toBe(4);
    expect(inches.screw.series).toBe('inch');
  });

  it('has screws of half the line at least, and no head under the horns', () => {
    for (const base of ['open', 'closed'])
      for (const line of [5, 8, 10, 12, 16, 20]) {
        const s = sizesOf({ line, base });
        expect(s.screw.diameter).toBeGreaterThanOrEqual(Math.min(line / 2, 10) - 1e-9);
        if (s.fasteners === 4)
          expect(s.screwAcross - s.seat.mouthDiameter / 2).toBeGreaterThan(s.hornWidth / 2);
      }
  });

  it('bears its line as it comes, in tin bronze, from 5 to 20 mm', () => {
    for (const base of ['open', 'closed'])
      for (const series of ['metric', 'inch'])
        for (const line of [5, 6.35, 8, 10, 12, 12.7, 16, 20]) {
          const p = hornCleatParameters.parse({ line, base, series });
          const found = checkCleat(p, hornCleatSizes(p), noStock)
            .filter((f) => f.severity !== 'note')
            .map((f) => f.message);
          expect({ base, series, line, found }).toEqual({ base, series, line, found: [] });
        }
  });

  it('two legs are a portal frame: a quarter of the moment in each, and a couple over their distance', () => {
    const s = sizesOf({ line: 14, base: 'open' });
    const section = neckSection(s);
    // Force F at height h over legs at ±a: M = F h / 4 at a leg's end, N = F h / (4 a) in it.
    const [force, h] = [1000, 30];
    const [r, straight] = [s.legWidth / 2, s.legLength - s.legWidth];
    const area = Math.PI * r * r + s.legWidth * straight;
    // Independent: the section's second moment by strips.
    const n = 20_000;
    let inertia = 0;
    for (let i = 0; i < n; i++) {
      const x = ((i + 0.5) / n - 0.5) * s.legLength;
      const past = Math.max(0, Math.abs(x) - straight / 2);
      inertia += (x * x * 2 * Math.sqrt(Math.max(0, r * r - past * past)) * s.legLength) / n;
    }
    const stress = ((force * h) / 4) * (s.legLength / 2 / inertia) + (force * h) / (4 * s.legAt * area);
    expect((force * h) / section.modulus / stress).toBeCloseTo(1, 5);
  });
});

describe('horn cleat: dimensions measured on the mesh', () => {
  for (const given of [{}, { line: 14 }, { base: 'closed', line: 14, series: 'inch' }])
    for (const stock of [noStock, someStock]) {
      it(`${JSON.stringify(given)}, ${stock === noStock ? 'part' : 'casting'}`, () => {
        const built = cleat(given, stock);
        const { mesh } = built;
        const s = sizesOf(given);
        const { min, max } = bounds(mesh);
        const near = (symbol: string, value: number, by = 2 * tolerance): void =>
          expect({ symbol, off: Math.abs(value - sizeOf(built, symbol)) < by, value }).toEqual({
            symbol,
            off: true,
            value,
          });
        expect(max[2]).toBeCloseTo(stock.mating, 5);
        near('L', max[0] - min[0]);
        near('H', max[2] - min[2]);
        near('b_b', max[1] - min[1]);
        const crown = -(s.baseThickness + s.clearance + s.hornHeight / 2);
        const half = -(s.baseThickness + s.clearance / 2);
        const inHorn: Vec3 = [0.013, 0.017, crown];
        near('b_h', gapAt(mesh, 1, inHorn));
        if (s.base === 'open') {
          near('h_r', gapAt(mesh, 2, inHorn));
          near('h_1', gapAt(mesh, 2, [0.013, 0.017, half]));
          near('w_o', gapAt(mesh, 0, [0.013, 0.017, half]));
          if (s.fasteners === 4) near('b_l', gapAt(mesh, 1, [s.legAt + 0.013, 0.017, half]));
        } else {
          near('b_l', gapAt(mesh, 1, [0.013, 0.017, half]));
          if (s.fasteners === 4) near('l_l', gapAt(mesh, 0, [0.013, 0.017, half]));
        }
        const low = -s.baseThickness * 0.3;
        near('l_b', Math.abs(edgeAt(mesh, low) * 2));
        if (s.fasteners === 4 && sizeOf(built, 'd_h') > 0)
          near(
            'd_h',
            gapAt(mesh, 0, [
              s.screwAlong + 0.011,
              s.screwAcross + 0.007,
              -0.9 * s.baseThickness + s.seat.coneDepth,
            ]),
          );
      });
    }
});

/** The base's end at a height: the furthest crossing of the middle line. */
function edgeAt(mesh: Parameters<typeof gapAt>[0], z: number): number {
  let end = 0;
  for (let v = 0; v < mesh.positions.length; v += 3)
    if (mesh.positions[v + 2]! > z) end = Math.max(end, mesh.positions[v]!);
  return end;
}

describe('horn cleat: stock', () => {
  for (const given of [{}, { base: 'closed', line: 12.5 }]) {
    it(`is a true offset of skin, underside and holes: ${JSON.stringify(given)}`, () => {
      const s = sizesOf(given);
      const part = cleat(given);
      const cast = cleat({ ...given, holes: 'cored' }, someStock);
      const nearHole = ([x, y]: Vec3): boolean =>
        Math.hypot(Math.abs(x) - s.screwAlong, Math.abs(y) - s.screwAcross) < s.seat.mouthDiameter / 2 + 0.6;
      const skin = apart(part.mesh, cast.mesh, (at) => at[2] < -1 && !nearHole(at));
      // A fitted mesh is held to the tolerance at its edges' middles and triangles' centres; between them, half as much more.
      expect(skin.least).toBeGreaterThan(someStock.skin - 1.5 * tolerance);
      expect(skin.most).toBeLessThan(someStock.skin + 1.5 * tolerance);
      const mid = bounds(part.mesh).min[2] / 2;
      const bore = apart(part.mesh, cast.mesh, (at) => {
        const r = Math.hypot(Math.abs(at[0]) - s.screwAlong, Math.abs(at[1]) - s.screwAcross);
        return Math.abs(r - s.seat.holeDiameter / 2) < 1e-3 && (s.fasteners === 4 ? at[2] < -1 : at[2] < mid);
      });
      expect(Math.abs(bore.least - someStock.bore)).toBeLessThan(tolerance + 0.002);
      expect(bounds(cast.mesh).max[2] - bounds(part.mesh).max[2]).toBeCloseTo(someStock.mating, 5);
      // Holes smaller, body larger: two holes, or four, go through in both.
      expect(inspectMesh(part.mesh).genus).toBe(s.fasteners + (s.base === 'open' ? 1 : 0));
      expect(inspectMesh(cast.mesh).genus).toBe(s.fasteners + (s.base === 'open' ? 1 : 0));
    });
  }

  it('screw holes too deep for a core are left solid, with a countersink to start the drill in', () => {
    const cast = cleat({}, someStock);
    expect(cast.findings.map((f) => f.code)).toContain('screw-holes-drilled');
    expect(sizeOf(cast, 'd_h')).toBe(0);
    expect(inspectMesh(cast.mesh).genus).toBe(1);
    expect(codes({ holes: 'cored' }, someStock)).toContain('warn screw-hole-core-long');
    expect(codes({ holes: 'drilled', line: 14 }, someStock)).toContain('note screw-holes-drilled');
    expect(codes({ line: 14 }, { ...someStock, bore: 0.2 })).not.toContain('note screw-holes-drilled');
  });
});

describe('horn cleat: gate and vents', () => {
  for (const given of [{}, { line: 14 }, { base: 'closed' }])
    it(`stand on the flat underside: ${JSON.stringify(given)}`, () => {
      const built = cleat(given, { ...someStock, bore: 0.1 });
      const places = placesOf(built);
      expect(built.gates[0]!.outerDiameter).toBeGreaterThan(10);
      expect(built.vents).toHaveLength(2);
      expectMetalUnder(built);
      places.forEach((a, i) => {
        for (const b of places.slice(i + 1))
          expect(Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1])).toBeGreaterThan(a.radius + b.radius + 3);
      });
    });
});

describe('horn cleat: findings', () => {
  const cases: [string, Record<string, unknown>, Stock?][] = [
    ['stop horns-thicken', { tipHeight: 20 }],
    ['stop horns-short', { length: 60 }],
    ['stop sweep-steep', { sweep: 50 }],
    ['stop legs-wider-than-horns', { hornHeight: 5, tipHeight: 4 }],
    ['stop fillet-filled-by-stock', { fillet: 1 }, { ...noStock, skin: 0.9 }],
    ['warn fillet-small', { fillet: 1.5 }],
    ['stop fillets-meet', { fillet: 9 }],
    ['stop base-small-for-legs', { baseLength: 40 }],
    ['stop base-wide', { baseWidth: 140 }],
    ['stop base-longer-than-horns', { baseLength: 200 }],
    ['stop screws-over-edge', { line: 14, baseWidth: 30 }],
    ['stop countersink-through-plate', { line: 14, baseThickness: 4 }],
    ['stop screws-through-legs', { screw: 'M10', legWidth: 9 }],
    ['warn wall-at-screws-thin', { screw: 'M6', legWidth: 10 }],
    ['warn screws-under-horns', { line: 14, baseWidth: 44 }],
    ['warn cleat-short-for-line', { length: 120 }],
    ['warn no-room-under-horns', { clearance: 11.8 }],
    ['note opening-narrow', { line: 14, opening: 16.6 }],
    ['warn sections-uneven', { line: 14, hornHeight: 30, legWidth: 13, fillet: 8 }],
    ['warn too-light', { pullShare: 1 }],
    ['note allowable-load', {}],
  ];
  for (const [code, given, stock] of cases)
    it(`${code}: ${JSON.stringify(given)}`, () => {
      const p = hornCleatParameters.parse(given);
      const found = checkCleat(p, hornCleatSizes(p), stock ?? noStock);
      expect(found.map((f) => `${f.severity} ${f.code}`)).toContain(code);
      for (const f of found) {
        expect(`${f.message} ${f.remedy}`).not.toMatch(/NaN|undefined|Infinity|-\d/);
        for (const name of f.parameters ?? [])
          expect(Object.keys(hornCleat.parameters.shape)).toContain(name);
      }
    });

  it('a stop refuses the part', () => {
    expect('solid' in tryBuild(hornCleat, { fillet: 9 })).toBe(true);
  });
});
