import { describe, expect, it } from 'vitest';
import { noStock } from '../../core/part/stock.js';
import { leastClearance } from '../../generators/hinge/motion.js';
import { sweepHinge } from '../../generators/hinge/motion-findings.js';
import { strapHingeParameters } from '../../generators/strap-hinge/parameters.js';
import { strapHingeSizes, turningOf } from '../../generators/strap-hinge/sizes.js';
import strapHinge from '../../generators/strap-hinge.js';
import { bounds, distanceTo, surfacePoints, vertices } from './hatch-pull-probe.js';
import { assemble, codesOf, pieceOf, pieceSize } from './hinge-probe.js';

const degree = Math.PI / 180;
const sizesOf = (given: Record<string, unknown>) => strapHingeSizes(strapHingeParameters.parse(given));
const leaves = ['plate', 'strap'] as const;
const cases: Record<string, Record<string, unknown>> = {
  default: {},
  chest: { size: 100 },
  'shed door': { size: 185, doorMass: 25, doorWidth: 700, hingeSpacing: 1200 },
  inch: { series: 'inch', size: 177.8, tip: 'round' },
  'five knuckles': { rootWidth: 60, knuckles: '5' },
};

describe('strap hinge: strap and plate turn on their pin, on the real meshes', () => {
  for (const [name, given] of Object.entries(cases)) {
    it(`${name}: no common volume at any angle, clearances as computed`, async () => {
      const sizes = sizesOf(given);
      const [a, b] = leaves.map((leaf) => pieceOf(strapHinge, leaf, given, {}, 0.01).mesh) as [never, never];
      const hinge = await assemble(a, sizes.barrelRadius, b);
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

  it('folded together the leaves are the gap apart, where the joints are wide', async () => {
    const given = {
      knuckleGap: 2,
      thickness: 4,
      knuckleWall: 4.2,
      pinDiameter: 3,
      rootWidth: 50,
      leafGap: 3,
    };
    const sizes = sizesOf(given);
    const [a, b] = leaves.map((leaf) => pieceOf(strapHinge, leaf, given, {}, 0.005).mesh) as [never, never];
    const hinge = await assemble(a, sizes.barrelRadius, b);
    const { motion } = sweepHinge(turningOf(sizes), Math.PI, noStock);
    expect(Math.abs(hinge.gap(0, 5) - leastClearance(motion))).toBeLessThan(0.01);
    hinge.free();
  });

  it('as cast, the knuckles’ ends overlap by their stock', async () => {
    const stock = { skin: 0.25, mating: 1, bore: 1 };
    const sizes = sizesOf({});
    const [a, b] = leaves.map((leaf) => pieceOf(strapHinge, leaf, {}, stock, 0.02).mesh) as [never, never];
    const hinge = await assemble(a, sizes.barrelRadius, b);
    // Two joints, each 2 × 1 − 0.3 mm short, over the barrel at least (solid but for drill centres).
    expect(hinge.overlap(Math.PI / 2)).toBeGreaterThan(2 * 1.7 * 0.9 * Math.PI * sizes.barrelRadius ** 2);
    hinge.free();
    expect(codesOf(strapHinge, 'strap', {}, stock)).toContain('note knuckles-fitted');
  });
});

describe('strap hinge: stock by surface class, as distance on the meshes', () => {
  const stock = { skin: 0.35, mating: 0.8, bore: 0.5 };
  const given = { bore: 'cored', holes: 'cored', pinEnds: 'flush', pinDiameter: 6, rootWidth: 45 };
  for (const leaf of leaves) {
    it(leaf, () => {
      const sizes = sizesOf(given);
      const part = pieceOf(strapHinge, leaf, given, {}, 0.004);
      const distance = distanceTo(pieceOf(strapHinge, leaf, given, stock, 0.004).mesh);
      const [R, half] = [sizes.barrelRadius, sizes.rootWidth / 2];
      const screws = leaf === 'strap' ? sizes.strapScrewsAt : sizes.plateScrewsAt;
      const wrong: unknown[] = [];
      const seen = { skin: 0, mating: 0, bore: 0 };
      for (const { at, normal } of surfacePoints(part.mesh, 2.5)) {
        const [x, y, z] = at;
        const round = Math.hypot(x, z - R);
        const inHole = screws.some(([sx, sy]) => Math.hypot(x - sx, y - sy) < 6);
        let known: 'skin' | 'mating' | 'bore' | null = null;
        // Leaf past its root: faces, sides and all roundings, but for the screw holes.
        if (x > sizes.taperStart && !inHole) known = 'skin';
        else if (Math.abs(normal[1]) > 0.9999 && Math.abs(y) < half - 1 && x < 0) {
          if (round > sizes.holeDiameter / 2 + 1.5 && round < R - 1.5) known = 'mating';
        } else if (round < sizes.holeDiameter / 2 + 1e-3) {
          const ends = sizes.row.knuckleLength + sizes.row.gap;
          const inKnuckle = Math.abs(((y + half) % ends) - sizes.row.knuckleLength / 2);
          if (inKnuckle < sizes.row.knuckleLength / 2 - 1.5) known = 'bore';
        }
        if (known === null) continue;
        seen[known]++;
        if (Math.abs(distance(at) - stock[known]) > 0.009) wrong.push({ known, at, distance: distance(at) });
      }
      expect(wrong).toEqual([]);
      for (const n of Object.values(seen)) expect(n).toBeGreaterThan(8);
    });
  }
});

describe('strap hinge: sizes', () => {
  it.each(Object.entries(cases))('%s: dimensions are those of the meshes, finished and cast', (_, given) => {
    for (const stock of [{}, { skin: 0.3, mating: 0.6, bore: 0.3 }]) {
      for (const leaf of leaves) {
        const built = pieceOf(strapHinge, leaf, { ...given, bore: 'cored', holes: 'cored' }, stock, 0.004);
        const sizes = sizesOf(given);
        const size = (symbol: string): number => pieceSize(built, symbol);
        const { min, max } = bounds(built.mesh);
        const points = vertices(built.mesh);
        const R = sizes.barrelRadius;
        expect(max[0]).toBeCloseTo(size(leaf === 'strap' ? 'l_s' : 'b_p'), 2);
        expect(max[1] - min[1]).toBeCloseTo(size('b_r'), 3);
        expect(Math.abs(max[2] - min[2] - size('d_k'))).toBeLessThan(0.009);
        const face = max[2] - size('h_f');
        expect(points.filter(([, , z]) => Math.abs(z - face) < 0.005).length).toBeGreaterThan(20);
        expect(face - min[2]).toBeCloseTo(size('t'), 2);
        if (leaf === 'strap') {
          const tip = points.filter(([x]) => x > size('l_s') - size('s_t') / 2 - 1.5).map(([, y]) => y);
          expect(Math.abs(2 * Math.max(...tip) - size('s_t'))).toBeLessThan(
            given.tip === 'round' ? 0.6 : 0.02,
          );
        }
        const ends = surfacePoints(built.mesh, 50)
          .filter(({ at, normal }) => Math.abs(normal[1]) > 0.9999 && at[0] < -R / 2)
          .map(({ at }) => Number(at[1].toFixed(3)));
        const levels = [...new Set(ends)].sort((p, q) => p - q);
        const apart = levels.slice(1).map((y, i) => y - (levels[i] as number));
        expect(Math.min(...apart.map((w) => Math.abs(w - size('l_k'))))).toBeLessThan(0.003);
      }
    }
  });

  it('keeps the rule of strap hinges: half the door, a sixth at the root, a tenth at the tip', () => {
    const s = sizesOf({ size: 300 });
    expect([s.rootWidth, s.tipWidth, s.use.doorWidth, s.strapScrewsAt.length]).toEqual([50, 30, 600, 4]);
    expect(sizesOf({ size: 60 }).thickness).toBe(3);
  });

  it('is sized by its door', () => {
    const by = (doorMass: number) => sizesOf({ size: 300, doorMass });
    for (const mass of [10, 40, 80]) expect(by(mass).load.utilisation).toBeLessThanOrEqual(1);
    expect(by(80).barrelRadius).toBeGreaterThan(by(10).barrelRadius);
    expect(codesOf(strapHinge, 'strap', { size: 100, doorMass: 200 })).toContain('warn too-light');
  });

  it('the plate brings the pin, both their screws', () => {
    const texts = (leaf: string) =>
      (pieceOf(strapHinge, leaf, {}, {}, 0.1).fittings ?? []).map((f) => `${f.quantity} × ${f.text}`);
    expect(texts('plate')).toEqual([
      '1 × silicon bronze rod 5 mm × 35 mm',
      '4 × countersunk wood screw 4mm × 25 mm',
    ]);
    expect(texts('strap')).toEqual(['3 × countersunk wood screw 4mm × 25 mm']);
  });
});

describe('strap hinge: findings', () => {
  it.each([
    [{ tipWidth: 60 }, 'stop strap-widens'],
    [{ size: 60, rootWidth: 80 }, 'stop strap-short'],
    [{ tipWidth: 6, edge: 1.5 }, 'stop strap-tip-narrow'],
    [{ plateWidth: 12 }, 'stop plate-narrow'],
    [{ plateScrews: 8 }, 'stop screws-no-room'],
    [{ screw: 'M10' }, 'stop countersink-through-plate'],
    [{ plateScrews: 0 }, 'note no-screw-holes'],
    [{ fillet: 0.8 }, 'warn fillet-small'],
    [{}, 'note allowable-load'],
    [{}, 'note heaviest-door'],
  ])('%o: %s', (given, code) => {
    expect(codesOf(strapHinge, 'plate', given)).toContain(code);
  });

  it('refuses more stock than strap and plate are made for', () => {
    expect(codesOf(strapHinge, 'strap', { fillet: 4 }, { skin: 2.5 })).toContain('stop skin-stock-thick');
  });

  it('gates and vents stand on metal', () => {
    for (const leaf of leaves) {
      const built = pieceOf(strapHinge, leaf, {}, { skin: 0.25, mating: 0.5, bore: 0.5 }, 0.01);
      const distance = distanceTo(built.mesh);
      const rim = ([x, y, z]: readonly number[], r: number) =>
        Array.from({ length: 16 }, (_, i) => {
          const a = (i * Math.PI) / 8;
          return [(x as number) + r * Math.cos(a), (y as number) + r * Math.sin(a), z as number] as const;
        });
      const gate = built.gates[0]!;
      for (const p of rim(gate.at, gate.outerDiameter / 2)) expect(distance(p)).toBeLessThan(0.002);
      expect(built.vents.length).toBeGreaterThanOrEqual(2);
      for (const vent of built.vents)
        for (const p of rim(vent.at, vent.footDiameter / 2)) expect(distance(p)).toBeLessThan(0.22);
    }
  });
});
