import { describe, expect, it } from 'vitest';
import { headLand } from '../../core/hardware/index.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import { inspectMesh } from '../../core/solid/inspect.js';
import type { Polygon, Vec2, Vec3 } from '../../core/solid/types.js';
import { bounds, build, codes, distanceTo, sizeOf, surfacePoints } from './hatch-pull-probe.js';

const chord = 0.02;
const stock: Stock = { ...noStock, skin: 0.4, mating: 0.7, bore: 0.3 };
const oval = { section: 'oval', hole: 'cored', holes: 'cored' };

describe('hatch pull: bevelled with a screwed plate, against closed form', () => {
  it('volume with sharp edges, less its countersunk holes', () => {
    // The tab meets the rim's straight back of 33 mm.
    const given = { tab: 'plate', bevel: 0, eyeWidth: 65, eyeLength: 32, rimWidth: 10, thickness: 9 };
    const more = { filletRadius: 2, screw: 'M3', tabWidth: 28, tabLength: 20 };
    const part = build({ ...given, ...more }, noStock, [], 1e-3);
    const [hole, mouth] = [sizeOf(part, 'd_s') / 2, sizeOf(part, 'd_c') / 2];
    // M3: hole 3.4 (ISO 273, medium), sharp head 6.3 (ISO 7046).
    expect([2 * hole, 2 * mouth]).toEqual([3.4, 6.3]);
    const stadium = (r: number) => Math.PI * r * r + 2 * r * 33;
    const corner = 0.8 * (mouth + headLand(2 * mouth));
    const area = stadium(26) - stadium(16) + 28 * 20 + (2 - Math.PI / 2) * (2 * 2 - corner ** 2);
    // A cone of 90° over the hole: its frustum less the hole through it.
    const deep = mouth - hole;
    const cone = (Math.PI * deep * (mouth ** 2 + mouth * hole + hole ** 2)) / 3 - Math.PI * hole ** 2 * deep;
    const exact = area * 9 - 2 * (Math.PI * hole ** 2 * 9 + cone);
    expect(Math.abs(part.volume / exact - 1)).toBeLessThan(1e-4);
  });
});

describe('hatch pull: the oval ring', () => {
  /** Height of the ellipse's centre: its chord at the underside is 0.28 of the width. */
  const up = (t: number) => t / (1 + Math.sqrt(1 - 0.28 ** 2));

  it('sections before the eye are half rings between two circles of the ellipse', () => {
    const heights = [0.4, 1.5, 3, 4.8, 6, 8, 9.3];
    const part = build(oval, noStock, heights, chord);
    const [t, b] = [sizeOf(part, 't'), sizeOf(part, 'b_r')];
    heights.forEach((z, i) => {
      const half = (b / 2) * Math.sqrt(1 - ((z - up(t)) / up(t)) ** 2);
      const middle = 16 + b / 2;
      // π/2 ((M + w)² − (M − w)²) = 2 π M w
      const exact = 2 * Math.PI * middle * half;
      const found = part.slices[i]!.reduce((sum, outline) => sum + area(rightOf(outline)), 0);
      expect(Math.abs(found / exact - 1)).toBeLessThan(1e-3 + (4 * chord) / half / 2);
    });
    // Pappus: the half ring's volume is its section's area times π M.
    const n = 400;
    const fine = build(
      oval,
      noStock,
      Array.from({ length: n }, (_, i) => ((i + 0.5) / n) * t),
      chord,
    );
    const volume = fine.slices.reduce(
      (sum, slice) => sum + (slice.reduce((a, outline) => a + area(rightOf(outline)), 0) * t) / n,
      0,
    );
    const rise = (t - up(t)) / up(t);
    const section = (b / 2) * up(t) * (Math.PI - Math.acos(rise) + rise * Math.sqrt(1 - rise ** 2));
    expect(Math.abs(volume / (section * Math.PI * (16 + b / 2)) - 1)).toBeLessThan(2e-3);
  });

  it('fillets have their radius where tab and ring stand upright', () => {
    for (const s of [noStock, stock]) {
      const built = build(oval, s, [up(9.5)], 0.005);
      const outline = built.slices[0]!.find((o) => area(o) > 0 && Math.max(...o.map(([x]) => x)) > 0)!;
      const fillet = outline.filter((q, i) => {
        const [before, after] = [outline.at(i - 1)!, outline[(i + 1) % outline.length]!];
        return q[1] < 0 && turn(before, q, after) < -0.02;
      });
      const middle = fillet[Math.floor(fillet.length / 2)]!;
      const radius = circumradius(fillet[0]!, middle, fillet.at(-1)!);
      expect(Math.abs(radius - sizeOf(built, 'r_f'))).toBeLessThan(0.15);
    }
  });
});

