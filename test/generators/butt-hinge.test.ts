import { describe, expect, it } from 'vitest';
import { noStock } from '../../core/part/stock.js';
import { buttHingeParameters } from '../../generators/butt-hinge/parameters.js';
import { buttHingeSizes, turningOf } from '../../generators/butt-hinge/sizes.js';
import buttHinge from '../../generators/butt-hinge.js';
import { leastClearance } from '../../generators/hinge/motion.js';
import { shapeOf, sweepHinge } from '../../generators/hinge/motion-findings.js';
import { bounds, distanceTo, surfacePoints, vertices } from './hatch-pull-probe.js';
import { assemble, codesOf, pieceOf, pieceSize } from './hinge-probe.js';

const degree = Math.PI / 180;
const sizesOf = (given: Record<string, unknown>) => buttHingeSizes(buttHingeParameters.parse(given));
const leaves = ['outer-leaf', 'inner-leaf'] as const;
const cases: Record<string, Record<string, unknown>> = {
  default: {},
  locker: { size: 38 },
  narrow: { size: 76, openWidth: 50 },
  'shed door': { size: 100, doorMass: 25, doorWidth: 800, hingeSpacing: 1400 },
  inch: { series: 'inch', size: 76.2 },
  'nearly closed leaves': { closedGap: 1, fillet: 2 },
};

/** Plain leaves of a closed form: no screws, no rounded edges, backs flush with the barrel. */
const plain = {
  size: 80,
  openWidth: 70,
  thickness: 4,
  pinDiameter: 5,
  pinClearance: 0.2,
  knuckleWall: 4.4,
  knuckles: '5',
  knuckleGap: 0.4,
  leafGap: 2.5,
  notchRadius: 1.5,
  fillet: 2,
  edge: 0,
  screws: 0,
  pinEnds: 'flush',
};

/** Volume of a plain leaf moved outwards by s all over (its knuckles' ends too), by integrating its section over z. */
function plainVolume(side: 'outer' | 'inner', s: number): number {
  const [R, t, W] = [7 + s, 4 + 2 * s, 35 + s];
  const r = 2 - s;
  const h = R - t;
  const [fx, fz] = [Math.sqrt((R + r) ** 2 - (r - h) ** 2), r - h];
  const touch = (fz * R) / (R + r);
  const right = (z: number): number => {
    if (z < -h) return W;
    if (z < touch) return fx - Math.sqrt(r * r - (z - fz) ** 2);
    return Math.sqrt(R * R - z * z);
  };
  const n = 400_000;
  let area = 0;
  for (let i = 0; i < n; i++) {
    const z = -R + (2 * R * (i + 0.5)) / n;
    area += ((right(z) + Math.sqrt(R * R - z * z)) * 2 * R) / n;
  }
  const bore = Math.PI * (2.6 - s) ** 2;
  const floor = 9.5 - s;
  const beside = (W - floor) * t;
  const knuckle = (80 - 4 * 0.4) / 5;
  const length = 80 + 2 * s;
  // Each knuckle's end moves out by s.
  const [count, corners] = side === 'outer' ? [3, 4] : [2, 4];
  const run = count * (knuckle + 2 * s);
  // The notches' corners are round to just under the inner face.
  const rounded = corners * (1 - Math.PI / 4) * (1.5 - s) ** 2 * (t - 0.02);
  return run * (area - bore) + (length - run) * beside + rounded;
}

describe('butt hinge: against an independent integral', () => {
  for (const side of ['outer', 'inner'] as const) {
    it(`volume of the ${side} leaf and of its casting`, () => {
      const part = pieceOf(buttHinge, `${side}-leaf`, plain, {}, 1e-3);
      expect(Math.abs(part.volume / plainVolume(side, 0) - 1)).toBeLessThan(2e-4);
      const s = 0.3;
      const cast = pieceOf(
        buttHinge,
        `${side}-leaf`,
        { ...plain, bore: 'cored' },
        { skin: s, mating: s, bore: s },
        1e-3,
      );
      expect(Math.abs(cast.volume / plainVolume(side, s) - 1)).toBeLessThan(2e-4);
    });
  }

  it('a countersunk hole takes a cylinder and a cone', () => {
    const screwed = pieceOf(buttHinge, 'outer-leaf', { ...plain, screws: 3, screw: 'M4' }, {}, 1e-3);
    const bare = pieceOf(buttHinge, 'outer-leaf', plain, {}, 1e-3);
    // ISO 7046 M4: head 9.4 mm sharp, 90°; ISO 273 medium 4.5 mm.
    const [R, r] = [9.4 / 2, 4.5 / 2];
    const cone = R - r;
    const one = (Math.PI / 3) * cone * (R * R + R * r + r * r) + Math.PI * r * r * (4 - cone);
    expect(Math.abs((bare.volume - screwed.volume) / (3 * one) - 1)).toBeLessThan(5e-4);
  });
});

