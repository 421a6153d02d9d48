import { describe, expect, it } from 'vitest';
import { noStock, type Stock } from '../../core/part/stock.js';
import type { Mesh, Vec2 } from '../../core/solid/types.js';
import { knobParameters } from '../../generators/knob/parameters.js';
import { knobSizes } from '../../generators/knob/sizes.js';
import knob from '../../generators/knob.js';
import {
  type Built,
  bounds,
  buildPart,
  distanceTo,
  sizeOf,
  surfacePoints,
  tryBuildPart,
  vertices,
} from '../helpers/part-probe.js';

type Given = Record<string, unknown>;
const tolerance = 0.01;
const stock: Stock = { ...noStock, skin: 0.3, mating: 0.7, bore: 0.3 };
const build = (given: Given = {}, s: Stock = noStock, chord = tolerance): Built =>
  buildPart(knob, { given, stock: s, chord });
const codes = (given: Given, s: Stock = noStock): string[] =>
  tryBuildPart(knob, { given, stock: s, chord: 0.1 }).findings.map((f) => `${f.severity} ${f.code}`);
const sizes = (given: Given) => knobSizes(knobParameters.parse(given));

/** What a fillet in a right-angled corner at radius `at` adds or takes, turned about the axis (Pappus). */
const corner = (r: number, at: number, outwards: 1 | -1): number => {
  const area = (1 - Math.PI / 4) * r * r;
  // Centroid of the spandrel from its corner: (10 − 3 π) / (12 − 3 π) r.
  const centroid = ((10 - 3 * Math.PI) / (12 - 3 * Math.PI)) * r;
  return 2 * Math.PI * (at + outwards * centroid) * area;
};

describe('knob: volume against closed form', () => {
  it('flat face and square back: cylinders, and spandrels by Pappus', () => {
    const s = sizes({ dome: 0, slope: 0 });
    const [R, r, F] = [s.head / 2, s.spindle / 2, s.foot / 2];
    const stem = s.projection - s.rim - s.footThickness;
    const solid = Math.PI * (R * R * s.rim + r * r * stem + F * F * s.footThickness);
    const edges =
      -corner(s.frontEdge, R, -1) -
      corner(s.backEdge, R, -1) -
      corner(s.footEdge, F, -1) +
      corner(s.headFillet, r, 1) +
      corner(s.footFillet, r, 1);
    const hole = (Math.PI / 4) * s.holeDiameter ** 2 * s.holeDepth;
    const built = build({ dome: 0, slope: 0 }, noStock, 3e-3);
    expect(Math.abs(built.volume / (solid + edges - hole) - 1)).toBeLessThan(4e-4);
  });

  it('a dome adds its segment of a ball, a sloping back its cone', () => {
    // The difference between two knobs whose roundings lie at the same places hardly differs by them: taken at a tenth.
    const given = { slope: 0, rim: 2, spindle: 12, foot: 20, projection: 40, fillet: 2 };
    const flat = build({ ...given, dome: 0 }, noStock, 4e-3).volume;
    const domed = build({ ...given, dome: 3, projection: 43 }, noStock, 4e-3).volume;
    const segment = ((Math.PI * 3) / 6) * (3 * 16 * 16 + 9);
    // The rounding of the edge takes less where dome and side meet flatter.
    expect(domed - flat).toBeGreaterThan(segment);
    expect(domed - flat).toBeLessThan(1.03 * segment);
    const sloped = build({ ...given, dome: 0, slope: Math.atan(0.5), projection: 45 }, noStock, 4e-3).volume;
    const [R, r] = [16, 6];
    const cone = ((Math.PI * (R - r) * 0.5) / 3) * (R * R + R * r + r * r);
    expect(Math.abs((sloped - flat) / cone - 1)).toBeLessThan(0.05);
  });

  it('any profile: the mesh turned is the mesh integrated by rings', () => {
    for (const given of [{}, { size: 50, dome: 8 }, { fixing: 'insert', size: 40 }]) {
      const built = build(given, noStock, 4e-3);
      // Independent: the greatest radius at each height, from the corners of the mesh, summed as frustums; less the hole.
      const rings = silhouette(built.mesh);
      let volume = 0;
      for (let i = 1; i < rings.length; i++) {
        const [[r0, z0], [r1, z1]] = [rings[i - 1]!, rings[i]!];
        volume += ((Math.PI * (z1 - z0)) / 3) * (r0 * r0 + r0 * r1 + r1 * r1);
      }
      const s = sizes(given);
      const hole = (Math.PI / 4) * s.holeDiameter ** 2 * s.holeDepth;
      expect(Math.abs(built.volume / (volume - hole) - 1)).toBeLessThan(1e-3);
    }
  });
});

