import { describe, expect, it } from 'vitest';
import { noStock, type Stock } from '../../core/part/stock.js';
import { inspectMesh } from '../../core/solid/inspect.js';
import type { Vec2, Vec3 } from '../../core/solid/types.js';
import { checkJam } from '../../generators/jam-cleat/checks.js';
import { jamCleatParameters } from '../../generators/jam-cleat/parameters.js';
import { jamCleatSizes } from '../../generators/jam-cleat/sizes.js';
import jamCleat from '../../generators/jam-cleat.js';
import { apart } from '../helpers/stray-from.js';
import { build, gapAt, sizeOf, someStock, tolerance, tryBuild } from './fitting-probe.js';
import { bounds } from './hatch-pull-probe.js';

const degree = Math.PI / 180;
const cleat = (given: Record<string, unknown> = {}, stock?: Stock) => build(jamCleat, given, stock);
const sizesOf = (given: object) => jamCleatSizes(jamCleatParameters.parse(given));

/** Area and perimeter of a polygon whose corners are rounded, by its corners and their radii. */
function rounded(corners: readonly (readonly [x: number, y: number, radius: number])[]) {
  let [area, perimeter] = [0, 0];
  corners.forEach(([x, y, r], i) => {
    const [u, v] = corners[(i + 1) % corners.length]!;
    const [p, q] = corners.at(i - 1)!;
    area += (x * v - u * y) / 2;
    perimeter += Math.hypot(u - x, v - y);
    const [a, b]: [Vec2, Vec2] = [
      [x - p, y - q],
      [u - x, v - y],
    ];
    const turn = Math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]);
    const angle = Math.abs(turn);
    area -= Math.sign(turn) * r * r * (Math.tan(angle / 2) - angle / 2);
    perimeter -= r * (2 * Math.tan(angle / 2) - angle);
  });
  return { area, perimeter };
}

describe('jam cleat: against closed form', () => {
  it('volume: rounded polygon, quarter rounds along both sides (Steiner), two countersunk holes', () => {
    const given = { line: 8, fillet: 3, edge: 1.4, backHorn: 18 };
    const s = sizesOf(given);
    const [t, tip] = [s.baseThickness, 0.3 * s.tipHeight];
    const inThroat = Math.min(s.fillet, 0.42 * s.end);
    const [under, low] = [t + 10, s.top - s.drop];
    const back = 0.3 * (low - under - 0.15 * 8);
    const { area, perimeter } = rounded([
      [s.left, 0, 0],
      [s.right, 0, 0],
      [s.right, t, s.footRadius],
      [0, t, inThroat],
      [0, t + s.end, inThroat],
      [s.throat, t + s.mouth, tip],
      [s.throat, low, tip],
      [0, s.top, 16],
      [-s.post, s.top, 16],
      [-s.post - 18, low, back],
      [-s.post - 18, under + 0.15 * 8, back],
      [-s.post, under, s.fillet],
      [-s.post, t, s.fillet],
      [s.left, t, s.footRadius],
    ]);
    // Moved in by u the area is A − P u + k u², k half the turn of the arcs and a tangent for each sharp corner.
    const [r, k] = [1.4, Math.PI / 2 + 2];
    const edges = 2 * (perimeter * r ** 2 * (1 - Math.PI / 4) - k * r ** 3 * (5 / 3 - Math.PI / 2));
    const hole = (depth: number): number => {
      const [m, d, c] = [s.seat.mouthDiameter / 2, s.seat.holeDiameter / 2, s.seat.coneDepth];
      return Math.PI * d * d * (depth - c) + ((Math.PI * c) / 3) * (m * m + m * d + d * d);
    };
    const exact = area * s.width - edges - hole(s.top) - hole(t);
    expect(Math.abs(cleat(given).volume / exact - 1)).toBeLessThan(1e-3);
  });

  it('throat: 1.3 d at the mouth, 0.6 d at the end, closing by 8° in all', () => {
    const s = sizesOf({ line: 10 });
    expect([s.mouth, s.end]).toEqual([13, 6]);
    expect(s.throat).toBeCloseTo(7 / Math.tan(8 * degree), 9);
  });
});