describe('butt hinge: the leaves turn on their pin, on the real meshes', () => {
  for (const [name, given] of Object.entries(cases)) {
    it(`${name}: no common volume at any angle, clearances as computed`, async () => {
      const sizes = sizesOf(given);
      const [a, b] = leaves.map((leaf) => pieceOf(buttHinge, leaf, given, {}, 0.01).mesh) as [never, never];
      const hinge = await assemble(a, sizes.section.barrelRadius, b);
      const { motion } = sweepHinge(turningOf(sizes), Math.PI, noStock);
      let least = Number.POSITIVE_INFINITY;
      for (let angle = 0; angle <= 180; angle += 9) {
        expect(hinge.overlap(angle * degree)).toBe(0);
        if (angle % 90 === 0) least = Math.min(least, hinge.gap(angle * degree));
      }
      // Chords of the rounded corners come out of the metal by the tolerance at most, those of barrels go in.
      expect(least).toBeGreaterThan(leastClearance(motion) - 0.011);
      expect(least).toBeLessThan(leastClearance(motion) + 0.015);
      hinge.free();
    });
  }

  it('with wide joints the closed leaves, then leaf and barrel, are the nearest', async () => {
    for (const given of [
      { knuckleGap: 2, closedGap: 1.2, leafGap: 4 },
      { knuckleGap: 2, closedGap: 4, leafGap: 0.6, notchRadius: 0.5 },
    ]) {
      const sizes = sizesOf(given);
      const [a, b] = leaves.map((leaf) => pieceOf(buttHinge, leaf, given, {}, 0.002).mesh) as [never, never];
      const hinge = await assemble(a, sizes.section.barrelRadius, b);
      const { motion } = sweepHinge(turningOf(sizes), Math.PI, noStock);
      expect(motion.leaves).toBeLessThan(Math.min(motion.ends, motion.corners));
      expect(Math.abs(hinge.gap(motion.leavesAt, 3) - motion.leaves)).toBeLessThan(0.006);
      hinge.free();
    }
  });

  it('opens as far as is said, and not much further', async () => {
    const given = { openAngle: 200 * degree };
    const sizes = sizesOf(given);
    const { limit } = sweepHinge(turningOf(sizes), given.openAngle, noStock);
    expect(limit).toBeGreaterThan(230 * degree);
    expect(limit).toBeLessThan(2 * Math.PI);
    const [a, b] = leaves.map((leaf) => pieceOf(buttHinge, leaf, given, {}, 0.002).mesh) as [never, never];
    const hinge = await assemble(a, sizes.section.barrelRadius, b);
    expect(hinge.overlap(limit)).toBe(0);
    expect(hinge.gap(limit)).toBeGreaterThan(0.19);
    let binds = limit;
    while (binds < 2 * Math.PI && hinge.overlap(binds) === 0) binds += degree;
    expect(binds).toBeLessThan(2 * Math.PI);
    hinge.free();
  });

  it('as cast, stock fills the joints by what is told', async () => {
    const stock = { skin: 0.2, mating: 0.2, bore: 0.2 };
    const room = { knuckleGap: 0.9, leafGap: 1.5 };
    const sizes = sizesOf(room);
    const build = (s: typeof stock) =>
      leaves.map((leaf) => pieceOf(buttHinge, leaf, room, s, 0.005).mesh) as [never, never];
    const loose = await assemble(...inOrder(build(stock), sizes.section.barrelRadius));
    expect(Math.abs(loose.gap(Math.PI / 2) - (0.9 - 2 * 0.2))).toBeLessThan(0.002);
    loose.free();
    const { motion } = sweepHinge(turningOf(sizes), Math.PI, { ...noStock, ...stock });
    expect(motion.ends).toBeCloseTo(0.5, 9);
    // A whole millimetre of machining stock: the leaves go together only once it is off.
    const thick = { skin: 0.3, mating: 1, bore: 0.5 };
    const tight = await assemble(...inOrder(build(thick), sizes.section.barrelRadius));
    const common = tight.overlap(Math.PI / 2);
    // Each of four joints overlaps by 2 × 1 − 0.9 mm over the barrel's section at least.
    expect(common).toBeGreaterThan(4 * 1.1 * Math.PI * (sizes.section.barrelRadius ** 2 - 4 ** 2));
    tight.free();
    expect(codesOf(buttHinge, 'outer-leaf', room, thick)).toContain('note knuckles-fitted');
  });

  const inOrder = ([a, b]: [never, never], axis: number) => [a, axis, b] as const;
});

