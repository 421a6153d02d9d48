import { describe, expect, it } from 'vitest';
import { noStock, type Stock } from '../../core/part/stock.js';
import type { Mesh, Vec3 } from '../../core/solid/types.js';
import { flushLayout } from '../../generators/ring-pull/flush-sizes.js';
import { ringPullParameters } from '../../generators/ring-pull/parameters.js';
import { baseLayout, ringPullSizes } from '../../generators/ring-pull/sizes.js';
import { pinHeight } from '../../generators/ring-pull/surface-plate.js';
import ringPull from '../../generators/ring-pull.js';
import { overlapsOf, type Pose } from '../helpers/overlap-volume.js';
import {
  type Built,
  bounds,
  buildPart,
  distanceTo,
  sizeOf,
  surfacePoints,
  tryBuildPart,
} from '../helpers/part-probe.js';

const still: Pose = { turn: 0, by: [0, 0, 0] };

type Given = Record<string, unknown>;
const tolerance = 0.03;
const stock: Stock = { ...noStock, skin: 0.3, mating: 0.6, bore: 0.4, face: 0.8 };
const build = (piece: string, given: Given = {}, s: Stock = noStock, chord = tolerance): Built =>
  buildPart(ringPull, { piece, given, stock: s, chord });
const codes = (given: Given, s?: Stock, piece = 'ring'): string[] =>
  tryBuildPart(ringPull, { piece, given, ...(s ? { stock: s } : {}), chord: 0.1 }).findings.map(
    (f) => `${f.severity} ${f.code}`,
  );
const sizes = (given: Given) => ringPullSizes(ringPullParameters.parse(given));

describe('ring pull: ring and pin against closed form', () => {
  /** Straight back wide enough for tab and fillets; edges small enough that the hole comes out on the flat. */
  const given = {
    fingers: 2,
    size: 24,
    eyeWidth: 70,
    tabWidth: 16,
    thickness: 8,
    rimWidth: 10,
    edgeRadius: 1.2,
  };

  it.each([0, 0.3])('volume of the ring with a stock of %d mm all over', (s) => {
    const z = sizes(given);
    const built = build(
      'ring',
      { ...given, pinHoles: 'cored' },
      { ...noStock, skin: s, mating: s, bore: s },
      3e-3,
    );
    const straight = 70 - 24;
    const stadium = (r: number) => Math.PI * r * r + 2 * r * straight;
    const [outer, tabEnd, c] = [22, z.pinX + z.pinToEnd, z.tabCorner];
    // Area of the outline moved out by u: lines and arcs move, corners smaller than an inset end sharp.
    const area = (u: number): number =>
      stadium(outer + u) +
      (16 + 2 * u) * (tabEnd - outer) +
      2 * (1 - Math.PI / 4) * ((z.filletRadius - u) ** 2 - Math.max(0, c + u) ** 2) -
      stadium(12 - u);
    const r = 1.2 + s;
    const n = 4000;
    let edges = 0;
    for (let i = 0; i < n; i++) {
      const h = ((i + 0.5) / n) * r;
      edges += (2 * r * area(s - r + Math.sqrt(r * r - h * h))) / n;
    }
    const exact = area(s) * (8 - 2 * 1.2) + edges - Math.PI * (z.holeDiameter / 2 - s) ** 2 * (16 + 2 * s);
    expect(Math.abs(built.volume / exact - 1)).toBeLessThan(3e-4);
  });

  it('volume of the pin and of its casting', () => {
    for (const s of [noStock, stock]) {
      const built = build('pin', {}, s, 1e-4);
      const [d, l] = [sizeOf(built, 'd_p'), sizeOf(built, 'l_p')];
      // Steel rule and micrometer, less the ring of triangular section that the chamfer takes (Pappus).
      const leg = 0.5 + s.face + (1 - Math.SQRT2) * s.mating;
      const chamfer = Math.PI * leg * leg * (d / 2 - leg / 3);
      expect(Math.abs(built.volume / ((Math.PI / 4) * d * d * l - chamfer) - 1)).toBeLessThan(1e-4);
    }
  });
});