describe('hatch pull: every style', () => {
  for (const section of ['bevelled', 'oval']) {
    for (const tab of ['square', 'round', 'leaf', 'plate']) {
      const given = { ...oval, section, tab };
      const screwed = tab === 'leaf' || tab === 'plate';
      const fine = section === 'oval' ? chord : 1e-3;

      it(`${section}, ${tab}: sound, as long, wide and thick as listed`, () => {
        for (const s of [noStock, stock]) {
          const built = build(given, s, [sizeOf(build(given, noStock, [], chord), 't') - 0.6], chord);
          const report = inspectMesh(built.mesh);
          expect({ ok: report.ok, parts: report.components, genus: report.genus }).toEqual({
            ok: true,
            parts: 1,
            genus: screwed ? 3 : 2,
          });
          const { min, max } = bounds(built.mesh);
          expect(Math.abs(max[0] - min[0] - sizeOf(built, 'l'))).toBeLessThan(2 * fine);
          expect(Math.abs(max[1] - min[1] - sizeOf(built, 'b'))).toBeLessThan(2 * fine);
          const step = screwed && section === 'oval' ? s.mating - s.skin : 0;
          expect(Math.abs(max[2] - min[2] - sizeOf(built, 't') - step)).toBeLessThan(2 * fine);
          if (!screwed) continue;
          const holes = built.slices[0]!.filter((o) => area(o) < 0).filter(
            (o) => Math.max(...o.map(([x]) => x)) < -16,
          );
          const centres = holes.map(
            (o) => [0, 1].map((k) => o.reduce((a, q) => a + q[k]!, 0) / o.length) as [number, number],
          );
          expect(centres).toHaveLength(2);
          const [p, q] = [centres[0]!, centres[1]!];
          expect(Math.hypot(p[0] - q[0], p[1] - q[1])).toBeCloseTo(sizeOf(built, 'a_s'), 3);
          expect(Math.abs(2 * Math.sqrt(-area(holes[0]!) / Math.PI) - sizeOf(built, 'd_s'))).toBeLessThan(
            2 * chord,
          );
        }
      });

      it(`${section}, ${tab}: stock by class, measured between the meshes`, () => {
        // A longer tab than the usual, to have flat sides between pin and fillets.
        const long = screwed
          ? given
          : { ...given, pinDistance: sizeOf(build(given, noStock, [], 0.1), 'a_p') + 10 };
        const part = build(long, noStock, [], chord);
        const cast = build(long, stock, [], chord);
        const distance = distanceTo(cast.mesh);
        const t = sizeOf(part, 't');
        const back = -(sizeOf(part, 'l_e') / 2 + sizeOf(part, 'b_r'));
        const half = sizeOf(part, 'b_t') / 2;
        const seen = { skin: 0, mating: 0 };
        for (const { at, normal } of surfacePoints(part.mesh, 1.5)) {
          const [x, , z] = at;
          // Before the eye all is skin, but for the underside of a plate in one plane.
          const under = Math.abs(z - t) < 1e-4 && normal[2] > 0.9999;
          if (x > 0) {
            if (Math.abs(z - t) < 0.8 && section === 'oval') continue;
            if (screwed && section === 'bevelled' && z > t - 3) continue;
            seen.skin++;
            expect(Math.abs(distance(at) - stock.skin)).toBeLessThan(0.002 + 2 * chord);
          } else if (screwed ? under && isInside(at) : isSide(at, normal)) {
            if (screwed && nearScrew(at)) continue;
            seen.mating++;
            expect(Math.abs(distance(at) - stock.mating)).toBeLessThan(0.002 + 2 * chord);
          }
        }
        expect(seen.skin).toBeGreaterThan(500);
        expect(seen.mating).toBeGreaterThan(screwed ? 20 : 4);

        function isSide([x, y, z]: Vec3, normal: Vec3): boolean {
          const pin = sizeOf(part, 'l_e') / 2 + sizeOf(part, 'a_p');
          return (
            Math.abs(Math.abs(y) - half) < 1e-3 &&
            Math.abs(normal[1]) > 0.9999 &&
            Math.abs(z - t / 2) < 1.5 &&
            x > -pin + sizeOf(part, 'd_h') / 2 + 1 &&
            x < -pin + sizeOf(part, 'd_h') / 2 + 5
          );
        }
        function isInside([x, y]: Vec3): boolean {
          const end = back - sizeOf(part, 'l_t');
          return x < back - 2 && x > end + (tab === 'leaf' ? 7 : 3) && Math.abs(y) < (tab === 'leaf' ? 4 : 6);
        }
        function nearScrew([x, y]: Vec3): boolean {
          const first = -(sizeOf(part, 'l_e') / 2 + sizeOf(part, 'e_s'));
          const pitch = sizeOf(part, 'a_s');
          const places: Vec2[] =
            tab === 'leaf'
              ? [
                  [first, 0],
                  [first - pitch, 0],
                ]
              : [
                  [first, pitch / 2],
                  [first, -pitch / 2],
                ];
          return places.some(([u, v]) => Math.hypot(x - u, y - v) < sizeOf(part, 'd_s') / 2 + 0.8);
        }
      });

      it(`${section}, ${tab}: gate and vents stand on flat places`, () => {
        for (const s of [noStock, stock]) {
          const built = build(given, s, [], chord);
          const near = distanceTo(built.mesh);
          expect(built.gates[0]!.outerDiameter).toBeGreaterThan(6);
          const places = [
            ...built.gates.map((g) => ({ at: g.at, diameter: g.outerDiameter })),
            ...built.vents.map((v) => ({ at: v.at, diameter: v.footDiameter })),
          ];
          expect(places.length).toBeGreaterThanOrEqual(3);
          for (const { at, diameter } of places) {
            for (let i = 0; i < 32; i++) {
              const a = (i / 32) * 2 * Math.PI;
              const rim: Vec3 = [
                at[0] + (diameter / 2) * Math.cos(a),
                at[1] + (diameter / 2) * Math.sin(a),
                at[2],
              ];
              expect(near(rim)).toBeLessThan(1e-4 + chord / 2);
              expect(near([rim[0], rim[1], rim[2] - 0.1])).toBeGreaterThan(0.05);
            }
          }
        }
      });
    }
  }

  it('usual sizes come out without a warning', () => {
    for (const section of ['bevelled', 'oval'])
      for (const tab of ['round', 'leaf', 'plate'])
        for (const series of ['metric', 'inch'])
          for (const size of [28, 40]) {
            const found = codes({ section, tab, series, size }, stock).filter((c) => !c.startsWith('note'));
            expect({ section, tab, series, size, found }).toEqual({ section, tab, series, size, found: [] });
          }
  });

  it('inch sizes are whole thirty-seconds', () => {
    const part = build({ section: 'oval', tab: 'leaf', series: 'inch', size: 31.75 }, noStock, [], 0.1);
    for (const symbol of ['t', 't_t', 'b_r', 'b_t', 'l_t', 'a_s']) {
      const steps = sizeOf(part, symbol) / (25.4 / 32);
      expect(Math.abs(steps - Math.round(steps))).toBeLessThan(1e-6);
    }
    expect(part.fittings![0]!.text).toContain('countersunk screw');
  });
});

