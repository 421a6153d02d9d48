import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  barField,
  blendFields,
  circleOutline,
  coneField,
  cutField,
  drawOutline,
  type Field,
  fieldDistance,
  fieldMesh,
  fieldSolid,
  mirrorField,
  moveField,
  plateField,
  plateSolid,
  rectangleOutline,
  ringField,
  roundEdge,
  sweepTube,
  tubeField,
  turnedField,
  turnField,
} from '../../../core/shape/index.js';
import { inspectMesh, loadKernel } from '../../../core/solid/index.js';
import type { Kernel, Mesh, Solid, Vec3 } from '../../../core/solid/types.js';
import { expectSound } from '../../helpers/expect-sound.js';
import { apart, strayFrom } from '../../helpers/stray-from.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const within = (value: number, exact: number, share = 1e-3): void =>
  expect(Math.abs(value / exact - 1)).toBeLessThan(share);
const build = (make: () => Solid): { readonly mesh: Mesh; readonly volume: number } =>
  kernel.scope(() => {
    const solid = make();
    return { mesh: solid.mesh(), volume: solid.volume() };
  });
/** Corners within 1e-6 mm of the field's surface, edges and faces within the tolerance. */
function expectFitted(field: Field, tolerance: number, stock = 0): void {
  const mesh = fieldMesh(field, tolerance, stock);
  const stray = strayFrom(mesh, (x, y, z) => fieldDistance(field, [x, y, z]) - stock);
  expect(stray.vertex).toBeLessThan(1e-6);
  expect(stray.face).toBeLessThanOrEqual(tolerance);
}

describe('simple fields', () => {
  it('ring, bar and cone: volumes in closed form', () => {
    const tol = 0.004;
    within(
      build(() => fieldSolid(kernel, ringField([1, 2, 3], [1, 1, 0], 12, 4), tol)).volume,
      2 * Math.PI ** 2 * 12 * 16,
    );
    within(
      build(() => fieldSolid(kernel, barField([0, 0, 0], [10, 20, 5], 6), tol)).volume,
      Math.PI * 36 * Math.sqrt(525) + (4 / 3) * Math.PI * 216,
    );
    // A cone frustum between the circles where the tangent cone touches the balls, and their two caps.
    const [a, b, length] = [8, 5, 20];
    const sine = (a - b) / length;
    const cap = (r: number, h: number): number => (Math.PI * h * h * (3 * r - h)) / 3;
    const cosine2 = 1 - sine * sine;
    const height = length - (a - b) * sine;
    const frustum = ((Math.PI * height) / 3) * cosine2 * (a * a + a * b + b * b);
    const exact = frustum + cap(a, a + a * sine) + cap(b, b - b * sine) - 0;
    within(build(() => fieldSolid(kernel, coneField([0, 0, 0], a, [0, length, 0], b), tol)).volume, exact);
  });

  it('plate and turned fields against the plate and the revolution', () => {
    const outline = rectangleOutline([0, 0], 40, 24, 6);
    const plate = build(() =>
      fieldSolid(kernel, plateField({ outline, z0: 0, z1: 10, topRadius: 3, bottomRadius: 2 }), 0.003),
    );
    const direct = build(() =>
      plateSolid(kernel, { outline, z0: 0, z1: 10, topEdge: roundEdge(3), bottomEdge: roundEdge(2) }, 0.003),
    );
    expectSound(plate.mesh);
    within(plate.volume, direct.volume, 5e-4);
    // A ball with a half-torus collar cannot be told from its parts: a plain ball will do, off the origin.
    const half = drawOutline([0, -7], [{ to: [0, 7], centre: [0, 0] }]);
    within(
      build(() => fieldSolid(kernel, turnedField(half, [3, 4, 5]), 0.004)).volume,
      ((4 * Math.PI) / 3) * 343,
    );
    within(
      build(() => fieldSolid(kernel, turnedField(circleOutline([12, 0], 4)), 0.004)).volume,
      2 * Math.PI ** 2 * 12 * 16,
    );
  });

  it('moved, turned and mirrored fields are the distances of moved, turned and mirrored points', () => {
    const field = coneField([1, 2, 3], 4, [9, 3, 1], 2);
    fc.assert(
      fc.property(
        fc.tuple(...[0, 0, 0].map(() => fc.double({ min: -15, max: 15, noNaN: true }))),
        fc.double({ min: -3, max: 3, noNaN: true }),
        ([x, y, z], angle) => {
          const d = fieldDistance(field, [x!, y!, z!]);
          const [c, s] = [Math.cos(angle), Math.sin(angle)];
          expect(
            fieldDistance(turnField(field, 'z', angle), [c * x! - s * y!, s * x! + c * y!, z!]),
          ).toBeCloseTo(d, 9);
          expect(
            fieldDistance(turnField(field, 'x', angle), [x!, c * y! - s * z!, s * y! + c * z!]),
          ).toBeCloseTo(d, 9);
          expect(
            fieldDistance(turnField(field, 'y', angle), [c * x! + s * z!, y!, c * z! - s * x!]),
          ).toBeCloseTo(d, 9);
          expect(fieldDistance(mirrorField(field, 'y'), [x!, -y!, z!])).toBeCloseTo(d, 9);
          expect(fieldDistance(moveField(field, [5, -6, 7]), [x! + 5, y! - 6, z! + 7])).toBeCloseTo(d, 9);
        },
      ),
      { seed: 4, numRuns: 200 },
    );
  });
});