describe('ring pull: stock is a normal offset by class', () => {
  /** Distances from the part's surface to the casting's, by class; places that `classOf` passes over are left out. */
  function expectOffsets(
    piece: string,
    given: Given,
    classOf: (at: Vec3, normal: Vec3) => 'skin' | 'mating' | 'face' | null,
    least: Partial<Record<string, number>>,
    slack: number,
    spacing = 2,
  ): void {
    const part = build(piece, { ...given, holes: 'cored', pinHoles: 'cored' });
    const far = distanceTo(build(piece, { ...given, holes: 'cored', pinHoles: 'cored' }, stock).mesh);
    const seen: Record<string, number> = {};
    for (const { at, normal } of surfacePoints(part.mesh, spacing)) {
      const c = classOf(at, normal);
      if (c === null) continue;
      seen[c] = (seen[c] ?? 0) + 1;
      const off = Math.abs(far(at) - stock[c]);
      if (off > slack) throw new Error(`${c} at ${at.map((v) => v.toFixed(3))}: ${far(at)}`);
    }
    for (const [c, count] of Object.entries(least)) expect(seen[c] ?? 0).toBeGreaterThan(count as number);
  }

  it.each([{}, { fingers: 2, size: 25 }, { series: 'inch', size: 38.1 }])('ring %j', (asked) => {
    // A longer tab than the usual, to have room between hole and fillets.
    const given = { ...asked, pinDistance: sizes(asked).pinDistance + 8 };
    const s = sizes(given);
    const side = s.tabWidth / 2;
    expectOffsets(
      'ring',
      given,
      ([x, y, z], n) => {
        const [px, pz] = [x + s.pinX, z - s.thickness / 2];
        if (Math.hypot(px, pz) < s.holeDiameter / 2 + 1.2 && Math.abs(y) < side + 0.1) return null;
        if (x < -s.plan.filletX) {
          const flat = Math.abs(n[1]) > 0.9999;
          // Next to the other class the nearer of the two moved surfaces is nearest.
          if (!flat && Math.abs(y) > side - s.edgeRadius - 1) return null;
          if (flat) return px > 2.2 && Math.abs(pz) < 0.4 && x < -s.plan.filletX - 1 ? 'mating' : null;
        }
        if (x < -s.plan.filletX + s.filletRadius + 2 && Math.abs(y) < side + s.filletRadius + 1) return null;
        return 'skin';
      },
      { skin: 1500, mating: 10 },
      2 * tolerance + 0.002,
      1,
    );
  });

  it.each([{}, { fasteners: '4', size: 40 }])('surface plate %j', (given) => {
    const s = sizes(given);
    const base = baseLayout(s, given.fasteners === '4' ? '4' : '2');
    const h = pinHeight(s);
    expectOffsets(
      'plate',
      given,
      ([x, y, z], n) => {
        if (z < 1e-3)
          return Math.abs(x) < base.half / 2 && Math.abs(y) < 0.6 * base.screws[0]![1] ? 'mating' : null;
        if (z < 1.5) return null;
        if (base.screws.some(([a, b]) => Math.hypot(x - a, y - b) < s.seat.mouthDiameter / 2 + 1))
          return null;
        if (Math.hypot(x, z - h) < s.holeDiameter / 2 + 1) return null;
        if (Math.abs(Math.abs(y) - s.gap / 2) < 1e-3 && Math.abs(n[1]) > 0.9999)
          return Math.abs(x) < s.eyeRadius - 2 && z > s.plateThickness + s.rootFillet + 0.7 && z < h
            ? 'mating'
            : null;
        // Fillets and edges between the eyes join the two classes.
        if (Math.abs(y) < s.gap / 2 + 2) return null;
        return 'skin';
      },
      { skin: 300, mating: 100 },
      2 * tolerance + 0.002,
    );
  });

  it('flush plate', () => {
    const given = { style: 'flush' };
    const s = sizes(given);
    const at = flushLayout(s);
    const far = (x: number, y: number): boolean =>
      at.screws.every(([a, b]) => Math.hypot(x - a, y - b) > s.seat.mouthDiameter / 2 + 1.5);
    expectOffsets(
      'plate',
      given,
      ([x, y, z], n) => {
        if (!far(x, y)) return null;
        // The slot's sides, the groove and what meets them.
        if (x < -s.plan.filletX + 7 && Math.abs(y) < s.gap / 2 + 6) return null;
        if (Math.abs(z - at.top) < 1e-3)
          return n[2] > 0.999 && Math.hypot(x, y) > s.plan.outer + 2.8 ? 'face' : null;
        if (z > at.top - 1.7) return null;
        if (Math.abs(z - at.flangeUnder) < 1e-3)
          return n[2] < -0.999 &&
            Math.hypot(x, y) > s.plan.outer + 9 &&
            Math.abs(y) < at.flange.y - 5 &&
            x > at.flange.x[0] + 2 &&
            x < at.flange.x[1] - 2
            ? 'mating'
            : null;
        if (z > at.flangeUnder - 3.5 && Math.hypot(x, y) > s.plan.outer + 2) return null;
        if (x < -s.plan.outer && Math.abs(y) < s.gap) return null;
        return 'skin';
      },
      { skin: 400, mating: 30, face: 30 },
      2 * tolerance + 0.002,
    );
  });
});

