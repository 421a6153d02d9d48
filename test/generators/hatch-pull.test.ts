import { describe, expect, it } from 'vitest';
import { noStock, type Stock } from '../../core/part/stock.js';
import { inspectMesh } from '../../core/solid/inspect.js';
import type { Polygon, Vec2, Vec3 } from '../../core/solid/types.js';
import hatchPull from '../../generators/hatch-pull.js';
import {
  bounds,
  build,
  codes,
  distanceTo,
  sizeOf,
  surfacePoints,
  tolerance,
  tryBuild,
  vertices,
} from './hatch-pull-probe.js';

const degree = Math.PI / 180;
const stock: Stock = { ...noStock, skin: 0.4, mating: 0.7, bore: 0.3 };
const named = { default: {}, two: { fingers: 2 }, small: { size: 20 }, inch: { series: 'inch', size: 38.1 } };

/** A shape whose volume has a closed form: sharp edges, no lip, a straight back wide enough for tab and fillets. */
const plain = {
  eyeWidth: 65,
  eyeLength: 32,
  rimWidth: 10,
  thickness: 9,
  bevel: 0,
  lipLength: 0,
  tabWidth: 20,
  filletRadius: 5,
  pinDiameter: 5,
  pinClearance: 0.2,
  pinDistance: 20,
  pinToEnd: 6,
};

/** Area of a stadium of straight length 33 and radius r. */
const stadium = (r: number) => Math.PI * r * r + 2 * r * 33;
/** Area of the plain shape's rim, tab and fillets without the eye, all moved outwards by s. */
const plainOutside = (s: number) => stadium(26 + s) + (20 + 2 * s) * 16 + (2 - Math.PI / 2) * (5 - s) ** 2;

describe('hatch pull: against closed form', () => {
  const fine = 1e-4;

  it('volume of the sharp-edged pull', () => {
    const exact = (plainOutside(0) - stadium(16)) * 9 - Math.PI * 2.6 ** 2 * 20;
    expect(Math.abs(build(plain, noStock, [], fine).volume / exact - 1)).toBeLessThan(2e-6 + 1e-5);
  });

  it('volume of its casting: every plane and arc moved by its stock', () => {
    const s = 0.3;
    const exact =
      (plainOutside(s) - stadium(16 - s)) * (9 + 2 * s) - Math.PI * (2.6 - 0.2) ** 2 * (20 + 2 * s);
    const cast = build({ ...plain, hole: 'cored' }, { ...noStock, skin: s, mating: s, bore: 0.2 }, [], fine);
    // The tab's end also moves: 16 mm of tab become 16 + s − s over the back's plane.
    expect(Math.abs(cast.volume / exact - 1)).toBeLessThan(1e-5);
  });

  it('bevels at the eye: Steiner’s formula for parallel curves', () => {
    // Cutting a bevel of leg c round a convex opening of perimeter P takes P c²/2 + π c³/3 (Steiner; Gray, Tubes).
    const c = 2;
    const sharp = build(plain, noStock, [], fine).volume;
    const bevelled = build({ ...plain, bevel: c }, noStock, [], fine).volume;
    const eye = 2 * (((2 * Math.PI * 16 + 66) * c * c) / 2 + (Math.PI * c ** 3) / 3);
    // Outside, the bevel takes ∫ (A(0) − A(−u)) du with A by the same plan moved inwards, and the chamfers.
    const inset = (u: number) => {
      const corners = (leg: number) => leg * leg;
      return (
        stadium(26 - u) +
        (20 - 2 * u) * 16 +
        (2 - Math.PI / 2) * (5 + u) ** 2 -
        corners(c - (2 - Math.SQRT2) * u)
      );
    };
    const n = 2000;
    let outside = 0;
    for (let i = 0; i < n; i++) outside += ((plainOutside(0) - inset(((i + 0.5) / n) * c)) * c) / n;
    const chamfers = (9 - 2 * c) * c * c;
    expect(Math.abs((sharp - bevelled) / (eye + 2 * outside + chamfers) - 1)).toBeLessThan(2e-4);
  });

  it('volume the lip takes from a straight free end', () => {
    // Sharp edges: a wedge l long and l tan θ high over the straight 33 mm, and over the rounded ends its integral.
    const [l, angle] = [8, 20 * degree];
    const taken =
      build(plain, noStock, [], fine).volume -
      build({ ...plain, lipLength: l, lipAngle: angle }, noStock, [], fine).volume;
    const n = 20_000;
    let exact = 0;
    for (let i = 0; i < n; i++) {
      const u = ((i + 0.5) / n) * l;
      // Width of the pull at u past the lip's start: x = 26 − l + u.
      const width = 33 + 2 * Math.sqrt(26 ** 2 - (26 - l + u) ** 2);
      exact += (width * u * Math.tan(angle) * l) / n;
    }
    expect(Math.abs(taken / exact - 1)).toBeLessThan(1e-4);
  });
});