describe('butt hinge: stock by surface class, as distance on the meshes', () => {
  const stock = { skin: 0.35, mating: 0.8, bore: 0.5 };
  const given = { bore: 'cored', holes: 'cored', pinEnds: 'flush' };
  for (const leaf of leaves) {
    it(leaf, () => {
      const sizes = sizesOf(given);
      const part = pieceOf(buttHinge, leaf, given, {}, 0.004);
      const distance = distanceTo(pieceOf(buttHinge, leaf, given, stock, 0.004).mesh);
      const wrong: unknown[] = [];
      const [R, half] = [sizes.section.barrelRadius, sizes.length / 2];
      const ends = vertices(part.mesh)
        .filter(([x]) => x < -R + 0.5)
        .map(([, y]) => y);
      const seen = { skin: 0, mating: 0, bore: 0 };
      for (const { at, normal } of surfacePoints(part.mesh, 3)) {
        const [x, y, z] = at;
        const round = Math.hypot(x, z - R);
        const nearEnd = Math.min(...ends.map((e) => Math.abs(e - y)));
        const inHole = sizes.screwsAt.some(
          ([sx, sy]) => Math.hypot(x - sx, y - sy) < sizes.screw.seat.mouthDiameter / 2 + 1.5,
        );
        const known =
          inHole && Math.hypot(normal[0], normal[1]) > 0.99 && z > 1 && z < 2
            ? 'bore'
            : inHole
              ? null
              : round < sizes.holeDiameter / 2 + 1e-3 && nearEnd > 1.5
                ? 'bore'
                : Math.abs(normal[1]) > 0.9999 &&
                    Math.abs(y) < half - 1 &&
                    round > sizes.holeDiameter / 2 + 1.5 &&
                    round < R - 1.5
                  ? 'mating'
                  : Math.abs(normal[1]) < 1e-6 && nearEnd > 2 && x > sizes.notchFloor + 2
                    ? 'skin'
                    : Math.abs(normal[1]) < 1e-6 &&
                        nearEnd > 2 &&
                        round > R - 1e-2 &&
                        round < R + 1e-2 &&
                        x < 0
                      ? 'skin'
                      : Math.abs(normal[0] + 1) < 1e-6 &&
                          Math.abs(x - sizes.notchFloor) < 1e-4 &&
                          z > 1.2 &&
                          z < 2.8
                        ? 'skin'
                        : null;
        if (known === null) continue;
        seen[known]++;
        if (Math.abs(distance(at) - stock[known]) > 0.006) wrong.push({ known, at, distance: distance(at) });
      }
      expect(wrong).toEqual([]);
      for (const n of Object.values(seen)) expect(n).toBeGreaterThan(30);
    });
  }
});