describe('ring pull: sizes as measured on the meshes', () => {
  it.each([
    ['ring', {}],
    ['ring', { fingers: 2, series: 'inch', size: 31.75 }],
    ['plate', {}],
    ['plate', { fasteners: '4' }],
    ['plate', { style: 'flush' }],
    ['pin', { style: 'flush' }],
  ] as const)('%s %j', (piece, given) => {
    for (const s of [noStock, stock]) {
      const built = build(piece, given, s);
      const { min, max } = bounds(built.mesh);
      const size = (symbol: string) => sizeOf(built, symbol);
      const near = (value: number, symbol: string) =>
        expect({ symbol, off: Math.abs(value - size(symbol)) < 2 * tolerance }).toEqual({
          symbol,
          off: true,
        });
      if (piece === 'pin') {
        near(max[2] - min[2], 'l_p');
        near(max[0] - min[0], 'd_p');
      } else if (piece === 'ring') {
        near(max[0] - min[0], 'l');
        near(max[1] - min[1], 'b');
        near(max[2] - min[2], 't');
        near(gap(built.mesh, 1, [0.013, 0, size('t') / 2 - s.skin]), 'w_e');
        near(gap(built.mesh, 0, [0, 0.013, size('t') / 2 - s.skin]), 'l_e');
      } else if ('style' in given) {
        near(max[0] - min[0], 'l');
        near(max[1] - min[1], 'b');
        near(max[2] - min[2], 'h');
        const z = sizes(given);
        near(gap(built.mesh, 1, [-z.pinX - 2.51, 0.01, flushLayout(z).top - 2.5]), 'w_g');
      } else {
        near(max[1] - min[1], 'l');
        near(max[0] - min[0], 'b');
        near(max[2] - min[2], 'h');
        near(
          gap(built.mesh, 1, [0.37 + sizeOf(built, 'd_h') / 2 + 0.3, 0.01, pinHeight(sizes(given))]),
          'w_g',
        );
      }
      // Stands on its lowest point, where the part's own coordinates have it.
      expect(min[2]).toBeLessThan(1e-4);
    }
  });

  it('running clearances are those asked for once the stock is off', () => {
    const given = { endClearance: 0.6, pinClearance: 0.2 };
    const [ring, plate, pin] = ['ring', 'plate', 'pin'].map((piece) => build(piece, given)) as [
      Built,
      Built,
      Built,
    ];
    expect(sizeOf(plate, 'w_g') - sizeOf(ring, 'b_t')).toBeCloseTo(0.6, 9);
    expect(sizeOf(ring, 'd_h') - sizeOf(pin, 'd_p')).toBeCloseTo(0.2, 9);
    expect(sizeOf(plate, 'd_h')).toBe(sizeOf(ring, 'd_h'));
    // In the castings the hole is smaller, the tab wider, the gap narrower, the pin thicker.
    const cast = (piece: string) => build(piece, { ...given, pinHoles: 'cored' }, stock);
    expect(sizeOf(cast('ring'), 'd_h')).toBeCloseTo(sizeOf(ring, 'd_h') - 0.8, 9);
    expect(sizeOf(cast('ring'), 'b_t')).toBeCloseTo(sizeOf(ring, 'b_t') + 1.2, 9);
    expect(sizeOf(cast('plate'), 'w_g')).toBeCloseTo(sizeOf(plate, 'w_g') - 1.2, 9);
    expect(sizeOf(cast('pin'), 'd_p')).toBeCloseTo(sizeOf(pin, 'd_p') + 1.2, 9);
  });
});