describe('hatch pull: stock is a normal offset of every surface', () => {
  for (const [name, given] of Object.entries(named)) {
    for (const s of [stock, { ...noStock, skin: 0.6, mating: 0.25, bore: 0.2 }]) {
      it(`${name}, skin ${s.skin}, mating ${s.mating}, bore ${s.bore}`, () => {
        // A longer tab than the usual, to have room between hole, fillets and corners.
        const long = { ...given, pinDistance: sizeOf(build(given), 'a_p') + 10 };
        const part = build(long);
        const distance = distanceTo(build({ ...long, hole: 'cored' }, s).mesh);
        const size = (symbol: string) => sizeOf(part, symbol);
        const half = size('b_t') / 2;
        const pinX = size('a_p') + size('l_e') / 2;
        const back = size('l_e') / 2 + size('b_r');
        const r = size('d_h') / 2;
        const seen = { skin: 0, mating: 0, bore: 0 };
        for (const { at, normal } of surfacePoints(part.mesh, 1.5)) {
          const [x, y, z] = at;
          const onSide = x < -back && Math.abs(Math.abs(y) - half) < 1e-4 && Math.abs(normal[1]) > 0.9999;
          const inHole =
            Math.hypot(x + pinX, z - size('t') / 2) < r + 1e-3 &&
            Math.abs(normal[1]) < 1e-3 &&
            Math.abs(y) < half;
          const surface = inHole ? 'bore' : onSide ? 'mating' : 'skin';
          // Where surfaces of different stock meet, the nearer of the two moved surfaces is nearest: look beyond.
          if (surface === 'skin' && x < 0.5 - back && Math.abs(Math.abs(y) - half) < 1.2) continue;
          if (surface === 'mating') {
            if (x < -pinX + r + 1 || x > -pinX + r + 5) continue;
            if (Math.min(z, size('t') - z) < size('c') + 0.7) continue;
          }
          seen[surface]++;
          const error = Math.abs(distance(at) - s[surface]);
          if (error > 0.002 + tolerance) {
            throw new Error(
              `${surface} at ${at.map((v) => v.toFixed(3))}: ${distance(at)}, normal ${normal}`,
            );
          }
        }
        expect(seen.skin).toBeGreaterThan(3000);
        expect(seen.mating).toBeGreaterThan(20);
        expect(seen.bore).toBeGreaterThan(100);
      });
    }
  }

  it('the casting holds the part: every corner of the part is inside or its hole', () => {
    for (const given of Object.values(named)) {
      const [part, cast] = [build(given), build({ ...given, hole: 'cored' }, stock)];
      const [p, c] = [bounds(part.mesh), bounds(cast.mesh)];
      for (const i of [0, 1, 2]) {
        expect(p.min[i]! - c.min[i]!).toBeCloseTo(0.4, 4);
        expect(c.max[i]! - p.max[i]!).toBeCloseTo(0.4, 4);
      }
    }
  });
});

