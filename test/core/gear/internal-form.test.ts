import { describe, expect, it } from 'vitest';
import { gearFromRack } from '../../../core/gear/basic-rack.js';
import { internalForm } from '../../../core/gear/internal-form.js';
import type { ToothForm } from '../../../core/gear/tooth-form.js';
import { rackOracle } from '../../helpers/rack-oracle.js';

const degrees = Math.PI / 180;
type Point = readonly [number, number];

/** One flank of a cutter tooth on +X with its rounded corner, dense, found by search and no involute formula. */
function cutterOutline(
  teeth: number,
  beta: number,
  m: number,
  dedendum: number,
  rho: number,
): readonly Point[] {
  const spec = gearFromRack('A', { normalModule: m, teeth, helixAngle: beta });
  const radius = (m * teeth) / Math.cos(beta) / 2;
  const tip = radius + m * dedendum;
  const oracle = rackOracle({ ...spec, tipDiameter: 2 * tip }, 1e-6);
  const flank = oracle.profile.map((p) => [p.x, p.y] as Point);
  const toFlank = (x: number, y: number): number =>
    Math.min(...flank.map(([a, b]) => Math.hypot(a - x, b - y)));
  // The rounding's centre: on the circle tip − ρ, at ρ from the flank.
  const r = tip - rho;
  let [low, high] = [0, oracle.halfAngleAt(r)];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (toFlank(r * Math.cos(middle), r * Math.sin(middle)) > rho) low = middle;
    else high = middle;
  }
  const [cx, cy] = [r * Math.cos(low), r * Math.sin(low)];
  const contact = flank.reduce((a, b) =>
    Math.hypot(b[0] - cx, b[1] - cy) < Math.hypot(a[0] - cx, a[1] - cy) ? b : a,
  );
  const [from, to] = [Math.atan2(contact[1] - cy, contact[0] - cx), low];
  const arc = Array.from({ length: 201 }, (_, i): Point => {
    const t = from + ((to - from) * i) / 200;
    return [cx + rho * Math.cos(t), cy + rho * Math.sin(t)];
  });
  return [...flank.filter(([x, y]) => Math.hypot(x, y) < Math.hypot(...contact)), ...arc];
}

/** Half angle of the space at a radius: the furthest the turning cutter reaches. */
function cutHalfAngle(outline: readonly Point[], distance: number, ratio: number, radius: number): number {
  let furthest = Number.NEGATIVE_INFINITY;
  for (let step = -300; step <= 300; step++) {
    const turn = (step / 300) * 1.1;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    let before: [number, number] | null = null;
    for (const [x, y] of outline) {
      const [gx, gy] = [distance + c * x - s * y, s * x + c * y];
      const here: [number, number] = [Math.hypot(gx, gy), Math.atan2(gy, gx) - turn * ratio];
      if (before && before[0] < radius !== here[0] < radius) {
        const f = (radius - before[0]) / (here[0] - before[0]);
        furthest = Math.max(furthest, before[1] + f * (here[1] - before[1]));
      }
      before = here;
    }
  }
  return furthest;
}

const angleAt = (form: ToothForm, radius: number): number => {
  for (const curve of form.curves) {
    const r = (t: number): number => Math.hypot(...curve.at(t));
    const [a, b] = [r(curve.from), r(curve.to)];
    if (radius > Math.max(a, b) || radius < Math.min(a, b)) continue;
    let [low, high] = [curve.from, curve.to];
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (r(middle) > radius === a > b) low = middle;
      else high = middle;
    }
    const [x, y] = curve.at(low);
    return Math.atan2(y, x);
  }
  throw new Error(`no curve at ${radius}`);
};

