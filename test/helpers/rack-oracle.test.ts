import { describe, expect, it } from 'vitest';
import { type RackOracleInput, rackOracle } from './rack-oracle.js';

const deg = Math.PI / 180;
const inv = (a: number) => Math.tan(a) - a;

const gear = (teeth: number, more: Partial<RackOracleInput> = {}): RackOracleInput => {
  const base = {
    normalModule: 1,
    teeth,
    normalPressureAngle: 20 * deg,
    helixAngle: 0,
    profileShift: 0,
    addendum: 1,
    dedendum: 1.25,
    rootRadius: 0.38,
    thinning: 0,
    ...more,
  };
  const d = (base.normalModule * teeth) / Math.cos(base.helixAngle);
  return { tipDiameter: d + 2 * base.normalModule * (base.addendum + base.profileShift), ...base };
};

/** Half tooth angle of a true involute tooth, ISO 21771:2007 (tooth thickness at any diameter). */
const involuteHalfAngle = (g: RackOracleInput, radius: number) => {
  const cosBeta = Math.cos(g.helixAngle);
  const alphaT = Math.atan(Math.tan(g.normalPressureAngle) / cosBeta);
  const r = (g.normalModule * g.teeth) / cosBeta / 2;
  const thickness =
    g.normalModule * (Math.PI / 2 + 2 * g.profileShift * Math.tan(g.normalPressureAngle)) - g.thinning;
  const alphaY = Math.acos((r * Math.cos(alphaT)) / radius);
  return thickness / cosBeta / (2 * r) + inv(alphaT) - inv(alphaY);
};

/** Where the involute begins above the trochoid without undercut: end of the rack's straight flank. */
const formRadius = (g: RackOracleInput) => {
  const cosBeta = Math.cos(g.helixAngle);
  const alphaT = Math.atan(Math.tan(g.normalPressureAngle) / cosBeta);
  const r = (g.normalModule * g.teeth) / cosBeta / 2;
  const depth =
    (g.dedendum - g.rootRadius * (1 - Math.sin(g.normalPressureAngle)) - g.profileShift) * g.normalModule;
  return Math.hypot(r * Math.cos(alphaT), r * Math.sin(alphaT) - depth / Math.sin(alphaT));
};