describe('jam cleat: dimensions measured on the mesh', () => {
  for (const given of [{}, { line: 12.7, series: 'inch' }, { backHorn: 0, line: 6 }])
    for (const stock of [noStock, someStock])
      it(`${JSON.stringify(given)}, ${stock === noStock ? 'part' : 'casting'}`, () => {
        const built = cleat(given, stock);
        const { mesh } = built;
        const s = sizesOf(given);
        const { min, max } = bounds(mesh);
        const near = (symbol: string, value: number): void =>
          expect({ symbol, off: Math.abs(value - sizeOf(built, symbol)) < 2 * tolerance, value }).toEqual({
            symbol,
            off: true,
            value,
          });
        near('L', max[0] - min[0]);
        near('H', max[1] - min[1]);
        near('b', max[2] - min[2]);
        const z = s.width / 2 + 0.013;
        const at = (x: number, y: number, dz = 0.37 * s.width): Vec3 => [x, y, z + dz - 0.013];
        const inBase = at(s.throat * 0.6, s.baseThickness / 2, 0.3 * s.width);
        near('t', gapAt(mesh, 1, inBase));
        near('l_b', gapAt(mesh, 0, [inBase[0], s.baseThickness / 2, 0.8 * s.width]));
        // The throat's height at two places gives its taper and its end.
        const height = (share: number): number =>
          gapAt(mesh, 1, at(share * s.throat, s.baseThickness + s.end / 2, 0.3 * s.width));
        const [a, b] = [height(0.35), height(0.75)];
        const slope = (b - a) / (0.4 * s.throat);
        expect(Math.abs(Math.atan(slope) - sizeOf(built, 'α'))).toBeLessThan(0.002);
        // Walls produced to where the throat's end is in this state.
        near('w_e', a - slope * (0.35 * s.throat - stock.skin));
        if (sizeOf(built, 'd_h') > 0)
          near(
            'd_h',
            gapAt(mesh, 0, [
              s.baseScrew + 0.01,
              0.4 * (s.baseThickness - s.seat.coneDepth),
              s.width / 2 + 0.01,
            ]),
          );
      });
});

describe('jam cleat: stock', () => {
  it('is a true offset of skin, underside and holes', () => {
    const given = { line: 10 };
    const s = sizesOf(given);
    const part = cleat(given);
    const cast = cleat({ ...given, holes: 'cored' }, someStock);
    const offHole = ([x, , z]: Vec3, screw: number): number => Math.hypot(x - screw, z - s.width / 2);
    const clear = (at: Vec3): boolean =>
      [s.postScrew, s.baseScrew].every((screw) => offHole(at, screw) > s.seat.mouthDiameter / 2 + 0.7);
    const skin = apart(part.mesh, cast.mesh, (at) => at[1] > 1 && clear(at));
    expect(skin.least).toBeGreaterThan(someStock.skin - tolerance - 0.002);
    expect(skin.most).toBeLessThan(someStock.skin + tolerance + 0.002);
    const foot = apart(
      part.mesh,
      cast.mesh,
      (at) => Math.abs(at[1]) < 1e-6 && clear(at) && at[2] > 3 && at[2] < s.width - 3 && Math.abs(at[0]) < 25,
    );
    if (Number.isFinite(foot.least)) expect(foot.most).toBeLessThan(someStock.mating + 1e-4);
    expect(bounds(part.mesh).min[1] - bounds(cast.mesh).min[1]).toBeCloseTo(someStock.mating, 5);
    const bore = apart(
      part.mesh,
      cast.mesh,
      (at) => Math.abs(offHole(at, s.baseScrew) - s.seat.holeDiameter / 2) < 1e-3 && at[1] > 0.5,
    );
    expect(Math.abs(bore.least - someStock.bore)).toBeLessThan(tolerance + 0.002);
    expect([inspectMesh(part.mesh).genus, inspectMesh(cast.mesh).genus]).toEqual([2, 2]);
  });

  it('gate and vents stand on the flat of the side', () => {
    const built = cleat({}, someStock);
    expect(built.gates).toHaveLength(1);
    expect(built.vents.length).toBeGreaterThanOrEqual(2);
    const top = bounds(built.mesh).max[2];
    for (const [at, radius] of [
      ...built.gates.map((g) => [g.at, g.outerDiameter / 2] as const),
      ...built.vents.map((v) => [v.at, v.footDiameter / 2] as const),
    ]) {
      expect(at[2]).toBeCloseTo(top, 5);
      for (let i = 0; i < 24; i++) {
        const a = (i / 24) * 2 * Math.PI + 0.01;
        const under: Vec3 = [
          at[0] + 0.999 * radius * Math.cos(a),
          at[1] + 0.999 * radius * Math.sin(a),
          top - 0.2,
        ];
        // Straight up from just under the flat the metal ends at its level.
        expect(gapAt(built.mesh, 2, under)).toBeGreaterThan(1);
      }
    }
  });
});