describe('internal form against a brute-force pinion cutter', () => {
  it.each([
    [40, 20, 0, 0, 0.2],
    [60, 25, 0.3, 0, 0.3],
    [72, 18, -0.4, 0, 0.25],
    [48, 22, 0.2, 20, 0.25],
  ])(
    'z %i, cutter %i, x %d, β %d°, ρ %d',
    (teeth, z0, x, beta, rho) => {
      const m = 2;
      const spec = gearFromRack('A', {
        normalModule: m,
        teeth,
        profileShift: x,
        helixAngle: beta * degrees,
        rootRadius: rho,
        addendum: 0.8,
      });
      const result = internalForm(spec, z0);
      if (!result.ok) throw new Error(result.findings.map((f) => f.message).join());
      const { space } = result;
      const outline = cutterOutline(z0, beta * degrees, m, 1.25, rho * m);
      // The cutter is fed in until the space has its width on the reference circle.
      const reference = (m * teeth) / Math.cos(beta * degrees) / 2;
      const width =
        ((Math.PI * m) / 2 - 2 * x * m * Math.tan(20 * degrees)) / Math.cos(beta * degrees) / (2 * reference);
      const ratio = z0 / teeth;
      let [low, high] = [reference * (1 - ratio) - m, reference * (1 - ratio) + m];
      for (let i = 0; i < 18; i++) {
        const middle = (low + high) / 2;
        if (cutHalfAngle(outline, middle, ratio, reference) < width) low = middle;
        else high = middle;
      }
      const tip = Math.max(...outline.map((p) => Math.hypot(...p)));
      expect(space.tipRadius).toBeCloseTo(low + tip, 3);
      for (let i = 1; i < 16; i++) {
        const radius = space.rootRadius + ((space.tipRadius - space.rootRadius) * i) / 16;
        const cut = cutHalfAngle(outline, low, ratio, radius);
        expect(Math.abs(cut - angleAt(space, radius)) * radius).toBeLessThan(0.001);
      }
    },
    120_000,
  );
});

describe('a cutter whose rounding stays inside its working circle', () => {
  it('leaves a fillet that runs from root to flank without a break', () => {
    const spec = gearFromRack('A', {
      normalModule: 2,
      teeth: 54,
      profileShift: -0.738,
      dedendum: 0.7,
      rootRadius: 0.5,
    });
    const result = internalForm({ ...spec, normalPressureAngle: 0.2947 }, 25);
    if (!result.ok) throw new Error('refused');
    const [fillet, flank] = result.space.curves as [ToothForm['curves'][number], ToothForm['curves'][number]];
    const [ax, ay] = fillet.at(fillet.to);
    const [bx, by] = flank.at(flank.from);
    expect(Math.hypot(ax - bx, ay - by)).toBeLessThan(1e-9);
    expect(Math.hypot(...fillet.at(fillet.from))).toBeCloseTo(result.space.tipRadius, 9);
  });
});

describe('stock and refusals', () => {
  const spec = gearFromRack('A', { normalModule: 2, teeth: 60 });
  it('moves root and flank by the stock', () => {
    const [drawn, cast] = [
      internalForm(spec, 25),
      internalForm(spec, 25, { flankStock: 0.15, tipStock: 0.1 }),
    ];
    if (!drawn.ok || !cast.ok) throw new Error('refused');
    expect(drawn.space.tipRadius - cast.space.tipRadius).toBeCloseTo(0.15, 9);
    expect(drawn.space.rootRadius - cast.space.rootRadius).toBeCloseTo(0.1, 9);
    // Parallel involutes: the same base circle, started s / r_b apart.
    expect(
      (drawn.space.rack.baseHalfAngle - cast.space.rack.baseHalfAngle) * drawn.space.rack.baseRadius,
    ).toBeCloseTo(0.15, 9);
  });
  it('refuses tips inside the base circle and a cutter that does not turn', () => {
    const codes = (r: ReturnType<typeof internalForm>) => (r.ok ? [] : r.findings.map((f) => f.code));
    expect(codes(internalForm({ ...spec, teeth: 24 }, 12))).toEqual(['internal-tip-below-base']);
    expect(codes(internalForm(spec, 57))).toEqual(['cutter-too-large']);
  });
});