describe('ring pull: the ring turns on its pin without touching', () => {
  it.each([
    [{}, 0, Math.PI],
    [{ size: 20, fasteners: '4' }, 0, Math.PI],
    [{ style: 'flush' }, 0, 0.55 * Math.PI],
    [{ style: 'flush', fingers: 2, size: 25 }, 0, 0.55 * Math.PI],
  ] as const)('%j', async (given, from, to) => {
    const s = sizes(given);
    const z = s.style === 'flush' ? flushLayout(s).pinZ : pinHeight(s);
    const plateX = s.style === 'flush' ? -s.pinX : 0;
    // The pin's axis made Z, by a cyclic change of the axes.
    const onPin = (mesh: Mesh, x: number, up: number): Mesh => ({
      ...mesh,
      positions: mesh.positions.map((_, i, p) => {
        const v = 3 * Math.floor(i / 3);
        return [p[v + 2]! - up, p[v]! - x, p[v + 1]!][i % 3]!;
      }),
    });
    const pair = await overlapsOf(
      onPin(build('ring', given, noStock, 0.05).mesh, -s.pinX, s.thickness / 2),
      onPin(build('plate', given, noStock, 0.05).mesh, plateX, z),
    );
    for (let i = 0; i <= 9; i++) {
      const turn = -(from + ((to - from) * i) / 9);
      expect({ turn, overlap: pair.at({ turn, by: [0, 0, 0] }, still) }).toEqual({ turn, overlap: 0 });
    }
    expect(pair.gap({ turn: 0, by: [0, 0, 0] }, still, 1)).toBeGreaterThan(0.1);
    pair.free();
  });

  it('lies flush: below the face, and by less than a millimetre', () => {
    const s = sizes({ style: 'flush' });
    const { top, pinZ, seatFloor } = flushLayout(s);
    expect(top - (pinZ + s.thickness / 2)).toBeCloseTo(0.2, 9);
    expect(pinZ - s.thickness / 2 - seatFloor).toBeGreaterThan(0.2);
    expect(pinZ - s.thickness / 2 - seatFloor).toBeLessThan(1);
  });
});

describe('ring pull: proportions, stock sizes and loads', () => {
  it('sizes of 18 to 60 mm come out without a warning of their own, in both styles and series', () => {
    for (const series of ['metric', 'inch'])
      for (const style of ['surface', 'flush'])
        for (const fingers of [1, 2])
          for (const size of [20, 25, 32, 40, 50, 60]) {
            const found = tryBuildPart(ringPull, {
              piece: 'pin',
              given: { series, style, fingers, size },
              stock,
            }).findings.filter((f) => f.severity !== 'note');
            expect({ series, style, fingers, size, found }).toEqual({
              series,
              style,
              fingers,
              size,
              found: [],
            });
          }
  });

  it('pins are rod that is sold: 4 and 5 mm, 3/16 in', () => {
    expect(sizes({}).pinDiameter).toBe(4);
    expect(sizes({ size: 50 }).pinDiameter).toBe(5);
    expect(sizes({ series: 'inch', size: 31.75 }).pinDiameter).toBeCloseTo((3 / 16) * 25.4, 9);
  });

  it('says what it may bear: ring, lug and pin by hand', () => {
    const given = {
      thickness: 8,
      rimWidth: 10,
      pull: 150,
      tabWidth: 15,
      pinDiameter: 4,
      eyeThickness: 5,
      strengthOf: 'silicon-bronze',
    };
    const note = build('ring', given).findings.find((f) => f.code === 'allowable-load')!;
    // Pin of silicon bronze C87300 as cast, bent between eyes 5 mm and a tab 15 mm, gap 0.25 mm (Shigley, clevis pin):
    // M = F/2 (5/2 + 0.25 + 15/4) = 3.25 F; σ = 32 M / (π 4³) ≤ strength / 4.
    const stressPerNewton = (32 * 3.25) / (Math.PI * 64);
    const said = Number(/may bear ([\d.]+) N/.exec(note.message)![1]);
    const allowable = said * stressPerNewton;
    expect(note.message).toContain('pin, bending');
    // 310 MPa (45 ksi) tensile over 4; two thirds of its 124 MPa (18 ksi) yield is more (ASTM B584, from memory).
    // The load is said in whole newtons.
    expect(Math.abs(allowable - 310 / 4)).toBeLessThan(0.51 * stressPerNewton);
    expect(note.remedy).toMatch(/never lift people/);
    expect(codes({ pull: 900 })).toContain('warn too-light');
  });
});

