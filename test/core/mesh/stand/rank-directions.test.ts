import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { findPockets } from '../../../../core/foundry/air/index.js';
import { readFacts } from '../../../../core/mesh/stand/facts.js';
import { rankDirections, standWeights } from '../../../../core/mesh/stand/index.js';
import { measureStand } from '../../../../core/mesh/stand/measure.js';
import { scoreStand } from '../../../../core/mesh/stand/score.js';
import { measureOverhang } from '../../../../core/plate/overhang.js';
import { loadKernel } from '../../../../core/solid/index.js';
import type { Kernel, Mesh, Solid, Vec3 } from '../../../../core/solid/types.js';
import { angleBetween, anyTurn, apply, degree, turned } from './shapes.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const meshOf = (make: () => Solid): Mesh => kernel.scope(() => make().mesh());
const box = (x: number, y: number, z: number): Mesh => meshOf(() => kernel.box([0, 0, 0], [x, y, z]));
const bed = { width: 220, depth: 220, height: 250 };

/** Round, thick above, waisted by 60°, thinner below: nothing to support whichever end is up. */
const club = (): Mesh =>
  meshOf(() =>
    kernel.revolve(
      [
        [0, 0],
        [14, 0],
        [14, 25],
        [22, 39],
        [22, 60],
        [0, 60],
      ],
      0.1,
    ),
  );

/** Two legs of 12 by 12 on a bar, 30 and 40 high over it: 1 mm short of a saddle at z = 12. */
const fork = (): Mesh =>
  meshOf(() =>
    kernel.union([
      kernel.box([0, 0, 0], [60, 12, 12]),
      kernel.box([0, 0, 11], [12, 12, 42]),
      kernel.box([48, 0, 11], [60, 12, 52]),
    ]),
  );

/** No symmetry at all: turns of it are told apart. */
const bracket = (): Mesh =>
  meshOf(() =>
    kernel.union([
      kernel.box([0, 0, 0], [70, 40, 6]),
      kernel.box([0, 0, 5], [9, 25, 30]),
      kernel.frustum([52, 22], 5, 10, 22, 10, 0.1),
    ]),
  );