describe('rack oracle against hand-known gears', () => {
  const cases: [string, RackOracleInput][] = [
    ['z 18 x 0', gear(18)],
    ['z 40 x 0, m 2, thinned 0.1', gear(40, { normalModule: 2, thinning: 0.1 })],
    ['z 12 x 0.6', gear(12, { profileShift: 0.6 })],
    ['z 120 x 0.8', gear(120, { profileShift: 0.8, normalModule: 3 })],
    ['z 25 β 30°', gear(25, { helixAngle: 30 * deg, normalModule: 3 })],
    [
      'z 20 β 35° x -0.1, profile D',
      gear(20, { helixAngle: 35 * deg, profileShift: -0.1, dedendum: 1.4, rootRadius: 0.39 }),
    ],
    ['z 30 α 25° sharp rack corner', gear(30, { normalPressureAngle: 25 * deg, rootRadius: 0 })],
  ];
  it.each(cases)('flank is the involute, %s', (_, g) => {
    const oracle = rackOracle(g, 1e-4);
    const from = formRadius(g) + 1e-6;
    for (let i = 0; i <= 20; i++) {
      const radius = from + ((oracle.tipRadius - from) * i) / 20;
      expect(oracle.halfAngleAt(radius)).toBeCloseTo(involuteHalfAngle(g, radius), 11);
    }
    // Just below the form radius the rounding has cut more than, or other than, the involute.
    const below = formRadius(g) - 0.02 * g.normalModule;
    const base =
      ((g.normalModule * g.teeth) / Math.cos(g.helixAngle) / 2) *
      Math.cos(Math.atan(Math.tan(g.normalPressureAngle) / Math.cos(g.helixAngle)));
    if (below > base && g.rootRadius > 0) {
      expect(Math.abs(oracle.halfAngleAt(below) - involuteHalfAngle(g, below))).toBeGreaterThan(1e-9);
    }
  });

  it.each(cases)('root circle d_f = d + 2 m_n (x − h_fP*) and its land, %s', (_, g) => {
    const oracle = rackOracle(g, 1e-4);
    const r = (g.normalModule * g.teeth) / Math.cos(g.helixAngle) / 2;
    expect(oracle.rootRadius).toBeCloseTo(r + g.normalModule * (g.profileShift - g.dedendum), 12);
    // The land is rolled out from the flat of the rack tip: half its width over r, in angle.
    const a = g.normalPressureAngle;
    const m = g.normalModule;
    const flat =
      (Math.PI * m) / 4 +
      g.thinning / 2 -
      g.dedendum * m * Math.tan(a) -
      (g.rootRadius * m * (1 - Math.sin(a))) / Math.cos(a);
    const land = Math.PI / g.teeth - flat / Math.cos(g.helixAngle) / r;
    expect(oracle.halfAngleAt(oracle.rootRadius)).toBeCloseTo(land, 9);
    expect(oracle.profile[0]!.angle).toBeCloseTo(land, 9);
  });

  it('undercut: 18 teeth escape with the 20° rack of depth 1, x_min = 1 − z sin²α / 2', () => {
    // Machinery's Handbook and EMGT 4.5: x_min 0.4151 at z 10 and 0.2981 at z 12 (from memory). A sharp
    // rack of depth 1 is the profile of that formula.
    const sharp = { dedendum: 1, rootRadius: 0 };
    const baseRadius = (z: number) => (z / 2) * Math.cos(20 * deg);
    /** Most metal missing from the involute anywhere just above the base circle, mm. */
    const lost = (z: number, x: number) => {
      const g = gear(z, { ...sharp, profileShift: x });
      const oracle = rackOracle(g, 1e-3);
      const at = (step: number) => {
        const radius = baseRadius(z) * (1 + 1e-6 * 1.4 ** step);
        return (involuteHalfAngle(g, radius) - oracle.halfAngleAt(radius)) * radius;
      };
      return Math.max(...Array.from({ length: 31 }, (_, step) => at(step)));
    };
    expect(lost(18, 0)).toBeLessThan(1e-9);
    expect(lost(16, 0)).toBeGreaterThan(1e-6);
    expect(lost(15, 0)).toBeGreaterThan(1e-4);
    for (const [z, xMin] of [
      [10, 0.4151],
      [12, 0.2981],
      [16, 0.0642],
    ] as const) {
      expect(lost(z, xMin + 0.0005)).toBeLessThan(1e-9);
      expect(lost(z, xMin - 0.01)).toBeGreaterThan(1e-8);
      expect(lost(z, xMin - 0.1)).toBeGreaterThan(1e-5);
    }
  });

  it('base tangent lengths, m 1, x 0, α 20° (DIN 3960-type table; half the last digit)', () => {
    const table: [number, number, number][] = [
      [17, 2, 4.66629],
      [20, 3, 7.66044],
      [25, 3, 7.73047],
      [30, 4, 10.75263],
      [40, 5, 13.84481],
      [60, 7, 20.02919],
      [100, 12, 35.35007],
    ];
    for (const [z, k, span] of table) {
      const g = gear(z);
      // Jaws at y = ±W/2 on k teeth set evenly about +X: the highest point of the outermost flank.
      const turn = ((k - 1) * Math.PI) / z;
      const heights = rackOracle(g, 1e-7)
        .profile.filter((p) => p.radius > formRadius(g))
        .map((p) => p.radius * Math.sin(p.angle + turn));
      expect(Math.abs(2 * Math.max(...heights) - span)).toBeLessThan(0.5e-5 + 1e-6);
    }
  });

  const ballRadiusPosition = (g: RackOracleInput, ball: number) => {
    const oracle = rackOracle(g, 1e-6);
    const space = Math.PI / g.teeth;
    let lo = oracle.rootRadius;
    let hi = oracle.tipRadius + ball;
    for (let i = 0; i < 50; i++) {
      const mid = (lo + hi) / 2;
      const gap = oracle.normalDistanceToTooth(mid * Math.cos(space), mid * Math.sin(space));
      if (gap < ball / 2) lo = mid;
      else hi = mid;
    }
    return lo;
  };

  it('pins dropped into the spaces, m 1, d_p 1.728 (Machinery’s Handbook wire table, from memory)', () => {
    for (const [z, m] of [
      [18, 20.384],
      [20, 22.39],
      [30, 32.4102],
      [60, 62.4344],
    ] as const) {
      const over = 2 * ballRadiusPosition(gear(z), 1.728) + 1.728;
      expect(Math.abs(over - m)).toBeLessThan(0.5e-4);
    }
    const odd = 2 * ballRadiusPosition(gear(25), 1.728) * Math.cos((90 * deg) / 25) + 1.728;
    expect(Math.abs(odd - 27.3511)).toBeLessThan(0.5e-4);
  });

  it('balls in a helical gear, m_n 3, z 25, β 30° (handbook formula value 93.9258)', () => {
    const g = gear(25, { normalModule: 3, helixAngle: 30 * deg });
    const over = 2 * ballRadiusPosition(g, 5.25) * Math.cos((90 * deg) / 25) + 5.25;
    expect(Math.abs(over - 93.9258)).toBeLessThan(0.5e-4);
  });

  it.each([
    ['z 8 x -0.5', gear(8, { profileShift: -0.5, tipDiameter: 9 })],
    ['z 12 β 25° thinned', gear(12, { helixAngle: 25 * deg, thinning: 0.08 })],
    ['z 120 x 0.8', gear(120, { profileShift: 0.8 })],
  ])('agrees with plain stepping of the rack, %s (seed fixed)', (_, g) => {
    const oracle = rackOracle(g);
    let compared = 0;
    for (let i = 1; i <= 400; i++) {
      const radius =
        oracle.rootRadius - 0.1 + (oracle.tipRadius - oracle.rootRadius + 0.2) * ((i * 0.61803398875) % 1);
      const angle = (Math.PI / g.teeth) * (2 * ((i * 0.75487766625) % 1) - 1);
      const x = radius * Math.cos(angle);
      const y = radius * Math.sin(angle);
      const distance = oracle.distanceToTooth(x, y);
      if (Math.abs(distance) < 2e-4) continue;
      compared++;
      expect(oracle.isMetal(x, y)).toBe(distance < 0);
      expect(oracle.isMetalByStepping(x, y, 4000)).toBe(distance < 0);
    }
    expect(compared).toBeGreaterThan(350);
  });

  it('distance: 0 on the profile, the offset beside it, whole millimetres above tip and below root', () => {
    const g = gear(20, { normalModule: 2 });
    const oracle = rackOracle(g);
    for (let i = 0; i < oracle.profile.length - 1; i += 97) {
      const a = oracle.profile[i]!;
      const b = oracle.profile[i + 1]!;
      const length = Math.hypot(b.x - a.x, b.y - a.y);
      const [mx, my] = [(a.x + b.x) / 2, (a.y + b.y) / 2];
      expect(Math.abs(oracle.distanceToTooth(mx, my))).toBeLessThan(2e-6);
      // Outward (away from the tooth, +Y side) by 0.1 mm; the root fillet is hollow but wider than that.
      const [nx, ny] = [(a.y - b.y) / length, (b.x - a.x) / length];
      expect(Math.abs(oracle.distanceToTooth(mx + 0.1 * nx, my + 0.1 * ny, 0.1))).toBeLessThan(3e-6);
    }
    expect(oracle.distanceToTooth(oracle.tipRadius + 1, 0)).toBeCloseTo(1, 12);
    expect(oracle.deviationAt(oracle.tipRadius + 1, 0).region).toBe('tip');
    const space = Math.PI / 20;
    expect(oracle.distanceToTooth(17 * Math.cos(space), 17 * Math.sin(space))).toBeCloseTo(17 - 17.5, 12);
    expect(oracle.deviationAt(17 * Math.cos(space), 17 * Math.sin(space)).region).toBe('root');
  });

  it('helical flank: distance in space is distance in the section × cos β_b', () => {
    const g = gear(30, { normalModule: 2, helixAngle: 35 * deg });
    const oracle = rackOracle(g);
    const cosBaseHelix = Math.cos(Math.asin(Math.sin(35 * deg) * Math.cos(20 * deg)));
    const middle = oracle.profile.find((p) => p.radius > oracle.referenceRadius)!;
    const next = oracle.profile[oracle.profile.indexOf(middle) + 1]!;
    const length = Math.hypot(next.x - middle.x, next.y - middle.y);
    for (const away of [0.05, 0.2, -0.2]) {
      const x = middle.x + (away * (middle.y - next.y)) / length;
      const y = middle.y + (away * (next.x - middle.x)) / length;
      expect(Math.abs(oracle.normalDistanceToTooth(x, y) - away * cosBaseHelix)).toBeLessThan(2e-6);
    }
  });

  it('a pointed tooth ends where its flanks meet; an impossible rack is refused', () => {
    const g = gear(10, { profileShift: 0.8, tipDiameter: 20 });
    const oracle = rackOracle(g);
    expect(oracle.tipRadius).toBeLessThan(7);
    expect(oracle.halfAngleAt(oracle.tipRadius)).toBeCloseTo(0, 9);
    expect(involuteHalfAngle(g, oracle.tipRadius)).toBeCloseTo(0, 9);
    expect(() => rackOracle(gear(20, { rootRadius: 0.6 }))).toThrow(/tip rounding/);
  });
});