describe('butt hinge: sizes', () => {
  it.each(Object.entries(cases))('%s: dimensions are those of the meshes, finished and cast', (_, given) => {
    for (const stock of [{}, { skin: 0.3, mating: 0.6, bore: 0.3 }]) {
      for (const leaf of leaves) {
        const built = pieceOf(buttHinge, leaf, { ...given, bore: 'cored', holes: 'cored' }, stock, 0.004);
        const sizes = sizesOf(given);
        const R = sizes.section.barrelRadius;
        const size = (symbol: string): number => pieceSize(built, symbol);
        const { min, max } = bounds(built.mesh);
        expect(max[1] - min[1]).toBeCloseTo(size('l'), 3);
        expect(max[0]).toBeCloseTo(size('b_l'), 3);
        expect(max[2] - min[2]).toBeGreaterThan(size('d_k') - 0.005);
        expect(max[2] - min[2]).toBeLessThan(size('d_k') + 1e-3);
        const points = vertices(built.mesh);
        const face = max[2] - size('h_f');
        expect(points.filter(([, , z]) => Math.abs(z - face) < 0.004).length).toBeGreaterThan(20);
        const bores = points.filter(([x, , z]) => Math.hypot(x, z - R) < R / 2 + 1);
        const bore = 2 * Math.min(...bores.map(([x, , z]) => Math.hypot(x, z - R)));
        // Corners in the middle of a chord lie inside by the tolerance.
        expect(Math.abs(bore - size('d_h'))).toBeLessThan(0.0085);
        // Floor of the notches: the least x of what lies under the face beside the knuckles.
        const floors = points.filter(([x, , z]) => x > R + 0.1 && z > 0.1 && z < face);
        expect(Math.min(...floors.map(([x]) => x))).toBeLessThan(size('a_n') + 1e-3);
        // Faces square to the pin, at the barrel's far side: the ends of the knuckles.
        const ends = surfacePoints(built.mesh, 50)
          .filter(({ at, normal }) => Math.abs(normal[1]) > 0.9999 && at[0] < -R / 2)
          .map(({ at }) => Number(at[1].toFixed(3)));
        const levels = [...new Set(ends)].sort((p, q) => p - q);
        const apart = levels.slice(1).map((y, i) => y - (levels[i] as number));
        for (const symbol of ['l_k', 'w_n'].filter((s) => built.dimensions.some((d) => d.symbol === s)))
          expect(Math.min(...apart.map((w) => Math.abs(w - size(symbol))))).toBeLessThan(0.003);
      }
    }
  });

  it('lands on stock sizes, metric and inch', () => {
    expect(sizesOf({}).pinDiameter).toBe(5);
    expect(sizesOf({ series: 'inch', size: 76.2 }).pinDiameter).toBeCloseTo(25.4 / 4, 9);
    expect(sizesOf({}).screw.fastener.name).toBe('4.5mm');
    expect(sizesOf({ series: 'inch', size: 76.2 }).screw.fastener.name).toMatch(/^#(8|9)$/);
    expect([38, 76, 152, 200].map((size) => sizesOf({ size }).row.count)).toEqual([3, 5, 5, 7]);
  });

  it('is sized by its door: heavier doors, thicker pins and knuckles, until it is too light', () => {
    const by = (doorMass: number) => sizesOf({ size: 100, doorMass });
    expect(by(5).pinDiameter).toBe(sizesOf({ size: 100 }).pinDiameter);
    for (const mass of [5, 20, 40, 60]) expect(by(mass).load.utilisation).toBeLessThanOrEqual(1);
    expect(by(60).pinDiameter).toBeGreaterThan(by(5).pinDiameter);
    expect(codesOf(buttHinge, 'outer-leaf', { size: 100, doorMass: 60 })).not.toContain('warn too-light');
    expect(codesOf(buttHinge, 'outer-leaf', { size: 100, doorMass: 60, pinDiameter: 4 })).toContain(
      'warn too-light',
    );
  });

  it('pull on a hinge by hand: W (w/2)/s beside W', () => {
    // 20 kg, 700 mm wide, hinged 1000 mm apart: W = 196.13 N, H = 68.65 N, √(W² + H²) = 207.8 N (statics).
    const { load } = sizesOf({ doorMass: 20, doorWidth: 700, hingeSpacing: 1000 });
    expect(load.load).toBeCloseTo(207.8, 1);
  });

  it('says which screws and what rod', () => {
    const texts = (leaf: string, given = {}) =>
      (pieceOf(buttHinge, leaf, given, {}, 0.1).fittings ?? []).map((f) => `${f.quantity} × ${f.text}`);
    expect(texts('outer-leaf')).toEqual([
      '1 × silicon bronze rod 5 mm × 81 mm',
      '3 × countersunk wood screw 4.5mm × 30 mm',
    ]);
    expect(texts('inner-leaf')).toEqual(['3 × countersunk wood screw 4.5mm × 30 mm']);
  });
});

describe('butt hinge: findings', () => {
  it.each([
    [{ knuckleWall: 1, pinDiameter: 6 }, 'stop leaf-outside-barrel'],
    [{ thickness: 2, knuckleWall: 1.2, pinDiameter: 5 }, 'warn knuckle-wall-thin'],
    [{ size: 20, knuckles: '9' }, 'stop knuckles-short'],
    [{ openWidth: 20 }, 'stop leaf-narrow'],
    [{ screw: 'M8' }, 'stop countersink-through-plate'],
    [{ screws: 8, screw: '6mm' }, 'stop screws-no-room'],
    [{ screws: 0 }, 'note no-screw-holes'],
    [{ leafGap: 0.1, notchRadius: 2 }, 'stop hinge-binds'],
    [{ knuckleGap: 0.1 }, 'warn hinge-tight'],
    [{ edge: 2 }, 'stop edges-meet'],
    [{ fillet: 0.5 }, 'warn fillet-small'],
    [{ leafGap: 0.1 }, 'warn notch-edge-thin'],
    [{}, 'note allowable-load'],
    [{}, 'note heaviest-door'],
  ])('%o: %s', (given, code) => {
    expect(codesOf(buttHinge, 'outer-leaf', given)).toContain(code);
  });

  it('the mould’s limit decides whether knuckles are cored', () => {
    const stock = { skin: 0.25, mating: 0.3, bore: 0.3 };
    // A core 4.55 mm thick may be 5 × as long; one under 4 mm only twice (three design guides, see holes.ts).
    expect(codesOf(buttHinge, 'inner-leaf', {}, stock)).not.toContain('note bore-drilled');
    expect(codesOf(buttHinge, 'inner-leaf', {}, { ...stock, bore: 0.6 })).toContain('note bore-drilled');
    expect(codesOf(buttHinge, 'inner-leaf', { bore: 'cored' }, { ...stock, bore: 0.6 })).toContain(
      'warn bore-core-long',
    );
  });

  it('refuses what stock fills', () => {
    const codes = (given: Record<string, unknown>, stock: Record<string, number>) =>
      codesOf(buttHinge, 'outer-leaf', given, stock);
    expect(codes({ fillet: 0.6 }, { skin: 0.5 })).toContain('stop fillet-filled-by-stock');
    expect(codes({ size: 25 }, { mating: 4 })).toContain('stop notch-closed-by-stock');
    expect(codes({ notchRadius: 0.7 }, { skin: 0.4 })).toContain('warn notch-corners-sharp');
  });

  it('gates and vents stand on metal', () => {
    for (const leaf of leaves) {
      const built = pieceOf(buttHinge, leaf, {}, { skin: 0.25, mating: 0.5, bore: 0.5 }, 0.01);
      const distance = distanceTo(built.mesh);
      const rim = ([x, y, z]: readonly number[], r: number) =>
        Array.from({ length: 16 }, (_, i) => {
          const a = (i * Math.PI) / 8;
          return [(x as number) + r * Math.cos(a), (y as number) + r * Math.sin(a), z as number] as const;
        });
      const gate = built.gates[0]!;
      for (const p of rim(gate.at, gate.outerDiameter / 2)) expect(distance(p)).toBeLessThan(0.002);
      expect(built.vents.length).toBeGreaterThanOrEqual(leaf === 'outer-leaf' ? 3 : 2);
      // On the round of a barrel a vent is sunk a little.
      for (const vent of built.vents)
        for (const p of rim(vent.at, vent.footDiameter / 2)) expect(distance(p)).toBeLessThan(0.22);
    }
  });
});

describe('butt hinge: the 2D motion check', () => {
  it('finds leaf and barrel, closed leaves and corners by their own geometry', () => {
    const sizes = sizesOf({ closedGap: 2, fillet: 1, leafGap: 3, notchRadius: 1 });
    const { motion } = sweepHinge(turningOf(sizes), Math.PI, noStock);
    // No fillet reaches the notch: the leaves' faces are the gap apart, at 0.
    expect(motion.leaves).toBeCloseTo(2, 6);
    expect(motion.leavesAt).toBe(0);
    expect(motion.ends).toBe(0.3);
    const shape = shapeOf(turningOf(sizesOf({ leafGap: 1.2, notchRadius: 1.5 })), noStock);
    expect(shape.notchFloor - shape.sections[0].barrelRadius).toBeCloseTo(1.2, 9);
  });
});