describe('knob: stock is a normal offset', () => {
  it.each([{}, { size: 50, slope: 0 }, { series: 'inch', size: 31.75, dome: 0 }])('%j', (given) => {
    const part = build({ ...given, hole: 'cored' });
    const s = sizes(given);
    const far = distanceTo(build({ ...given, hole: 'cored' }, stock).mesh);
    const seen = { skin: 0, mating: 0, bore: 0 };
    for (const { at, normal } of surfacePoints(part.mesh, 1.5)) {
      const r = Math.hypot(at[0], at[1]);
      const inHole = r < s.holeDiameter / 2 + 0.01 && at[2] > s.projection - s.holeDepth - 0.01;
      const onFoot = at[2] > s.projection - 1e-3 && normal[2] > 0.99;
      const surface = inHole ? 'bore' : onFoot ? 'mating' : 'skin';
      // Where two classes meet, the nearer of the moved surfaces is nearest.
      if (surface === 'mating' && (r > s.foot / 2 - 1 || r < s.holeDiameter / 2 + 1)) continue;
      if (surface === 'skin' && at[2] > s.projection - 0.8) continue;
      if (surface === 'bore' && at[2] > s.projection - 1) continue;
      const overFloor = at[2] - (s.projection - s.holeDepth);
      if (surface === 'bore' && (overFloor < 0.5 ? r > s.holeDiameter / 2 - 0.5 : r < 0.1)) continue;
      seen[surface]++;
      const off = Math.abs(far(at) - stock[surface]);
      if (off > 2 * tolerance + 0.002) throw new Error(`${surface} at ${at}: ${far(at)}`);
    }
    expect(seen.skin).toBeGreaterThan(300);
    expect(seen.mating).toBeGreaterThan(20);
    expect(seen.bore).toBeGreaterThan(20);
  });
});

describe('knob: sizes as measured on the mesh', () => {
  it.each([{}, { size: 60, thread: 'M8', hole: 'cored' }, { fixing: 'insert', size: 40, hole: 'cored' }])(
    '%j',
    (given) => {
      for (const state of [noStock, stock]) {
        const built = build(given, state);
        const { min, max } = bounds(built.mesh);
        const points = vertices(built.mesh);
        const size = (symbol: string) => sizeOf(built, symbol);
        const s = sizes(given);
        expect(max[2] - min[2]).toBeCloseTo(size('H'), 4);
        expect(min[2]).toBeCloseTo(-state.skin, 5);
        expect(Math.abs(max[0] - min[0] - size('D'))).toBeLessThan(tolerance);
        const at = (z: number) =>
          points.filter((p) => Math.abs(p[2] - z) < 1e-4).map((p) => Math.hypot(p[0], p[1]));
        expect(2 * Math.max(...at(max[2]))).toBeCloseTo(size('d_f'), 3);
        const mouth = Math.min(...at(max[2]));
        if (size('d_h') > 0) {
          expect(2 * mouth).toBeCloseTo(size('d_h'), 3);
          const floor = Math.max(
            ...points
              .filter((p) => Math.hypot(p[0], p[1]) < mouth + 0.01 && p[2] < max[2] - 1)
              .map((p) => p[2]),
          );
          expect(max[2] - floor).toBeCloseTo(size('h_h'), 3);
        }
        const stem = points
          .filter((p) => p[2] > s.dome + s.rim && p[2] < s.projection - s.footThickness)
          .map((p) => Math.hypot(p[0], p[1]));
        const outside = stem.filter((r) => r > s.holeDiameter / 2 + 0.8);
        expect(Math.abs(2 * Math.min(...outside) - size('d_s'))).toBeLessThan(tolerance);
      }
    },
  );
});