describe('hatch pull: dimensions as measured on the meshes', () => {
  for (const [name, given] of Object.entries(named)) {
    for (const s of [noStock, stock]) {
      it(`${name}, ${s === noStock ? 'part' : 'casting'}`, () => {
        const t0 = sizeOf(build(given), 't');
        const built = build({ ...given, hole: 'cored' }, s, [t0 / 2]);
        const size = (symbol: string) => sizeOf(built, symbol);
        const { min, max } = bounds(built.mesh);
        expect(max[0] - min[0]).toBeCloseTo(size('l'), 4);
        expect(max[1] - min[1]).toBeCloseTo(size('b'), 4);
        expect(max[2] - min[2]).toBeCloseTo(size('t'), 4);
        expect(min[2]).toBeCloseTo(-s.skin, 6);

        const points = vertices(built.mesh);
        // The eye: the hole of the mid-height section that lies about the origin.
        const outlines = built.slices[0]!;
        const along = (outline: Polygon) => outline.map(([x]) => x);
        const eye = outlines.find((outline) => area(outline) < 0)!;
        const spread = (axis: 0 | 1) =>
          Math.max(...eye.map((q) => q[axis])) - Math.min(...eye.map((q) => q[axis]));
        expect(Math.abs(spread(0) - size('l_e'))).toBeLessThan(2 * tolerance);
        expect(Math.abs(spread(1) - size('w_e'))).toBeLessThan(2 * tolerance);
        expect((size('b') - size('w_e')) / 2).toBeCloseTo(size('b_r'), 9);

        // The pin hole cuts the section into the tab's end and the rest.
        const pieces = outlines.filter((outline) => area(outline) > 0);
        expect(pieces).toHaveLength(2);
        const [holeFar, holeNear] = pieces
          .map((piece) =>
            Math.max(...along(piece)) < 0 ? Math.max(...along(piece)) : Math.min(...along(piece)),
          )
          .sort((a, b) => a - b) as [number, number];
        expect(Math.abs(holeNear - holeFar - size('d_h'))).toBeLessThan(2 * tolerance);
        const pinX = (holeNear + holeFar) / 2;
        expect(Math.abs(pinX - min[0] - size('e_p'))).toBeLessThan(tolerance);
        expect(Math.abs(Math.min(...eye.map((q) => q[0])) - pinX - size('a_p'))).toBeLessThan(
          0.002 + tolerance,
        );

        const behind = points.filter(([x]) => x < pinX);
        const swing = Math.max(...behind.map(([x, , z]) => Math.hypot(x - pinX, z - t0 / 2)));
        expect(Math.abs(swing - size('r_s'))).toBeLessThan(tolerance);
        expect(2 * Math.max(...behind.map(([, y]) => Math.abs(y)))).toBeCloseTo(size('b_t'), 4);

        // Bevel at the bed: the show face ends a leg inside the free end.
        const face = Math.max(...points.filter(([, , z]) => Math.abs(z - min[2]) < 1e-5).map(([x]) => x));
        expect(max[0] - face).toBeCloseTo(size('c'), 3);

        // Lip: where the underside's flat ends, and the slope of the plane beyond.
        const flatEnd = Math.max(...points.filter(([, , z]) => Math.abs(z - max[2]) < 1e-5).map(([x]) => x));
        expect(max[0] - flatEnd).toBeCloseTo(size('l_l'), 3);
        const lip = surfacePoints(built.mesh, 0.4).filter(
          ({ at, normal }) =>
            at[0] > flatEnd && Math.abs(Math.acos(Math.min(1, normal[2])) - size('θ_l')) < 1e-3,
        );
        expect(lip.length).toBeGreaterThan(10);
        for (const { at } of lip) {
          const atEnd = at[2] - (max[0] - at[0]) * Math.tan(size('θ_l'));
          expect(atEnd - min[2]).toBeCloseTo(size('t_l'), 3);
        }

        // Inside corners: the only ones where the outline turns right.
        const outside = pieces.find((piece) => Math.max(...along(piece)) > 0)!;
        const fillet = outside.filter((q, i) => {
          const before = outside.at(i - 1)!;
          const after = outside[(i + 1) % outside.length]!;
          return q[1] < 0 && turn(before, q, after) < -1e-3;
        });
        const middle = fillet[Math.floor(fillet.length / 2)]!;
        const radius = circumradius(fillet[0]!, middle, fillet.at(-1)!);
        expect(Math.abs(radius - size('r_f'))).toBeLessThan(0.002);
      });
    }
  }
});

