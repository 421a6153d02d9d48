import { describe, expect, it } from 'vitest';
import { noStock, type Stock } from '../../core/part/stock.js';
import { inspectMesh } from '../../core/solid/inspect.js';
import type { Mesh, Vec3 } from '../../core/solid/types.js';
import { gudgeonPintleParameters } from '../../generators/gudgeon-pintle/parameters.js';
import { type RudderPiece, type RudderSizes, rudderSizes } from '../../generators/gudgeon-pintle/sizes.js';
import { outerHalf } from '../../generators/gudgeon-pintle/strap-shape.js';
import { swingLimit } from '../../generators/gudgeon-pintle/swing.js';
import gudgeonPintle from '../../generators/gudgeon-pintle.js';
import { overlapsOf, type Pose } from '../helpers/overlap-volume.js';
import { gapAt } from './fitting-probe.js';
import { bounds } from './hatch-pull-probe.js';
import { codesOf, pieceOf, pieceSize } from './hinge-probe.js';

const degree = Math.PI / 180;
const pieces: readonly RudderPiece[] = ['pintle', 'gudgeon'];
const sizesOf = (given: object, piece: RudderPiece): RudderSizes =>
  rudderSizes(gudgeonPintleParameters.parse(given), piece);

const cases: Readonly<Record<string, Record<string, unknown>>> = {
  default: {},
  dinghy: { size: 450, speed: 4 },
  sternpost: { mount: 'strap', postThickness: 35 },
  'pin of rod': { pin: 'rod' },
  inch: { series: 'inch', size: 609.6, bladeThickness: 25.4 },
};

describe('gudgeon and pintle: sizes', () => {
  it.each(Object.entries(cases))('%s: made without a warning, both castings', (_, given) => {
    for (const piece of pieces)
      for (const stock of [noStock, { ...noStock, skin: 0.3, face: 0.8, mating: 0.6, bore: 0.4 }])
        expect(
          codesOf(gudgeonPintle, piece, given, stock).filter((code) => !code.startsWith('note')),
        ).toEqual([]);
  });

  it('a larger rudder or a faster boat wants a thicker pin; its force goes with area and speed squared', () => {
    const pin = (given: object): number => sizesOf(given, 'pintle').pinDiameter;
    const pins = [300, 600, 900, 1200].map((size) => pin({ size }));
    for (let i = 1; i < pins.length; i++) expect(pins[i]).toBeGreaterThan(pins[i - 1] as number);
    expect(pin({ speed: 10 })).toBeGreaterThan(pin({ speed: 5 }));
    const force = (given: object): number => sizesOf({ pintleDiameter: 12, ...given }, 'pintle').load.load;
    expect(force({ speed: 10 }) / force({ speed: 5 })).toBeCloseTo(4, 9);
    expect(force({ size: 800, bladeWidth: 320 }) / force({ size: 400, bladeWidth: 160 })).toBeCloseTo(4, 9);
  });

  it('the upper pintle is a pin’s diameter shorter, and turns in the same gudgeon', () => {
    const [low, up] = [sizesOf({}, 'pintle'), sizesOf({ position: 'upper' }, 'pintle')];
    expect(low.pintleLength - up.pintleLength).toBeCloseTo(low.pinDiameter, 0);
    expect(sizesOf({ position: 'upper' }, 'gudgeon').holeDiameter).toBe(sizesOf({}, 'gudgeon').holeDiameter);
  });
});

const block = (min: Vec3, max: Vec3): Mesh => ({
  positions: Float32Array.from(
    Array.from({ length: 8 }, (_, i) =>
      [0, 1, 2].map((k) => ((i >> k) & 1 ? max[k] : min[k]) as number),
    ).flat(),
  ),
  triangles: Uint32Array.from(
    [
      [0, 2, 1],
      [1, 2, 3],
      [4, 5, 6],
      [5, 7, 6],
      [0, 1, 4],
      [1, 5, 4],
      [2, 6, 3],
      [3, 6, 7],
      [0, 4, 2],
      [2, 4, 6],
      [1, 3, 5],
      [3, 7, 5],
    ].flat(),
  ),
});