/** What of a polygon lies at x > 0. */
function rightOf(outline: Polygon): Polygon {
  return outline.flatMap((p, i): Vec2[] => {
    const q = outline[(i + 1) % outline.length]!;
    const cross: Vec2[] = p[0] > 0 !== q[0] > 0 ? [[0, p[1] + ((q[1] - p[1]) * p[0]) / (p[0] - q[0])]] : [];
    return p[0] > 0 ? [p, ...cross] : cross;
  });
}

/** Signed area, mm². */
function area(outline: Polygon): number {
  return outline.reduce((sum, [x, y], i) => {
    const [u, v] = outline[(i + 1) % outline.length]!;
    return sum + (x * v - u * y) / 2;
  }, 0);
}

/** Turn of the path a–b–c at b, radians, positive to the left. */
function turn(a: Vec2, b: Vec2, c: Vec2): number {
  const [u, v, p, q] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]];
  return Math.atan2(u * q - v * p, u * p + v * q);
}

/** Radius of the circle through three points. */
function circumradius(a: Vec2, b: Vec2, c: Vec2): number {
  const side = (p: Vec2, q: Vec2) => Math.hypot(p[0] - q[0], p[1] - q[1]);
  return (side(a, b) * side(b, c) * side(c, a)) / (4 * Math.abs(area([a, b, c])));
}