describe('ring pull: findings', () => {
  it.each([
    ['stop eye-too-small-for-finger', { eyeWidth: 12.5 }, undefined],
    ['stop eye-closed-by-stock', {}, { ...noStock, skin: 15.5 }],
    ['stop edges-meet', { edgeRadius: 4 }, undefined],
    ['stop fillet-filled-by-stock', { filletRadius: 1 }, { ...noStock, skin: 1 }],
    ['warn fillet-small', { filletRadius: 1.5 }, undefined],
    ['stop tab-wider-than-ring', { tabWidth: 60 }, undefined],
    ['stop tab-narrow', { tabWidth: 6 }, undefined],
    ['stop pin-wall-too-thin', { pinDiameter: 6.5, thickness: 8 }, undefined],
    ['warn pin-wall-thin', { pinDiameter: 5, thickness: 7.5 }, undefined],
    ['stop ring-touches-eyes', { pinDistance: 12 }, undefined],
    ['stop gap-closed-by-stock', { tabWidth: 12 }, { ...noStock, mating: 5 }],
    ['stop countersink-through-plate', { plateThickness: 2 }, undefined],
    ['stop root-fillet-filled', { filletRadius: 5 }, { ...noStock, skin: 3 }],
    [
      'stop base-stubby',
      { tabWidth: 6, edgeRadius: 1, thickness: 12, screw: 'M3', eyeThickness: 3 },
      undefined,
    ],
    ['stop well-shallow', { style: 'flush', wellDepth: 10 }, undefined],
    ['warn well-tight', { style: 'flush', wellDepth: 13.2 }, undefined],
    ['stop flange-thick', { style: 'flush', plateThickness: 12 }, undefined],
    [
      'stop seat-narrow',
      { style: 'flush', rimWidth: 4, thickness: 7.5, edgeRadius: 1, pinDistance: 40 },
      undefined,
    ],
    ['stop stock-too-large', { style: 'flush' }, { ...noStock, skin: 1.2 }],
    ['warn too-light', { pull: 2000 }, undefined],
  ] as const)('%s: %j', (code, given, s) => {
    const found = tryBuildPart(ringPull, { piece: 'ring', given, ...(s ? { stock: s } : {}), chord: 0.1 });
    expect(found.findings.map((f) => `${f.severity} ${f.code}`)).toContain(code);
    for (const f of found.findings) {
      expect(`${f.message} ${f.remedy}`).not.toMatch(/NaN|undefined|Infinity/);
      for (const p of f.parameters ?? []) expect(Object.keys(ringPullParameters.shape)).toContain(p);
    }
  });

  it('holes the mould cannot carry are left for the drill, grooves for the mill', () => {
    expect(codes({ pinHoles: 'drilled' }, stock)).toContain('note pin-hole-drilled');
    expect(codes({ pinHoles: 'cored' }, stock)).toContain('warn pin-hole-core-long');
    expect(codes({ style: 'flush' }, stock, 'plate')).toContain('note pin-groove-milled');
    expect(sizeOf(build('plate', { style: 'flush' }, stock, 0.1), 'd_g')).toBe(0);
  });
});

/** Width of the gap that holds a place, along an axis. */
function gap(mesh: Mesh, axis: 0 | 1 | 2, through: Vec3): number {
  const { positions: p, triangles: t } = mesh;
  const [j, k] = [(axis + 1) % 3, (axis + 2) % 3];
  const found: number[] = [];
  for (let f = 0; f < t.length; f += 3) {
    const [a, b, c] = [0, 1, 2].map((n) => 3 * t[f + n]!) as [number, number, number];
    const side = (from: number, to: number): number =>
      (p[to + j]! - p[from + j]!) * (through[k]! - p[from + k]!) -
      (p[to + k]! - p[from + k]!) * (through[j]! - p[from + j]!);
    const [u, v, w] = [side(b, c), side(c, a), side(a, b)];
    if (!((u > 0 && v > 0 && w > 0) || (u < 0 && v < 0 && w < 0))) continue;
    found.push((u * p[a + axis]! + v * p[b + axis]! + w * p[c + axis]!) / (u + v + w));
  }
  const at = through[axis]!;
  return Math.min(...found.filter((x) => x > at)) - Math.max(...found.filter((x) => x < at));
}