describe('tubes as fields', () => {
  it('a ring and a bar: the distance within 1e-3 mm, near and far', () => {
    const ring = tubeField(
      sweepTube({
        spine: (t) => [20 * Math.cos(2 * Math.PI * t), 20 * Math.sin(2 * Math.PI * t), 0],
        across: [0, 0, 1],
        section: () => ({ across: 4, above: 4 }),
        closed: true,
      }),
    );
    const bar = tubeField(
      sweepTube({
        spine: (t) => [60 * t, 0, 0],
        across: [0, 1, 0],
        section: () => ({ across: 6, above: 6 }),
        roundStart: 6,
        roundEnd: 6,
      }),
    );
    const coordinate = (a: number, b: number) => fc.double({ min: a, max: b, noNaN: true });
    fc.assert(
      fc.property(coordinate(-30, 30), coordinate(-30, 30), coordinate(-10, 10), (x, y, z) => {
        const exact = Math.hypot(Math.hypot(x, y) - 20, z) - 4;
        fc.pre(exact > -3 && Math.hypot(x, y) > 3);
        expect(Math.abs(fieldDistance(ring, [x, y, z]) - exact)).toBeLessThan(1e-5);
      }),
      { seed: 1, numRuns: 3000 },
    );
    fc.assert(
      fc.property(coordinate(-12, 72), coordinate(-12, 12), coordinate(-12, 12), (x, y, z) => {
        const exact = Math.hypot(x - Math.max(6, Math.min(54, x)), y, z) - 6;
        fc.pre(exact > -4);
        expect(Math.abs(fieldDistance(bar, [x, y, z]) - exact)).toBeLessThan(1e-3);
      }),
      { seed: 2, numRuns: 3000 },
    );
  });
});