/** Turned over about X: the pin down, y and z the other way. */
const turnedOver = ({ positions, triangles }: Mesh): Mesh => ({
  positions: positions.map((value, i) => (i % 3 === 0 ? value : -value)),
  triangles,
});

describe('gudgeon and pintle: the rudder turns, on the real meshes', () => {
  for (const [name, given] of Object.entries(cases))
    it(`${name}: nothing touches up to the swing told, and wood does just beyond it`, async () => {
      const [p, g] = [sizesOf(given, 'pintle'), sizesOf(given, 'gudgeon')];
      const limit = swingLimit(p, g);
      expect(limit).toBeGreaterThan(40 * degree);
      const pintle = turnedOver(pieceOf(gudgeonPintle, 'pintle', given).mesh);
      const gudgeon = pieceOf(gudgeonPintle, 'gudgeon', given).mesh;
      // Hangs on the gudgeon's bearing face with a washer's thickness between.
      const lift = g.width + p.width + 0.5;
      const hung = (swing: number): Pose => ({ turn: Math.PI + swing, by: [0, 0, lift] });
      const still: Pose = { turn: 0, by: [0, 0, 0] };
      const metal = await overlapsOf(gudgeon, pintle);
      for (let swing = -limit; swing <= limit + 1e-9; swing += limit / 4)
        expect(metal.at(still, hung(swing))).toBe(0);
      metal.free();
      // Blade in the straps, and the wood the gudgeon is on, as high as both fittings.
      const [low, high] = [-200, 200];
      const blade = turnedOver(block([p.standOff, -p.wood / 2, low], [400, p.wood / 2, high]));
      const post = block(
        [g.standOff, g.mount === 'strap' ? -g.wood / 2 : -600, low],
        [400, g.mount === 'strap' ? g.wood / 2 : 600, high],
      );
      const looks = await Promise.all([
        overlapsOf(post, pintle),
        overlapsOf(gudgeon, blade),
        overlapsOf(post, blade),
      ]);
      const common = (swing: number): number =>
        looks.reduce((sum, look) => sum + look.at(still, hung(swing)), 0);
      for (const share of [0, 0.5, 0.9, 1]) expect(common(share * limit)).toBe(0);
      // A sternpost is taken as endlessly wide, as a transom is: it may let the rudder go further.
      if (limit < Math.PI / 2 && g.mount === 'plate') {
        const play = (g.holeDiameter - p.pinDiameter) / 2;
        const beyond = limit + (2 * play) / (p.wood / 2) + 2 * degree;
        expect(common(beyond)).toBeGreaterThan(0);
      }
      for (const look of looks) look.free();
    });

  it('the pin goes through its gudgeon with the clearance told, and its root into the mouth', async () => {
    const [p, g] = [sizesOf({}, 'pintle'), sizesOf({}, 'gudgeon')];
    const tolerance = 0.005;
    const pintle = turnedOver(pieceOf(gudgeonPintle, 'pintle', {}, {}, tolerance).mesh);
    const gudgeon = pieceOf(gudgeonPintle, 'gudgeon', {}, {}, tolerance).mesh;
    const fit = await overlapsOf(gudgeon, pintle);
    const gap = fit.gap(
      { turn: 0, by: [0, 0, 0] },
      { turn: Math.PI, by: [0, 0, g.width + p.width + 0.5] },
      2,
    );
    fit.free();
    const play = (g.holeDiameter - p.pinDiameter) / 2;
    expect(gap).toBeGreaterThan(Math.min(play, 0.5) - 2 * tolerance);
    expect(gap).toBeLessThan(play + 2 * tolerance);
  });
});