describe('jam cleat: findings', () => {
  it('usual sizes bear their line', () => {
    for (const series of ['metric', 'inch'])
      for (const line of [5, 6.35, 8, 10, 12, 16, 20]) {
        const p = jamCleatParameters.parse({ line, series });
        const found = checkJam(p, jamCleatSizes(p), someStock)
          .filter((f) => f.severity !== 'note' && f.code !== 'mould-fin-thin')
          .map((f) => f.message);
        expect({ series, line, found }).toEqual({ series, line, found: [] });
      }
  });

  const cases: [string, Record<string, unknown>, Stock?][] = [
    ['stop throat-without-taper', { mouth: 4.5 }],
    ['stop throat-short', { taper: 25 * degree, mouth: 8 }],
    ['stop throat-closed-by-stock', { end: 1.5 }, { ...noStock, skin: 0.5 }],
    ['stop horn-tip-thin', { hornHeight: 7 }],
    ['stop edges-meet', { edge: 5 }],
    ['stop fillet-filled-by-stock', { fillet: 0.5 }, { ...noStock, skin: 0.5 }],
    ['warn fillet-small', { fillet: 1 }],
    ['stop back-horn-thin', { hornHeight: 10 }],
    ['stop back-horn-short', { backHorn: 5 }],
    ['stop fillet-taller-than-post', { backHorn: 0, fillet: 18 }],
    ['stop screw-wider-than-body', { width: 8 }],
    ['stop countersink-through-plate', { baseThickness: 2.5 }],
    ['warn throat-does-not-grip', { end: 7.5, mouth: 12 }],
    ['note taper-unusual', { taper: 15 * degree }],
    ['warn mould-fin-thin', { line: 5 }],
    ['warn too-light', { pullShare: 1 }],
    ['note allowable-load', {}],
  ];
  for (const [code, given, stock] of cases)
    it(`${code}: ${JSON.stringify(given)}`, () => {
      const p = jamCleatParameters.parse(given);
      const found = checkJam(p, jamCleatSizes(p), stock ?? noStock);
      expect(found.map((f) => `${f.severity} ${f.code}`)).toContain(code);
      for (const f of found) {
        expect(`${f.message} ${f.remedy}`).not.toMatch(/NaN|undefined|Infinity|-\d/);
        for (const name of f.parameters ?? []) expect(Object.keys(jamCleat.parameters.shape)).toContain(name);
      }
    });

  it('a stop refuses the part', () => {
    expect('solid' in tryBuild(jamCleat, { edge: 5 })).toBe(true);
  });
});