describe('fillets', () => {
  // Between two walls at right angles and a quarter circle: area r²(1 − π/4), its centroid (10 − 3π)/(12 − 3π) r off each.
  const filletArea = (r: number): number => r * r * (1 - Math.PI / 4);
  const filletOff = (r: number): number => (r * (10 - 3 * Math.PI)) / (12 - 3 * Math.PI);
  const base: Field = plateField({
    outline: rectangleOutline([0, 0], 80, 60, 6),
    z0: -10,
    z1: 6,
    topRadius: 2,
    bottomRadius: 2,
  });

  it('a post on a plate: Pappus, with and without stock', () => {
    const [a, r] = [8, 5];
    const post = barField([0, 0, 0], [0, 0, 40], a);
    for (const s of [0, 0.8]) {
      const { mesh, volume } = build(() =>
        fieldSolid(kernel, blendFields([base, post], r), 0.004, s).intersect(
          kernel.box([-18, -18, 2], [18, 18, 30]),
        ),
      );
      expectSound(mesh);
      const [A, R, top] = [a + s, r - s, 6 + s];
      const exact =
        36 * 36 * (top - 2) + Math.PI * A * A * (30 - top) + 2 * Math.PI * (A + filletOff(R)) * filletArea(R);
      within(volume, exact, 3e-4);
    }
  });

  it('two plates at right angles', () => {
    const r = 4;
    const upright = turnField(
      plateField({
        outline: rectangleOutline([0, 0], 80, 60, 6),
        z0: -4,
        z1: 4,
        topRadius: 2,
        bottomRadius: 2,
      }),
      'y',
      Math.PI / 2,
    );
    const { mesh, volume } = build(() =>
      fieldSolid(kernel, blendFields([base, upright], r), 0.003).intersect(
        kernel.box([-20, -12, 1], [20, 12, 25]),
      ),
    );
    expectSound(mesh);
    within(volume, 24 * (40 * 5 + 8 * 19 + 2 * filletArea(r)), 2e-4);
  });

  it('two bars crossing: every corner lies on a bar, or on a ball that touches both', () => {
    const [a, b, r, tilt] = [6, 5, 3, 0.9];
    const one = barField([-30, 0, 0], [30, 0, 0], a);
    const other = barField(
      [-30 * Math.cos(tilt), -30 * Math.sin(tilt), 1],
      [30 * Math.cos(tilt), 30 * Math.sin(tilt), 1],
      b,
    );
    const blend = blendFields([one, other], r);
    for (const s of [0, 1]) {
      const mesh = fieldMesh(blend, 0.02, s);
      const gradient = new Float64Array(3);
      let balls = 0;
      for (let v = 0; v < mesh.positions.length; v += 3) {
        const p: Vec3 = [mesh.positions[v]!, mesh.positions[v + 1]!, mesh.positions[v + 2]!];
        const [d1, d2] = [fieldDistance(one, p), fieldDistance(other, p)];
        if (Math.abs(Math.min(d1, d2) - s) < 1e-6) continue;
        blend.distance(...p, gradient);
        const c = p.map((x, k) => x + (r - s) * gradient[k]!) as unknown as Vec3;
        expect(Math.abs(fieldDistance(one, c) - r)).toBeLessThan(1e-4);
        expect(Math.abs(fieldDistance(other, c) - r)).toBeLessThan(1e-4);
        balls++;
      }
      expect(balls).toBeGreaterThan(100);
    }
  });

  it('a groove with rounded edges cut into a plate: Pappus along its length', () => {
    // A half-round groove of radius q, its axis in the face: the edges' rounding touches face and groove.
    const [q, r, L] = [5, 2, 20];
    const plate = plateField({
      outline: rectangleOutline([0, 0], 60, 60, 6),
      z0: -20,
      z1: 0,
      topRadius: 4,
      bottomRadius: 4,
    });
    const { mesh, volume } = build(() =>
      fieldSolid(kernel, cutField(plate, [barField([-60, 0, 0], [60, 0, 0], q)], r), 0.004).intersect(
        kernel.box([-10, -15, -12], [10, 15, 1]),
      ),
    );
    expectSound(mesh);
    // Ball in the metal under the face, outside the groove: centre at depth r and q + r from the axis.
    const x = Math.sqrt((q + r) ** 2 - r * r);
    const angle = Math.asin(r / (q + r));
    // Gone: the groove, and between axis, centre and face on each side the triangle less both sectors.
    const corner = (x * r) / 2 - (q * q * angle) / 2 - (r * r * (Math.PI / 2 - angle)) / 2;
    within(volume, L * (30 * 12 - (Math.PI * q * q) / 2 - 2 * corner), 3e-4);
  });

  it('mesh error against the field, at several tolerances and stocks', () => {
    const blend = blendFields([base, ringField([0, 0, 14], [0, 1, 0], 13, 5)], 4);
    for (const [tolerance, stock] of [
      [0.1, 0],
      [0.02, 0],
      [0.02, 1],
      [0.005, 0.5],
    ] as const)
      expectFitted(blend, tolerance, stock);
  });
});

/** A two-legged cleat of a length, mm, in the proportions that are asked for. */
interface CleatShape {
  readonly length: number;
  readonly horn: number;
  readonly rise: number;
  readonly exponent: number;
  readonly leg: number;
  readonly spread: number;
  /** Share of the largest fillet that its openings leave room for. */
  readonly fillet: number;
}