describe('hatch pull: gate and vents stand on flat, upward surfaces', () => {
  const sets = { ...named, lipless: { lipLength: 0 }, sharp: { bevel: 0 }, wideRim: { rimWidth: 18 } };
  for (const [name, given] of Object.entries(sets)) {
    for (const s of [noStock, stock]) {
      it(`${name}, ${s === noStock ? 'part' : 'casting'}`, () => {
        const built = build(given, s);
        const near = distanceTo(built.mesh);
        const top = bounds(built.mesh).max[2];
        const places = [
          ...built.gates.map((g) => ({ at: g.at, diameter: g.outerDiameter })),
          ...built.vents.map((v) => ({ at: v.at, diameter: v.footDiameter })),
        ];
        expect(built.gates).toHaveLength(1);
        expect(built.gates[0]!.outerDiameter).toBeGreaterThan(6);
        expect(built.vents.length).toBeGreaterThanOrEqual(2);
        for (const { at, diameter } of places) {
          expect(at[2]).toBeCloseTo(top, 4);
          for (let i = 0; i < 32; i++) {
            for (const f of [0, 0.5, 1]) {
              const a = (i / 32) * 2 * Math.PI;
              const p: Vec3 = [
                at[0] + (f * diameter * Math.cos(a)) / 2,
                at[1] + (f * diameter * Math.sin(a)) / 2,
                at[2],
              ];
              expect(near(p)).toBeLessThan(1e-4);
            }
          }
        }
        // And they do not stand on each other.
        places.forEach((a, i) => {
          for (const b of places.slice(i + 1)) {
            expect(Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1])).toBeGreaterThan(
              (a.diameter + b.diameter) / 2,
            );
          }
        });
      });
    }
  }
});

describe('hatch pull: the mesh stays within the tolerance of the exact shape', () => {
  it('rim, eye and bevels', () => {
    const part = build({});
    for (const { at, normal } of surfacePoints(part.mesh, 0.5)) {
      const [x, y, z] = at;
      const rho = Math.hypot(x, y);
      if (x < -8 || (x > 17 && z > 4)) continue;
      if (Math.abs(normal[2]) > 0.8) continue;
      const depth = Math.min(z, 9.5 - z);
      // Eye r 16, rim r 25.5, bevels of leg 2 on both.
      const error =
        rho < 20.75
          ? Math.abs(rho - 16 - Math.max(0, 2 - depth)) / (depth < 2 ? Math.SQRT2 : 1)
          : Math.abs(25.5 - Math.max(0, 2 - depth) - rho) / (depth < 2 ? Math.SQRT2 : 1);
      expect(error).toBeLessThan(tolerance + 1e-5);
    }
  });

  it('no bevel at the bed is flatter than 45°', () => {
    for (const { at, normal } of surfacePoints(build({}, stock).mesh, 1)) {
      if (at[2] < 2 && normal[2] > -0.999) expect(normal[2]).toBeGreaterThan(-Math.SQRT1_2 - 1e-3);
    }
  });
});

describe('hatch pull: proportions and defaults', () => {
  it('sizes of 20 to 60 mm come out without a warning, one finger or two, metric and inch', () => {
    for (const series of ['metric', 'inch'])
      for (const fingers of [1, 2])
        for (let size = 20; size <= 60; size += 2.5)
          for (const s of [noStock, stock]) {
            const found = codes({ series, fingers, size }, s).filter((c) => !c.startsWith('note'));
            expect({ series, fingers, size, found }).toEqual({ series, fingers, size, found: [] });
          }
  });

  it('finger room by MIL-STD-1472 (from memory): 32 mm for one, 65 mm for two', () => {
    expect(sizeOf(build({}), 'w_e')).toBe(32);
    expect(sizeOf(build({ fingers: 2 }), 'w_e')).toBe(65);
  });

  it('pins are rod that is sold: 5 and 6 mm, 3/16 and 1/4 in', () => {
    const pin = (given: object) => sizeOf(build({ ...given, pinClearance: 0 }), 'd_h');
    expect(pin({ size: 32 })).toBe(5);
    expect(pin({ size: 40 })).toBe(6);
    expect(pin({ size: 31.75, series: 'inch' })).toBeCloseTo(25.4 * (3 / 16), 9);
    expect(pin({ size: 44.45, series: 'inch' })).toBeCloseTo(25.4 / 4, 9);
  });

  it('an explicit size is taken as it is', () => {
    const given = { eyeWidth: 41.3, thickness: 11.7, tabWidth: 21.1, pinToEnd: 7.7, filletRadius: 4.4 };
    const part = build(given);
    expect(sizeOf(part, 'w_e')).toBe(41.3);
    expect(sizeOf(part, 't')).toBeCloseTo(11.7, 12);
    expect(sizeOf(part, 'b_t')).toBe(21.1);
    expect(sizeOf(part, 'e_p')).toBe(7.7);
    expect(sizeOf(part, 'r_f')).toBe(4.4);
  });

  it('presets build', () => {
    for (const preset of Object.values(hatchPull.presets ?? {}))
      expect(build(preset).volume).toBeGreaterThan(1000);
  });
});