describe('gudgeon and pintle: dimensions measured on the mesh', () => {
  const stock: Stock = { ...noStock, skin: 0.35, face: 0.8, mating: 0.6, bore: 0.5 };
  const tolerance = 0.004;
  for (const [name, given] of Object.entries(cases))
    for (const piece of pieces)
      it.each([
        ['part', noStock],
        ['casting', stock],
      ] as const)(`${name}, ${piece}, %s`, (_, state) => {
        const asked = { ...given, bore: 'cored', holes: 'cored' };
        const s = sizesOf(asked, piece);
        const built = pieceOf(gudgeonPintle, piece, asked, state, tolerance);
        const { mesh } = built;
        const { min, max } = bounds(mesh);
        const near = (symbol: string, value: number): void =>
          expect({ symbol, off: Math.abs(value - pieceSize(built, symbol)) < 2 * tolerance, value }).toEqual({
            symbol,
            off: true,
            value,
          });
        near('b_o', max[1] - min[1]);
        near('d_b', 2 * -min[0]);
        const middle = s.width / 2 + 0.017;
        // The opening past the last screw, and a strap or the plate there.
        if (s.mount === 'strap') {
          const x = s.standOff + s.reach - s.thickness / 2;
          near('b', gapAt(mesh, 1, [x, 0.013, middle]));
          near('t', gapAt(mesh, 1, [x - s.thickness, (s.wood + s.thickness) / 2, 2 * s.edge + 0.5]));
          near('l', max[0] - min[0]);
        } else {
          near('t', gapAt(mesh, 0, [(s.front + s.standOff) / 2, s.reach - s.thickness, 2 * s.edge + 0.5]));
          near('s_o', max[0]);
        }
        if (s.castPin) {
          near('d', gapAt(mesh, 0, [0.013, 0.017, s.width + s.pinFillet + 1.5]));
          near('l_p', max[2] - (s.width + state.face));
        } else {
          near('d_h', gapAt(mesh, 0, [0.013, 0.017, middle]));
          near('w', max[2] - min[2]);
        }
        expect(inspectMesh(mesh).problems).toEqual([]);
      });
});

describe('gudgeon and pintle: stock by surface class', () => {
  it.each(pieces)('%s: skin, bearing face, pin and holes each by their own', (piece) => {
    const stock: Stock = { ...noStock, skin: 0.35, face: 0.8, mating: 0.6, bore: 0.5 };
    const given = { bore: 'cored', holes: 'cored' };
    const s = sizesOf(given, piece);
    const [part, cast] = [noStock, stock].map(
      (state) => pieceOf(gudgeonPintle, piece, given, state, 0.004).mesh,
    );
    const [a, b] = [bounds(part as Mesh), bounds(cast as Mesh)];
    // Lower face and outsides by the skin; the top by the pin's mating stock or the face's.
    expect(a.min[2] - b.min[2]).toBeCloseTo(stock.skin, 4);
    expect(b.max[1] - a.max[1]).toBeCloseTo(stock.skin, 2);
    expect(b.max[2] - a.max[2]).toBeCloseTo(s.castPin ? stock.mating : stock.face, 4);
    const narrower = (axis: 0 | 1 | 2, at: Vec3): number =>
      gapAt(part as Mesh, axis, at) - gapAt(cast as Mesh, axis, at);
    const middle = s.width / 2 + 0.017;
    if (s.castPin) {
      const at: Vec3 = [0.013, 0.017, s.width + s.pinFillet + 2];
      expect(Math.abs(-narrower(0, at) - 2 * stock.mating)).toBeLessThan(0.012);
    } else expect(Math.abs(narrower(0, [0.013, 0.017, middle]) - 2 * stock.bore)).toBeLessThan(0.012);
    const [along, height] = s.screwsAt[0] as readonly [number, number];
    const hole: Vec3 =
      s.mount === 'strap'
        ? [along + 0.01, outerHalf(s) - 0.4 * s.thickness, height + 0.01]
        : [s.standOff - 0.2 * s.thickness, along + 0.01, height + 0.01];
    expect(Math.abs(narrower(2, hole) - 2 * stock.bore)).toBeLessThan(0.02);
  });
});