describe('knob: defaults, thread and load', () => {
  it('sizes of 18 to 80 mm come out without a warning, every fixing, both series', () => {
    for (const series of ['metric', 'inch'])
      for (const fixing of ['bolt', 'insert', 'stud'])
        for (const size of [20, 25, 25.4, 32, 40, 50, 64, 80]) {
          const found = codes({ series, fixing, size }, stock).filter((c) => !c.startsWith('note'));
          expect({ series, fixing, size, found }).toEqual({ series, fixing, size, found: [] });
        }
  });

  it('the drill is the tap drill: M5 4.2 mm, 1/4-20 5.1 mm (ISO 2306, ANSI B1.1; from memory)', () => {
    expect(sizes({ thread: 'M5' }).holeDiameter).toBeCloseTo(4.2, 6);
    expect(sizes({ thread: '1/4in' }).holeDiameter).toBeCloseTo(5.1, 1);
  });

  it('bears what its weakest place does: the spindle bent by a pull at the edge', () => {
    const note = build({ spindle: 11, strengthOf: 'tin-bronze' }).findings.find(
      (f) => f.code === 'allowable-load',
    )!;
    const said = Number(/may bear ([\d.]+) N/.exec(note.message)![1]);
    // M = F × 16 mm; Z = π 11³ / 32; C90500: 276 MPa (40 ksi) over 4 (ASTM B584, from memory).
    const stress = (said * 16) / ((Math.PI * 11 ** 3) / 32);
    expect(stress).toBeGreaterThan(0.98 * 69);
    expect(stress).toBeLessThan(1.02 * 69);
    expect(codes({ spindle: 8, thread: 'M3', depth: 5, pull: 500 })).toContain('warn too-light');
  });

  it('the sprue stands on the foot, beside a cored hole', () => {
    expect(build({}, stock).gates[0]).toMatchObject({
      at: [0, 0, sizes({}).projection + stock.mating],
      innerDiameter: 0,
    });
    const cored = build({ hole: 'cored', size: 50 }, stock);
    const [gate] = cored.gates;
    expect(gate!.at[0] - gate!.outerDiameter / 2).toBeGreaterThan(sizeOf(cored, 'd_h') / 2);
    expect(gate!.at[0] + gate!.outerDiameter / 2).toBeLessThan(sizeOf(cored, 'd_f') / 2);
    expect(cored.vents).toHaveLength(1);
  });

  it('presets build', () => {
    for (const preset of Object.values(knob.presets ?? {}))
      expect(build(preset, noStock, 0.1).volume).toBeGreaterThan(1000);
  });
});

describe('knob: findings', () => {
  it.each([
    ['stop spindle-thick', { spindle: 30 }, noStock],
    ['stop dome-high', { dome: 20 }, noStock],
    ['stop spindle-short', { projection: 12 }, noStock],
    ['stop fillet-filled-by-stock', { fillet: 1 }, { ...noStock, skin: 1.2 }],
    ['stop roundings-do-not-fit', { fillet: 20 }, noStock],
    ['note finger-room-short', { projection: 20, slope: 0 }, noStock],
    ['stop thread-in-thin-wall', { spindle: 8, thread: 'M8' }, noStock],
    ['warn spindle-thin-for-thread', { spindle: 8, thread: 'M6' }, noStock],
    ['stop hole-through-crown', { depth: 30 }, noStock],
    ['warn thread-short', { depth: 3 }, noStock],
    ['note hole-drilled', {}, stock],
    ['warn hole-core-long', { hole: 'cored' }, stock],
    ['warn too-light', { pull: 2000 }, noStock],
  ] as const)('%s: %j', (code, given, s) => {
    const found = tryBuildPart(knob, { given, stock: s, chord: 0.1 });
    expect(found.findings.map((f) => `${f.severity} ${f.code}`)).toContain(code);
    for (const f of found.findings) {
      expect(`${f.message} ${f.remedy}`).not.toMatch(/NaN|undefined|Infinity/);
      for (const p of f.parameters ?? []) expect(Object.keys(knobParameters.shape)).toContain(p);
    }
  });
});

/** The mesh's outline as [radius, height] from below: the corners that lie outermost at their height. */
function silhouette(mesh: Mesh): readonly Vec2[] {
  const byHeight = new Map<number, number>();
  for (const [x, y, z] of vertices(mesh)) {
    const key = Math.round(z * 1e4) / 1e4;
    byHeight.set(key, Math.max(byHeight.get(key) ?? 0, Math.hypot(x, y)));
  }
  const floor = [...byHeight].sort((a, b) => a[0] - b[0]).map(([z, r]): Vec2 => [r, z]);
  // The hole's floor lies inside: it is the only height whose outermost corner is far within its neighbours'.
  return floor.filter(([r], i) => {
    const [before, after] = [floor[i - 1], floor[i + 1]];
    return !before || !after || r > 0.75 * Math.min(before[0], after[0]);
  });
}