describe('hatch pull: the pin hole', () => {
  it('is left solid with dimples where the mould cannot carry the core, and says so', () => {
    const given = { fingers: 2 };
    const cast = build(given, stock);
    expect(cast.findings.map((f) => f.code)).toContain('pin-hole-drilled');
    expect(sizeOf(cast, 'd_h')).toBe(0);
    const cored = build({ ...given, hole: 'cored' }, stock);
    expect(cored.findings.map((f) => f.code)).toContain('pin-hole-core-long');
    const filled = cast.volume - cored.volume;
    // A cylinder of the cored diameter through the tab, less two 90° cones of height and radius m + 0.8.
    const r = 2.6 - stock.bore;
    const exact = Math.PI * r * r * (25.5 + 2 * stock.mating) - (2 / 3) * Math.PI * 1.5 ** 3;
    expect(Math.abs(filled / exact - 1)).toBeLessThan(0.01);
  });

  it('is cored where the mould carries it, and always there in the part', () => {
    const short = { tabWidth: 16 };
    expect(codes(short, { ...stock, bore: 0.1 })).not.toContain('note pin-hole-drilled');
    expect(sizeOf(build(short, { ...stock, bore: 0.1 }), 'd_h')).toBeCloseTo(5, 9);
    expect(sizeOf(build({ hole: 'drilled' }), 'd_h')).toBeCloseTo(5.2, 9);
    expect(codes({ hole: 'drilled' }, stock)).toContain('note pin-hole-drilled');
    expect(codes({}, { ...stock, bore: 3 })).toContain('note pin-hole-drilled');
  });
});

describe('hatch pull: found by random trial', () => {
  it('a hole in the fillets that is left solid has no dimples', () => {
    const given = {
      eyeLength: 14,
      rimWidth: 3,
      thickness: 10.5,
      bevel: 0,
      tabWidth: 4,
      pinDiameter: 1.5,
      pinDistance: 5,
    };
    const cast = build({ ...given, pinClearance: 0 }, { ...noStock, skin: 0.3, mating: 0.3, bore: 0.3 });
    expect(inspectMesh(cast.mesh).genus).toBe(1);
    expect(cast.findings.find((f) => f.code === 'pin-hole-drilled')?.remedy).toContain('marking out');
  });

  it('a lip or bevel too small to be seen is none', () => {
    expect(codes({ lipLength: 1e-300 })).toContain('note no-lip');
    expect(build({ bevel: 1e-300 }).dimensions.map((d) => d.symbol)).not.toContain('c');
  });
});