describe('gudgeon and pintle: gates and vents', () => {
  it.each(Object.entries(cases))('%s: stand on metal, apart from each other', (_, given) => {
    const stock: Stock = { ...noStock, skin: 0.3, face: 0.8, mating: 0.6, bore: 0.4 };
    for (const piece of pieces) {
      const built = pieceOf(gudgeonPintle, piece, given, stock);
      const places = [
        ...built.gates.map((g) => [g.at, g.outerDiameter / 2] as const),
        ...built.vents.map((v) => [v.at, v.footDiameter / 2] as const),
      ];
      expect(built.gates[0]?.outerDiameter).toBeGreaterThan(5);
      expect(built.vents.length).toBeGreaterThan(0);
      for (const [at, radius] of places)
        for (let i = 0; i < 24; i++) {
          const angle = (i / 24) * 2 * Math.PI + 0.01;
          const under: Vec3 = [
            at[0] + 0.999 * radius * Math.cos(angle),
            at[1] + 0.999 * radius * Math.sin(angle),
            at[2] - 0.3,
          ];
          expect(gapAt(built.mesh, 2, under)).toBeGreaterThan(1.5);
        }
    }
  });
});

describe('gudgeon and pintle: findings', () => {
  const stocked = { skin: 0.3, face: 0.8, mating: 0.6, bore: 0.4 };
  it.each([
    ['stop edges-meet', 'pintle', { thickness: 4, edge: 1.8 }, {}],
    ['stop boss-wide', 'pintle', { bladeThickness: 10, pintleDiameter: 25, thickness: 4 }, {}],
    ['stop straps-short', 'pintle', { strapLength: 22, thickness: 8, fillet: 4, screws: 1 }, {}],
    ['stop fillet-filled-by-stock', 'pintle', { fillet: 0.8 }, { skin: 0.6 }],
    ['warn fillet-small', 'pintle', { fillet: 0.8, thickness: 8, pintleDiameter: 12 }, {}],
    ['warn mould-fin-thin', 'pintle', { bladeThickness: 12, strapLength: 120 }, {}],
    ['stop screws-no-room', 'gudgeon', { screw: 'M10', strapWidth: 18, thickness: 8 }, {}],
    ['stop web-thin', 'pintle', { bladeThickness: 80, pintleDiameter: 6 }, {}],
    ['warn rudder-swing-small', 'pintle', { bladeThickness: 70 }, {}],
    ['note rudder-swing', 'gudgeon', {}, {}],
    ['warn too-light', 'pintle', { size: 1200, speed: 10, pintleDiameter: 6 }, {}],
    ['note allowable-load', 'pintle', {}, {}],
    ['note rudder-estimate', 'pintle', {}, {}],
    ['note pin-turned', 'pintle', {}, stocked],
    ['note bore-drilled', 'gudgeon', { bore: 'drilled' }, stocked],
    ['note bore-drilled', 'gudgeon', { size: 300 }, stocked],
    ['warn gate-place-small', 'gudgeon', { size: 300, bore: 'cored' }, stocked],
  ] as const)('%s: %s %j', (code, piece, given, stock) => {
    expect(codesOf(gudgeonPintle, piece, given, stock)).toContain(code);
  });

  it('says which bolts, and what rod for a pin that is not cast', () => {
    const texts = (piece: RudderPiece, given: object) =>
      (pieceOf(gudgeonPintle, piece, given as Record<string, unknown>).fittings ?? []).map((f) => f.text);
    expect(texts('pintle', {}).join()).not.toMatch(/rod/);
    expect(texts('pintle', { pin: 'rod' }).join()).toMatch(/silicon bronze rod/);
    expect(texts('gudgeon', {}).join()).toMatch(/M\d/);
  });
});