function cleatField(shape: CleatShape): { readonly field: Field; readonly fillet: number } {
  const { length, horn, rise, exponent, leg, spread } = shape;
  const h = length * horn;
  const clear = length * 0.16;
  const z = clear + h;
  const tube = sweepTube({
    spine: (t) => [length * (t - 0.5), 0, z + rise * length * (2 * t - 1) ** 2],
    across: [0, 1, 0],
    section: (t) => {
      const m = 1 - 0.45 * (2 * t - 1) ** 2;
      return { across: 1.1 * h * m, above: h * m, exponent };
    },
    roundStart: 0.9 * h,
    roundEnd: 0.9 * h,
  });
  const post = barField([-spread * length, 0, 0], [-0.9 * spread * length, 0, z], leg * h);
  const thick = 0.8 * h;
  const base = plateField({
    outline: rectangleOutline([0, 0], 0.5 * length, 3 * h, 0.9 * h),
    z0: -3 * thick,
    z1: 0,
    topRadius: 0.3 * thick,
    bottomRadius: 0.3 * thick,
  });
  const fillet = shape.fillet * Math.min(h, 0.4 * clear, 0.8 * (0.9 * spread * length - leg * h));
  return { field: blendFields([base, post, mirrorField(post, 'x'), tubeField(tube)], fillet), fillet };
}

describe('a cleat', () => {
  it('150 mm at 0.02 mm: few triangles; the casting stands off by the stock', () => {
    const { field } = cleatField({
      length: 150,
      horn: 0.05,
      rise: 0.06,
      exponent: 2.3,
      leg: 0.8,
      spread: 0.13,
      fillet: 0.7,
    });
    const [part, cast] = [0, 0.6].map((s) => build(() => fieldSolid(kernel, field, 0.02, s)).mesh);
    for (const mesh of [part!, cast!]) expect(mesh.triangles.length / 3).toBeLessThan(25_000);
    // Corners of the casting against the part's mesh, whose chords stray by the tolerance: inwards where it is round,
    // outwards where it is hollow, and along the normal by no more than a little over it at its triangles' edges.
    const { least, most } = apart(cast!, part!);
    expect(least).toBeGreaterThan(0.6 - 0.025);
    expect(most).toBeLessThan(0.6 + 0.025);
    // The casting's corners against the part's own field: the stock itself.
    expect(strayFrom(cast!, (x, y, z) => fieldDistance(field, [x, y, z]) - 0.6).vertex).toBeLessThan(1e-5);
  });

  it('any proportions: sound, one piece, within tolerance', () => {
    const share = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        fc.record({
          length: share(40, 300),
          horn: share(0.04, 0.07),
          rise: share(0, 0.12),
          exponent: share(2, 3.2),
          leg: share(0.6, 0.95),
          spread: share(0.08, 0.2),
          fillet: share(0.3, 1),
        }),
        share(0, 0.5),
        (random, part) => {
          const { field, fillet } = cleatField(random);
          fc.pre(fillet > 0.5);
          const { mesh } = build(() => fieldSolid(kernel, field, 0.05, part * fillet));
          const report = inspectMesh(mesh);
          expect(report.problems).toEqual([]);
          expect(report.components).toBe(1);
          const stray = strayFrom(mesh, (x, y, z) => fieldDistance(field, [x, y, z]) - part * fillet);
          // float32 at 150 mm.
          expect(stray.vertex).toBeLessThan(2e-5);
          expect(stray.face).toBeLessThan(0.0501);
        },
      ),
      { seed: 11, numRuns: 12, endOnFailure: true },
    );
  });
});

describe('the first mesh', () => {
  it('is closed where a field is more than a distance a little off its surface', () => {
    const radius = 10;
    const ball: Field = {
      distance: (x, y, z, gradient) => {
        const r = Math.hypot(x, y, z);
        gradient.set(r > 0 ? [x / r, y / r, z / r] : [0, 0, 1]);
        const off = r - radius;
        return off + 3 * Math.sign(off) * Math.max(0, Math.abs(off) - 0.2);
      },
      bounds: { min: [-radius, -radius, -radius], max: [radius, radius, radius] },
      detail: 1,
    };
    const { mesh, volume } = build(() => fieldSolid(kernel, ball, 0.02));
    expectSound(mesh);
    within(volume, (4 / 3) * Math.PI * radius ** 3, 3e-3);
  });

  it('is refused where the surface goes out of the bounds', () => {
    const tall: Field = { ...plain(), bounds: { min: [-5, -5, -5], max: [5, 5, 5] } };
    expect(() => fieldMesh(tall, 0.1)).toThrow('out of the bounds');
  });
});

/** A round bar that has no end. */
const plain = (): Omit<Field, 'bounds'> => ({
  distance: (x, y, _, gradient) => {
    const r = Math.hypot(x, y);
    gradient.set(r > 0 ? [x / r, y / r, 0] : [1, 0, 0]);
    return r - 4;
  },
  detail: 2,
});