describe('hatch pull: findings', () => {
  const cases: [string, Record<string, unknown>, Stock?][] = [
    ['stop eye-too-small-for-finger', { size: 13 }],
    ['stop eye-too-small-for-finger', { fingers: 2, eyeWidth: 26 }],
    ['warn eye-tight-for-finger', { size: 17 }],
    ['note eye-narrow-for-two-fingers', { fingers: 2, eyeWidth: 45 }],
    ['stop eye-closed-by-stock', {}, { ...noStock, skin: 15.5 }],
    ['stop bevels-meet', { bevel: 4.6 }],
    ['stop bevels-meet', { bevel: 4 }, { ...noStock, mating: 3 }],
    ['stop bevel-lost-in-stock', { bevel: 0.2, filletRadius: 5 }, { ...noStock, skin: 0.6 }],
    ['stop fillet-filled-by-stock', { filletRadius: 0.5 }, stock],
    ['warn fillet-small', { filletRadius: 1.5 }],
    ['stop tab-wider-than-rim', { tabWidth: 51 }],
    ['note no-lip', { lipLength: 0 }],
    ['stop lip-reaches-eye', { lipLength: 9 }],
    ['stop lip-cuts-rim', { lipLength: 7, lipAngle: 40 * degree }],
    ['warn lip-thins-rim', { bevel: 1, lipLength: 8, lipAngle: 40 * degree }],
    ['stop tab-narrow', { tabWidth: 5 }],
    ['stop tab-short', { pinDistance: 12.2, pinToEnd: 4, pinDiameter: 2, filletRadius: 12 }],
    ['stop pin-wall-too-thin', { pinDiameter: 8 }],
    ['warn pin-wall-thin', { pinDiameter: 6 }],
    ['stop pin-hole-in-rim', { pinDistance: 11 }],
    ['warn pin-hole-in-fillet', { filletRadius: 15, pinDistance: 17, pinToEnd: 12 }],
    ['warn too-light', { pull: 2000 }],
    ['note allowable-load', {}],
    ['note size-not-used', { section: 'oval', bevel: 2 }],
    ['note size-not-used', { tabLength: 30 }],
    ['note print-support', { section: 'oval' }],
    ['stop oval-too-flat', { section: 'oval', thickness: 4, rimWidth: 20 }],
    ['stop tab-thicker-than-ring', { section: 'oval', tabThickness: 9.4 }],
    ['stop tab-wider-than-rim', { section: 'oval', tabWidth: 45 }],
    ['stop fillet-fills-eye', { section: 'oval', filletRadius: 15, pinDistance: 40 }],
    ['stop fillet-too-small', { section: 'oval', filletRadius: 0.9 }, stock],
    ['stop tab-narrow', { section: 'oval', tabWidth: 4 }],
    ['stop tab-short', { tab: 'leaf', tabLength: 12 }],
    ['stop screws-crowded', { tab: 'plate', tabWidth: 18 }],
    ['stop countersink-through-plate', { section: 'oval', tab: 'plate', tabThickness: 2 }],
    ['note screw-holes-drilled', { tab: 'plate', holes: 'drilled' }, stock],
  ];
  for (const [code, given, s] of cases) {
    it(`${code}: ${JSON.stringify(given)}`, () => {
      const built = tryBuild(given, s);
      expect(built.findings.map((f) => `${f.severity} ${f.code}`)).toContain(code);
      expect('solid' in built).toBe(built.findings.some((f) => f.severity === 'stop'));
      for (const f of built.findings) {
        expect(`${f.message} ${f.remedy}`).not.toMatch(/NaN|undefined|Infinity|-\d/);
        for (const p of f.parameters ?? []) expect(Object.keys(hatchPull.parameters.shape)).toContain(p);
      }
    });
  }
});

/** Turn of the path a–b–c at b, radians, positive to the left. */
function turn(a: Vec2, b: Vec2, c: Vec2): number {
  const [u, v, p, q] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]];
  return Math.atan2(u * q - v * p, u * p + v * q);
}

/** Radius of the circle through three points: a b c / (4 × area). */
function circumradius(a: Vec2, b: Vec2, c: Vec2): number {
  const side = (p: Vec2, q: Vec2) => Math.hypot(p[0] - q[0], p[1] - q[1]);
  return (side(a, b) * side(b, c) * side(c, a)) / (4 * Math.abs(area([a, b, c])));
}

/** Signed area, mm². */
function area(outline: Polygon): number {
  return outline.reduce((sum, [x, y], i) => {
    const [u, v] = outline[(i + 1) % outline.length]!;
    return sum + (x * v - u * y) / 2;
  }, 0);
}