it('the weights are the whole of a score', () => {
  expect(Object.values(standWeights).reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
});

describe('what is measured of a way to stand', () => {
  it('of a box: its foot, height, room, the level top, nothing to support, no air', () => {
    const facts = readFacts(box(60, 40, 6));
    const flat = measureStand(facts, [0, 0, 1], { bed });
    expect(flat).toMatchObject({ fits: true, support: 0, air: { places: 0, volume: 0 } });
    expect(flat.foot).toBeCloseTo(2400, 3);
    expect(flat.gate).toBeCloseTo(2400, 3);
    expect(flat.height).toBeCloseTo(6, 6);
    expect(flat.feed).toBeCloseTo(0.5, 2);
    expect(flat.balance).toBeCloseTo(20, 4);
    const edge = measureStand(facts, [0, Math.SQRT1_2, Math.SQRT1_2], {});
    expect(edge.foot).toBe(0);
    // Leaning 45° no side is flatter than that.
    expect(edge.support).toBe(0);
    expect(edge.height).toBeCloseTo(46 * Math.SQRT1_2, 4);
  });

  it('support is what the overhang of the turned mesh is, whatever the direction', () => {
    const meshes = [bracket(), fork(), club()];
    const facts = meshes.map(readFacts);
    fc.assert(
      fc.property(anyTurn, fc.constantFrom(0, 1, 2), (turn, n) => {
        const mesh = meshes[n]!;
        const support = measureStand(facts[n]!, turn[2], {}).support;
        expect(support).toBeCloseTo(measureOverhang(turned(mesh, turn)).area, 1);
      }),
      { numRuns: 60, seed: 83, endOnFailure: true },
    );
  });

  it('of a fork, legs up: the air of its shorter leg, to the saddle; legs down none', () => {
    const facts = readFacts(fork());
    const exact = 12 * 12 * 30;
    const [up, down] = [1, -1].map((z) => measureStand(facts, [0, 0, z], {}));
    expect(up!.air.places).toBe(1);
    expect(up!.air.volume / exact).toBeCloseTo(1, 1);
    expect(down!.air).toMatchObject({ places: 0, volume: 0 });
    const ranked = rankDirections(fork());
    for (const way of ranked) {
      const pockets = findPockets(fork(), { up: way.direction }).pockets;
      expect(way.measures.air).toEqual({
        places: pockets.length,
        volume: pockets.reduce((sum, p) => sum + p.volume, 0),
        estimated: false,
      });
    }
  });

  it('a cup holds its metal either way up: the mould of it has no place that is shut in', () => {
    const cup = meshOf(() =>
      kernel.frustum([0, 0], 0, 20, 30, 20, 0.1).subtract(kernel.frustum([0, 0], 5, 15, 31, 15, 0.1)),
    );
    const facts = readFacts(cup);
    for (const z of [1, -1]) {
      expect(findPockets(cup, { up: [0, 0, z] }).pockets).toEqual([]);
      expect(measureStand(facts, [0, 0, z], {}).air.places).toBe(0);
    }
    // Mouth down its floor hangs over the hollow: 15 mm of radius to support.
    const area = measureStand(facts, [0, 0, -1], {}).support;
    expect(area).toBeGreaterThan(0.98 * Math.PI * 225);
    expect(area).toBeLessThan(Math.PI * 225);
    expect(rankDirections(cup)[0]!.direction).toEqual([0, 0, 1]);
  });
});

describe('the best way to stand', () => {
  it('a plate lies flat, and others are 20° off at least', () => {
    const ranked = rankDirections(box(80, 50, 5), { bed });
    expect(Math.abs(ranked[0]!.direction[2])).toBe(1);
    expect(ranked).toHaveLength(3);
    for (const [i, a] of ranked.entries())
      for (const b of ranked.slice(0, i)) {
        expect(angleBetween(a.direction, b.direction)).toBeGreaterThanOrEqual(19.99 * degree);
        expect(a.score).toBeLessThanOrEqual(b.score + 1e-3);
      }
    expect(ranked[0]!.name).toBe('as it is');
    expect(ranked[0]!.reasons).toEqual([
      'It stands on 40.0 cm² by itself.',
      'Nothing of it needs support.',
      'Metal rising in it traps no air.',
      'The middle of its heavy metal is 50 % of the way up, neither near the gate nor far.',
      '40.0 cm² near its top is level enough for a gate.',
      'It takes 80 mm by 50 mm, 5.0 mm high, which fits the bed.',
    ]);
  });

  it('a cone stands on its base', () => {
    const cone = meshOf(() => kernel.frustum([0, 0], 0, 20, 45, 0, 0.1));
    expect(rankDirections(cone)[0]!.direction).toEqual([0, 0, 1]);
    const facts = readFacts(cone);
    expect(measureStand(facts, [0, 0, 1], {})).toMatchObject({ support: 0, air: { places: 0 } });
    expect(measureStand(facts, [0, 0, 1], {}).foot).toBeGreaterThan(0.99 * Math.PI * 400);
  });

  it('where nothing needs support, with its heavy end up, near the gate', () => {
    const [first] = rankDirections(club());
    expect(first!.direction).toEqual([0, 0, 1]);
    expect(first!.measures.feed).toBeGreaterThan(0.6);
    expect(first!.measures.support).toBe(0);
    const upside = turned(club(), [
      [1, 0, 0],
      [0, -1, 0],
      [0, 0, -1],
    ]);
    expect(rankDirections(upside)[0]!.direction).toEqual([0, 0, -1]);
  });

  it('of a plain T, head up, the wings’ support outweighs the feeding', () => {
    const tee = meshOf(() =>
      kernel.union([kernel.box([-30, -10, 30], [30, 10, 50]), kernel.box([-8, -10, 0], [8, 10, 31])]),
    );
    const facts = readFacts(tee);
    const [up, down] = [1, -1].map((z) => measureStand(facts, [0, 0, z], {}));
    expect(up!.feed).toBeGreaterThan(down!.feed);
    expect(up!.support).toBeCloseTo(20 * 44, 2);
    expect(down!.support).toBe(0);
    expect(scoreStand(down!, facts, 60)).toBeGreaterThan(scoreStand(up!, facts, 60));
  });

  it('of a ball all ways are as good', () => {
    const ball = meshOf(() => kernel.sphere([0, 0, 0], 20, 0.05));
    const scores = rankDirections(ball).map((w) => w.score);
    expect(Math.max(...scores) - Math.min(...scores)).toBeLessThan(0.03);
    const facts = readFacts(ball);
    const some: Vec3[] = [
      [0, 0, 1],
      [0.6, 0, 0.8],
      [0.48, 0.64, 0.6],
      [1, 0, 0],
    ];
    const all = some.map((d) => scoreStand(measureStand(facts, d, {}), facts, 40));
    expect(Math.max(...all) - Math.min(...all)).toBeLessThan(0.03);
  });

  it('does not depend on how the part came turned', () => {
    const before = bracket();
    const [best] = rankDirections(before);
    fc.assert(
      fc.property(anyTurn, (turn) => {
        const [found] = rankDirections(turned(before, turn));
        // Cells and the tallest way are seen a little differently.
        expect(Math.abs(found!.score - best!.score)).toBeLessThan(0.015);
        expect(angleBetween(found!.direction, apply(turn, best!.direction))).toBeLessThan(1.5 * degree);
      }),
      { numRuns: 12, seed: 84, endOnFailure: true },
    );
  });

  it('leaves marked faces out as places for a gate', () => {
    const mesh = box(60, 40, 12);
    const avoid = new Uint8Array(mesh.triangles.length / 3);
    for (let f = 0; f < avoid.length; f++)
      if ([0, 1, 2].every((k) => mesh.positions[3 * mesh.triangles[3 * f + k]! + 2] === 12)) avoid[f] = 1;
    const [best] = rankDirections(mesh, { avoid });
    expect(best!.direction).toEqual([0, 0, -1]);
    expect(measureStand(readFacts(mesh), [0, 0, 1], { avoid }).gate).toBe(0);
  });
});

describe('the bed', () => {
  const bar = (length: number) => box(length, 20, 20);
  it('rules out a bar that is too long for it, and says so', () => {
    const small = { width: 100, depth: 100, height: 250 };
    const ranked = rankDirections(bar(200), { bed: small });
    expect(Math.abs(ranked[0]!.direction[0])).toBeGreaterThan(0.8);
    expect(ranked.filter((w) => w.measures.fits).length).toBe(3);
    const out = ranked.at(-1)!;
    expect(out.measures.fits).toBe(false);
    expect(out.reasons[0]).toBe(
      'It does not fit the bed: it takes 200 mm by 20 mm, 20 mm high; the bed has 100 mm by 100 mm, 250 mm high.',
    );
    const none = rankDirections(bar(200), { bed: { ...small, height: 90 } });
    expect(none.every((w) => !w.measures.fits)).toBe(true);
    expect(none.length).toBeGreaterThan(0);
  });

  it('takes a bar across its corners: just as far as length and width over √2', () => {
    const fits = (length: number) =>
      measureStand(readFacts(bar(length)), [0, 0, 1], { bed: { width: 150, depth: 150, height: 50 } }).fits;
    expect(fits(150 * Math.SQRT2 - 20 - 0.01)).toBe(true);
    expect(fits(150 * Math.SQRT2 - 20 + 0.01)).toBe(false);
  });

  it('finds a turn that fits where a tenth of a degree’s steps find one', () => {
    const shape = bracket();
    const facts = readFacts(shape);
    const side = fc.double({ min: 30, max: 90, noNaN: true });
    fc.assert(
      fc.property(anyTurn, side, side, (turn, width, depth) => {
        const { fits } = measureStand(facts, turn[2], { bed: { width, depth, height: 1000 } });
        const flat = turned(shape, turn).positions;
        let found = false;
        for (let a = 0; a < 1800 && !found; a++) {
          const [c, s] = [Math.cos(a * 0.1 * degree), Math.sin(a * 0.1 * degree)];
          let [u0, u1, v0, v1] = [Infinity, -Infinity, Infinity, -Infinity];
          for (let i = 0; i < flat.length; i += 3) {
            const [u, v] = [c * flat[i]! + s * flat[i + 1]!, c * flat[i + 1]! - s * flat[i]!];
            [u0, u1, v0, v1] = [Math.min(u0, u), Math.max(u1, u), Math.min(v0, v), Math.max(v1, v)];
          }
          found = u1 - u0 <= width && v1 - v0 <= depth;
        }
        // The steps may miss what just fits.
        if (found) expect(fits).toBe(true);
        else if (fits) {
          const tight = measureStand(facts, turn[2], {
            bed: { width: width - 0.2, depth: depth - 0.2, height: 1000 },
          });
          expect(tight.fits).toBe(false);
        }
      }),
      { numRuns: 40, seed: 85, endOnFailure: true },
    );
  });

  it('leaves headroom for the gating', () => {
    const facts = readFacts(box(30, 30, 100));
    const high = (headroom: number) =>
      measureStand(facts, [0, 0, 1], { bed: { width: 100, depth: 100, height: 150, headroom } }).fits;
    expect([high(0), high(50), high(51)]).toEqual([true, true, false]);
  });
});
